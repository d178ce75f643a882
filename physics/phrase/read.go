package phrase

import (
	"errors"
	"fmt"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
	"golang.org/x/text/language"
)

// ReadCatalogue reads the message files of one language: YAML mappings of
// message identity to text, or to texts by plural form:
//
//	lift.at-floor: "the car is at floor {floor}"
//	lift.calls: {one: "{count} call", other: "{count} calls"}
//
// The error joins everything that is wrong, with the number of the file (from
// 1) and the line. Message files ship with the program, so the error is for
// whoever writes them and is not itself worded by a catalogue.
func ReadCatalogue(files ...[]byte) (*Catalogue, error) {
	c := &Catalogue{messages: map[string]message{}, missing: map[string]bool{}}
	var wrong []error
	for i, text := range files {
		if err := c.read(text); err != nil {
			wrong = append(wrong, fmt.Errorf("message file %d: %w", i+1, err))
		}
	}
	for _, id := range []string{tagID, pointID, minusID} {
		if !c.Has(id) {
			wrong = append(wrong, fmt.Errorf("no message file has %s", id))
		}
	}
	if len(wrong) > 0 {
		return nil, errors.Join(wrong...)
	}
	c.point, c.minus = c.messages[pointID][other].String(), c.messages[minusID][other].String()
	tag, err := language.Parse(c.messages[tagID][other].String())
	if err != nil {
		return nil, fmt.Errorf("%s: %w", tagID, err)
	}
	c.tag = tag
	return c, nil
}

func (c *Catalogue) read(text []byte) error {
	file, err := parser.ParseBytes(text, 0, parser.AllowDuplicateMapKey()) // add finds them, and goes on
	if err != nil {
		return err
	}
	var wrong []error
	for _, doc := range file.Docs {
		if doc.Body == nil {
			continue
		}
		m, ok := doc.Body.(*ast.MappingNode)
		if !ok {
			return errors.New("want a mapping of message identity to text")
		}
		for _, e := range m.Values {
			if err := c.add(e); err != nil {
				wrong = append(wrong, fmt.Errorf("line %d: %w", e.Key.GetToken().Position.Line, err))
			}
		}
	}
	return errors.Join(wrong...)
}

func (c *Catalogue) add(e *ast.MappingValueNode) error {
	id := e.Key.GetToken().Value
	switch {
	case !isID(id):
		return fmt.Errorf("%q is no identity: want lower-case words and dashes joined by dots", id)
	case c.Has(id):
		return fmt.Errorf("%s is there twice", id)
	}
	m := message{}
	byForm, plural := e.Value.(*ast.MappingNode)
	if !plural {
		byForm = &ast.MappingNode{Values: []*ast.MappingValueNode{e}}
	}
	for _, v := range byForm.Values {
		f := other
		if plural {
			f = form(v.Key.GetToken().Value)
		}
		if !isForm(f) {
			return fmt.Errorf("%s: %q is no plural form: want zero, one, two, few, many or other", id, f)
		}
		text, ok := textOf(v.Value)
		if !ok {
			return fmt.Errorf("%s: want a text in quotes", id)
		}
		t, err := cut(text)
		if err != nil {
			return fmt.Errorf("%s: %w", id, err)
		}
		m[f] = t
	}
	if _, ok := m[other]; !ok {
		return fmt.Errorf("%s: the form other is missing", id)
	}
	c.messages[id] = m
	return nil
}

func textOf(n ast.Node) (string, bool) {
	switch v := n.(type) {
	case *ast.StringNode:
		return v.Value, v.Value != ""
	case *ast.LiteralNode:
		s := strings.TrimRight(v.Value.Value, "\n")
		return s, s != ""
	}
	return "", false
}

func isForm(f form) bool {
	for _, known := range forms {
		if f == known {
			return true
		}
	}
	return false
}

// isID reports whether s is words of lower-case letters, digits and dashes,
// joined by dots, at least two of them.
func isID(s string) bool {
	words := strings.Split(s, ".")
	for _, w := range words {
		if !isSlot(w) {
			return false
		}
	}
	return len(words) > 1
}
