package document

import (
	"slices"
	"strconv"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"

	"wheelroom/physics/phrase"
)

// A cell is one value of the document and the field that says what it must be.
type cell struct {
	reader *reader
	path   string
	key    string // as messages call it
	field  Field
	node   ast.Node
	// Where the value is, and where what concerns all of it is said.
	line, col       int
	keyLine, keyCol int
}

func (g *reading) cell(e *ast.MappingValueNode, f Field) cell {
	c := cell{reader: g.reader, path: join(g.path, f.Key), key: f.Key, field: f, node: bare(e.Value)}
	c.line, c.col = valuePosition(e)
	c.keyLine, c.keyCol = position(e.Key)
	return c
}

// entry is the cell of one entry of a list.
func (c cell) entry(i int, n ast.Node, f Field) cell {
	inner := cell{reader: c.reader, path: c.path + "[" + strconv.Itoa(i) + "]", field: f, node: bare(n)}
	inner.key = inner.path
	inner.line, inner.col = position(n)
	return inner
}

func (c cell) refuse(p phrase.Phrase) { c.reader.add(c.line, c.col, c.path, p) }

// wrong refuses a value of the wrong kind.
func (c cell) wrong(remedy phrase.Phrase) {
	c.refuse(phrase.Of("document.wrong-kind", "key", c.key, "found", found(c.node),
		"wanted", phrase.Of("document.wanted-"+c.field.Kind.String()), "remedy", remedy))
}

// within checks a number, or a length, against the field's limit.
func (c cell) within(what string, v float64, shown string) bool {
	p, bad := c.field.Limit.check(what, c.key, v, shown)
	if bad {
		c.refuse(p)
	}
	return !bad
}

// count checks the entries of a list, and says so at its key.
func (c cell) count(n int) {
	c.line, c.col = c.keyLine, c.keyCol
	c.within("list", float64(n), strconv.Itoa(n))
}

// written is the value as it stands in the file.
func (c cell) written() string {
	s, _ := asScalar(c.node)
	return s.text
}

func (c cell) real(to *float64) bool {
	v, why := number(c.node, c.field.Limit.exponent())
	if why != "" {
		c.wrong(remedy(why, c.node))
		return false
	}
	inFile, _ := number(c.node, "")
	if !c.within("number", inFile, excerpt(c.written())) {
		return false
	}
	*to = v
	return true
}

func (c cell) whole(to *int) {
	v, why := whole(c.node)
	if why != "" {
		c.wrong(remedy(why, c.node))
		return
	}
	if c.within("number", float64(v), excerpt(c.written())) {
		*to = v
	}
}

func (c cell) truth(to *bool) {
	b, ok := c.node.(*ast.BoolNode)
	if !ok {
		c.wrong(phrase.Of("document.remedy-truth"))
		return
	}
	*to = b.Value
}

func (c cell) choice(to *string) {
	if !isText(c.node) {
		c.wrong(phrase.Phrase{})
		return
	}
	word := c.written()
	if slices.Contains(c.field.Choices, word) {
		*to = word
		return
	}
	near := phrase.Phrase{}
	if w := Nearest(word, c.field.Choices); w != "" {
		near = phrase.Of("document.remedy-near", "near", w)
	}
	c.refuse(phrase.Of("document.not-a-choice", "key", c.key, "found", excerpt(word), "choices", listed(c.field.Choices),
		"why", phrase.Of(c.field.Limit.Why), "remedy", near))
}

func (c cell) text(to *string) {
	s, ok := c.readable()
	if !ok {
		return
	}
	if length := utf8.RuneCountInString(s); c.within("text", float64(length), strconv.Itoa(length)) {
		*to = s
	}
}

// readable returns the value as a text of characters that can be seen.
func (c cell) readable() (string, bool) {
	if !isText(c.node) {
		fix := phrase.Phrase{}
		if s, ok := asScalar(c.node); ok {
			fix = phrase.Of("document.remedy-quotes", "text", excerpt(s.text))
		}
		c.wrong(fix)
		return "", false
	}
	s := c.written()
	for _, r := range s {
		if control(r) {
			c.refuse(phrase.Of("document.control-character", "key", c.key))
			return "", false
		}
	}
	return s, true
}

func (c cell) texts(to *[]string) {
	l, ok := c.node.(*ast.SequenceNode)
	if !ok {
		c.wrong(phrase.Phrase{})
		return
	}
	c.count(len(l.Values))
	*to = nil
	for i, n := range l.Values {
		if isAlias(bare(n)) {
			continue // refused by its form already
		}
		if s, ok := c.entry(i, n, Field{Kind: Text}).readable(); ok {
			*to = append(*to, s)
		}
	}
}
