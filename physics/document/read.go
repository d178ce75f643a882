package document

import (
	"slices"
	"strconv"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"

	"wheelroom/physics/phrase"
)

// Read reads text, known as name, as the declaration says and returns
// everything that is wrong with it, sorted by place. Variables of keys that are absent or wrong
// stay as they were; when the problems have Failed, use none of them.
//
// declare runs more than once and must do nothing but declare.
func Read(name string, text []byte, declare func(m *Mapping)) []Problem {
	problems := read(text, declare)
	for i := range problems {
		problems[i].File = name
	}
	return problems
}

func read(text []byte, declare func(m *Mapping)) []Problem {
	root, problems := parse(text)
	if root == nil {
		return problems
	}
	r := &reader{problems: problems, known: Describe(declare)}
	r.mapping(root, "", func(p pass) { declare(&Mapping{pass: p}) })
	for _, p := range r.problems {
		if p.Path == "version" && p.Phrase.ID == "document.number-too-large" {
			p.Phrase.ID = "document.newer-version"
			return []Problem{p}
		}
	}
	Sort(r.problems)
	return r.problems
}

// Keys returns the keys at the top of a document, or nil when the text is no
// mapping: enough to tell what kind of document it is.
func Keys(text []byte) []string {
	root, _ := parse(text)
	if root == nil {
		return nil
	}
	var keys []string
	for _, e := range root.Values {
		keys = append(keys, keyText(e.Key))
	}
	return keys
}

// reader is one reading of one document.
type reader struct {
	problems []Problem
	known    []Field
}

func (r *reader) add(line, col int, path string, p phrase.Phrase) {
	r.problems = append(r.problems, Problem{Line: line, Col: col, Path: path, Phrase: p})
}

// mapping reads one mapping node and then names the keys nobody declared.
func (r *reader) mapping(node *ast.MappingNode, path string, declare func(p pass)) {
	g := &reading{reader: r, node: node, path: path}
	declare(g)
	for _, e := range node.Values {
		switch e.Key.(type) {
		case *ast.MergeKeyNode, *ast.MappingKeyNode:
			continue // refused by their form already
		}
		if key := keyText(e.Key); !slices.Contains(g.declared, key) {
			line, col := position(e.Key)
			r.add(line, col, join(path, key), g.unknown(e))
		}
	}
}

// reading is the pass over one mapping of the document being read.
type reading struct {
	*reader
	node     *ast.MappingNode
	path     string
	declared []string
}

// entry returns the first entry with the key, or nil.
func (g *reading) entry(key string) *ast.MappingValueNode {
	for _, e := range g.node.Values {
		if _, merge := e.Key.(*ast.MergeKeyNode); !merge && keyText(e.Key) == key {
			return e
		}
	}
	return nil
}

func (g *reading) given(key string) bool { return g.entry(key) != nil }

func (g *reading) need(keys []string) {
	for _, key := range keys {
		if g.entry(key) == nil {
			line, col := position(g.node)
			g.add(line, col, join(g.path, key), phrase.Of("document.missing-key", "key", key, "section", section(g.path)))
		}
	}
}

// section names a mapping in a message.
func section(path string) phrase.Phrase {
	if path == "" {
		return phrase.Of("document.at-top")
	}
	return phrase.Of("document.in-section", "section", path)
}

func (g *reading) unknown(e *ast.MappingValueNode) phrase.Phrase {
	key := keyText(e.Key)
	shown := excerpt(key)
	if _, empty := e.Value.(*ast.NullNode); empty && decimal(key) {
		// {height_m: 4,2} is the value 4 and then a key 2.
		return phrase.Of("document.comma-key", "key", shown)
	}
	if path, ok := Find(g.known, key); ok {
		return phrase.Of("document.misplaced-key", "key", shown, "section", section(g.path), "path", path)
	}
	if near := nearest(key, g.declared); near != "" {
		return phrase.Of("document.unknown-key-near", "key", shown, "section", section(g.path), "near", near)
	}
	return phrase.Of("document.unknown-key", "key", shown, "section", section(g.path), "keys", listed(g.declared))
}

// listed joins words with commas.
func listed(words []string) string {
	s := ""
	for i, w := range words {
		if i > 0 {
			s += ", "
		}
		s += w
	}
	return s
}

// declares notes a declared key and returns its entry, if the document has it
// and it can be judged (an alias has been refused already).
func (g *reading) declares(f Field) *ast.MappingValueNode {
	g.declared = append(g.declared, f.Key)
	e := g.entry(f.Key)
	if e == nil {
		return nil
	}
	if _, alias := bare(e.Value).(*ast.AliasNode); alias {
		return nil
	}
	return e
}

func (g *reading) either(shared, first, second Field, a, b *float64) {
	both := *a
	g.value(shared, &both)
	if g.given(shared.Key) {
		*a, *b = both, both
	}
	g.value(first, a)
	g.value(second, b)
}

func (g *reading) mapping(f Field, declare func(p pass)) {
	e := g.declares(f)
	if e == nil {
		return
	}
	m := asMapping(bare(e.Value))
	if m == nil {
		g.wrong(e, f, phrase.Phrase{})
		return
	}
	g.reader.mapping(m, join(g.path, f.Key), declare)
}

func (g *reading) list(f Field, _ int, grow func(), entry func(i int, p pass)) {
	e := g.declares(f)
	if e == nil {
		return
	}
	l, ok := bare(e.Value).(*ast.SequenceNode)
	if !ok {
		g.wrong(e, f, phrase.Phrase{})
		return
	}
	g.count(e, f, len(l.Values))
	for i, v := range l.Values {
		grow()
		path := join(g.path, f.Key) + "[" + strconv.Itoa(i) + "]"
		m := asMapping(bare(v))
		if m == nil {
			line, col := position(v)
			g.add(line, col, path, phrase.Of("document.wrong-kind", "key", path, "found", found(v),
				"wanted", phrase.Of("document.wanted-map"), "remedy", phrase.Phrase{}))
			continue
		}
		g.reader.mapping(m, path, func(p pass) { entry(i, p) })
	}
}

func (g *reading) count(e *ast.MappingValueNode, f Field, n int) {
	if p, bad := f.Limit.check("list", f.Key, float64(n), strconv.Itoa(n)); bad {
		line, col := position(e.Key)
		g.add(line, col, join(g.path, f.Key), p)
	}
}

// wrong reports a value of the wrong kind.
func (g *reading) wrong(e *ast.MappingValueNode, f Field, remedy phrase.Phrase) {
	line, col := valuePosition(e)
	g.add(line, col, join(g.path, f.Key), phrase.Of("document.wrong-kind", "key", f.Key, "found", found(e.Value),
		"wanted", phrase.Of("document.wanted-"+f.Kind.String()), "remedy", remedy))
}

func (g *reading) value(f Field, variable any) {
	e := g.declares(f)
	if e == nil {
		return
	}
	n := bare(e.Value)
	refuse := func(p phrase.Phrase) {
		line, col := valuePosition(e)
		g.add(line, col, join(g.path, f.Key), p)
	}
	switch f.Kind {
	case Real:
		v, err := number(n, f.Limit.exponent())
		if err != "" {
			g.wrong(e, f, remedy(err, n))
			return
		}
		s, _ := asScalar(n)
		shown, _ := number(n, "")
		if p, bad := f.Limit.check("number", f.Key, shown, excerpt(s.text)); bad {
			refuse(p)
			return
		}
		if to, ok := variable.(**float64); ok {
			*to = &v
		} else {
			*variable.(*float64) = v
		}
	case Whole:
		v, err := whole(n)
		if err != "" {
			g.wrong(e, f, remedy(err, n))
			return
		}
		s, _ := asScalar(n)
		if p, bad := f.Limit.check("number", f.Key, float64(v), excerpt(s.text)); bad {
			refuse(p)
			return
		}
		*variable.(*int) = v
	case Truth:
		b, ok := n.(*ast.BoolNode)
		if !ok {
			g.wrong(e, f, phrase.Of("document.remedy-truth"))
			return
		}
		*variable.(*bool) = b.Value
	case Text:
		g.text(e, f, n, refuse, variable.(*string))
	case Choice:
		if !isText(n) {
			g.wrong(e, f, phrase.Phrase{})
			return
		}
		s, _ := asScalar(n)
		if !slices.Contains(f.Choices, s.text) {
			refuse(choice(f, s.text))
			return
		}
		*variable.(*string) = s.text
	case Texts:
		g.texts(e, f, n, variable.(*[]string))
	}
}

func choice(f Field, text string) phrase.Phrase {
	near := phrase.Phrase{}
	if w := nearest(text, f.Choices); w != "" {
		near = phrase.Of("document.remedy-near", "near", w)
	}
	return phrase.Of("document.not-a-choice", "key", f.Key, "found", excerpt(text), "choices", listed(f.Choices),
		"why", phrase.Of(f.Limit.Why), "remedy", near)
}

func (g *reading) text(e *ast.MappingValueNode, f Field, n ast.Node, refuse func(phrase.Phrase), to *string) {
	if !isText(n) {
		fix := phrase.Phrase{}
		if s, ok := asScalar(n); ok {
			fix = phrase.Of("document.remedy-quotes", "text", excerpt(s.text))
		}
		g.wrong(e, f, fix)
		return
	}
	s, _ := asScalar(n)
	for _, r := range s.text {
		if control(r) {
			refuse(phrase.Of("document.control-character", "key", f.Key))
			return
		}
	}
	length := utf8.RuneCountInString(s.text)
	if p, bad := f.Limit.check("text", f.Key, float64(length), strconv.Itoa(length)); bad {
		refuse(p)
		return
	}
	*to = s.text
}

func (g *reading) texts(e *ast.MappingValueNode, f Field, n ast.Node, to *[]string) {
	l, ok := n.(*ast.SequenceNode)
	if !ok {
		g.wrong(e, f, phrase.Phrase{})
		return
	}
	g.count(e, f, len(l.Values))
	*to = nil
	for i, v := range l.Values {
		if s, ok := asScalar(bare(v)); ok && isText(bare(v)) {
			*to = append(*to, s.text)
			continue
		}
		line, col := position(v)
		path := join(g.path, f.Key) + "[" + strconv.Itoa(i) + "]"
		fix := phrase.Phrase{}
		if s, ok := asScalar(bare(v)); ok {
			fix = phrase.Of("document.remedy-quotes", "text", excerpt(s.text))
		}
		g.add(line, col, path, phrase.Of("document.wrong-kind", "key", path, "found", found(v),
			"wanted", phrase.Of("document.wanted-text"), "remedy", fix))
	}
}
