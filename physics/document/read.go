package document

import (
	"slices"

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
	if near := Nearest(key, g.declared); near != "" {
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
	if e == nil || isAlias(bare(e.Value)) {
		return nil
	}
	return e
}

func (g *reading) either(shared, first, second Field, a, b *float64) {
	both, wrong := *a, len(g.problems)
	g.value(shared, &both)
	if g.given(shared.Key) && len(g.problems) == wrong {
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
		g.cell(e, f).wrong(phrase.Phrase{})
		return
	}
	g.reader.mapping(m, join(g.path, f.Key), declare)
}

func (g *reading) list(f Field, _ int, resize func(n int), entry func(i int, p pass)) {
	e := g.declares(f)
	if e == nil {
		return
	}
	c := g.cell(e, f)
	l, ok := c.node.(*ast.SequenceNode)
	if !ok {
		c.wrong(phrase.Phrase{})
		return
	}
	c.count(len(l.Values))
	resize(len(l.Values))
	for i, n := range l.Values {
		inner := c.entry(i, n, Field{Kind: Map})
		if m := asMapping(inner.node); m != nil {
			g.reader.mapping(m, inner.path, func(p pass) { entry(i, p) })
		} else if !isAlias(inner.node) {
			inner.wrong(phrase.Phrase{})
		}
	}
}

func (g *reading) value(f Field, variable any) {
	e := g.declares(f)
	if e == nil {
		return
	}
	switch c := g.cell(e, f); to := variable.(type) {
	case *float64:
		c.real(to)
	case **float64:
		v := 0.0
		if c.real(&v) {
			*to = &v
		}
	case *int:
		c.whole(to)
	case *bool:
		c.truth(to)
	case *string:
		if f.Kind == Choice {
			c.choice(to)
			return
		}
		c.text(to)
	case *[]string:
		c.texts(to)
	}
}
