package document

import (
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"

	"wheelroom/physics/phrase"
)

// bare strips what is refused anyway (anchors, tags) so that the value under
// it can still be judged.
func bare(n ast.Node) ast.Node {
	for {
		switch v := n.(type) {
		case *ast.AnchorNode:
			n = v.Value
		case *ast.TagNode:
			n = v.Value
		default:
			return n
		}
	}
}

// isAlias reports whether n refers to another value; form has refused it, and
// nothing more is to be said of it.
func isAlias(n ast.Node) bool {
	_, alias := n.(*ast.AliasNode)
	return alias
}

// asMapping returns n as a mapping, or nil.
func asMapping(n ast.Node) *ast.MappingNode {
	switch v := n.(type) {
	case *ast.MappingNode:
		return v
	case *ast.MappingValueNode:
		return &ast.MappingNode{BaseNode: v.BaseNode, Start: v.Start, Values: []*ast.MappingValueNode{v}}
	}
	return nil
}

// position is where a person would look for n: its first character.
func position(n ast.Node) (line, col int) {
	switch v := n.(type) {
	case *ast.MappingNode:
		if !v.IsFlowStyle && len(v.Values) > 0 {
			return position(v.Values[0].Key)
		}
	case *ast.MappingValueNode:
		return position(v.Key)
	}
	if n == nil || n.GetToken() == nil || n.GetToken().Position == nil {
		return 1, 1
	}
	p := n.GetToken().Position
	return p.Line, p.Column
}

// valuePosition is the place of an entry's value, or of its key where the
// value is left empty.
func valuePosition(e *ast.MappingValueNode) (line, col int) {
	if n, ok := e.Value.(*ast.NullNode); ok && n.GetToken().Value == "null" || e.Value == nil {
		return position(e.Key)
	}
	return position(e.Value)
}

// keyText is the key as written, without quotes.
func keyText(k ast.MapKeyNode) string { return k.GetToken().Value }

// A scalar is one written value.
type scalar struct {
	text   string
	quoted bool // in quotes or as a block: always a text
}

// asScalar returns the written value of n. Lists, mappings, empty values and
// aliases are none.
func asScalar(n ast.Node) (scalar, bool) {
	switch v := n.(type) {
	case *ast.LiteralNode:
		return scalar{text: v.Value.Value, quoted: true}, true
	case *ast.StringNode:
		t := v.GetToken().Type
		return scalar{text: v.Value, quoted: t == token.SingleQuoteType || t == token.DoubleQuoteType}, true
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		return scalar{text: n.GetToken().Value}, true
	}
	return scalar{}, false
}

// isText reports whether a scalar is a text rather than a number, a truth
// value or nothing.
func isText(n ast.Node) bool {
	switch n.(type) {
	case *ast.StringNode, *ast.LiteralNode:
		return true
	}
	return false
}

// found names what stands in the file.
func found(n ast.Node) phrase.Phrase {
	switch v := bare(n).(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		return phrase.Of("document.found-map")
	case *ast.SequenceNode:
		return phrase.Of("document.found-list")
	case *ast.BoolNode:
		return phrase.Of("document.found-truth", "text", excerpt(v.GetToken().Value))
	case *ast.IntegerNode, *ast.FloatNode, *ast.InfinityNode, *ast.NanNode:
		return phrase.Of("document.found-number", "text", excerpt(v.GetToken().Value))
	case *ast.StringNode:
		return phrase.Of("document.found-text", "text", excerpt(v.Value))
	case *ast.LiteralNode:
		return phrase.Of("document.found-text", "text", excerpt(v.Value.Value))
	}
	return phrase.Of("document.found-nothing")
}

// excerpt makes a text from a file fit to stand inside a message: one line,
// at most 40 characters, nothing that moves the cursor.
func excerpt(s string) string {
	s = strings.Map(func(r rune) rune {
		if control(r) || r == '\n' || r == '\t' {
			return ' '
		}
		return r
	}, s)
	if r := []rune(s); len(r) > 40 {
		return string(r[:39]) + "…"
	}
	return s
}

// control reports whether r is invisible and could upset a screen or a file:
// control characters except tab and line feed, and marks that turn the
// direction of writing.
func control(r rune) bool {
	switch {
	case r == '\n' || r == '\t':
		return false
	case r < 0x20, r >= 0x7f && r < 0xa0, r == 0x2028, r == 0x2029, r == 0xfeff:
		return true
	}
	return r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069
}
