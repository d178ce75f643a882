package document

import (
	"slices"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// Raw returns the scalar at a path as it is written, without quotes, and
// whether there is one.
func Raw(text []byte, path string) (string, bool) {
	root, _ := parse(text)
	if root == nil {
		return "", false
	}
	s, ok := asScalar(descend(root, steps(path)))
	return s.text, ok
}

// Readable reports whether the text is a mapping at all, so that single values
// of it can be shown and changed.
func Readable(text []byte) bool {
	root, _ := parse(text)
	return root != nil
}

// Set returns the text with the value at a path written anew and everything
// else as it was, comments too. spelled is the value as YAML; Spell makes it.
// A key that is missing is put where fields, the declaration of the document,
// has it. It reports false, and returns nothing, where the text is written in
// a way that has no room for it.
func Set(text []byte, fields []Field, path, spelled string) ([]byte, bool) {
	e, ok := newEditor(text)
	if !ok {
		return nil, false
	}
	want, ok := newEditor([]byte("x: " + spelled))
	if !ok {
		return nil, false
	}
	if !e.set(fields, steps(path), spelled) {
		return nil, false
	}
	return e.done(path, func(n ast.Node) bool { return same(n) == same(descend(want.root, steps("x"))) })
}

// Unset returns the text without the value at a path, and without the mapping
// around it when nothing else is in it. Like Set it may report false.
func Unset(text []byte, path string) ([]byte, bool) {
	e, ok := newEditor(text)
	if !ok || !e.unset(steps(path)) {
		return nil, false
	}
	return e.done(path, func(n ast.Node) bool { return n == nil })
}

// Insert returns the text with an entry, spelled as YAML on one line, put into
// the list at a path before the entry that has the index; an index as large as
// the list puts it at the end. Like Set it may report false.
func Insert(text []byte, fields []Field, path string, index int, spelled string) ([]byte, bool) {
	e, ok := newEditor(text)
	if !ok {
		return nil, false
	}
	l, _ := descend(e.root, steps(path)).(*ast.SequenceNode)
	if l == nil || len(l.Values) == 0 {
		return Set(text, fields, path, "["+spelled+"]")
	}
	before := entries(l)
	if index < 0 || index > len(before) || !e.insert(l, index, spelled) {
		return nil, false
	}
	return e.done(path, func(n ast.Node) bool {
		after := entries(n)
		return len(after) == len(before)+1 && slices.Equal(slices.Delete(after, index, index+1), before)
	})
}

// Remove returns the text without one entry of the list at a path; a list
// left empty goes with its key. Like Set it may report false.
func Remove(text []byte, path string, index int) ([]byte, bool) {
	e, ok := newEditor(text)
	if !ok {
		return nil, false
	}
	l, _ := descend(e.root, steps(path)).(*ast.SequenceNode)
	if l == nil || index < 0 || index >= len(l.Values) {
		return nil, false
	}
	if len(l.Values) == 1 {
		return Unset(text, path)
	}
	before := entries(l)
	if !e.remove(l, index) {
		return nil, false
	}
	return e.done(path, func(n ast.Node) bool { return slices.Equal(entries(n), slices.Delete(before, index, index+1)) })
}

// Spell writes what a person has typed for a field as YAML. A figure with a
// decimal comma gets its point; what is no figure where one is wanted becomes
// a text, for the reader to refuse.
func Spell(f Field, typed string) string {
	typed = strings.TrimSpace(typed)
	if f.Kind == Real || f.Kind == Whole {
		typed = strings.Replace(typed, "−", "-", 1)
		if point := strings.Replace(typed, ",", ".", 1); decimal(point) {
			return point
		}
	}
	if f.Kind == Truth && (typed == "true" || typed == "false") {
		return typed
	}
	return quoted(typed)
}

// At returns the declaration of the key at a path and whether there is one.
func At(fields []Field, path string) (Field, bool) {
	var found Field
	for _, step := range steps(path) {
		if step.index >= 0 {
			continue
		}
		i := slices.IndexFunc(fields, func(f Field) bool { return f.Key == step.key })
		if i < 0 {
			return Field{}, false
		}
		found, fields = fields[i], fields[i].Fields
	}
	return found, found.Key != ""
}

// A step is one key of a path, or one index of a list (then key is "").
type step struct {
	key   string
	index int
}

func steps(path string) []step {
	var out []step
	for _, s := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' }) {
		if n, ok := strings.CutSuffix(s, "]"); ok {
			if i, err := strconv.Atoi(n); err == nil {
				out = append(out, step{index: i})
				continue
			}
		}
		out = append(out, step{key: s, index: -1})
	}
	return out
}

// descend returns the value at a path, nil where there is none.
func descend(n ast.Node, path []step) ast.Node {
	for _, s := range path {
		n = bare(n)
		if s.index >= 0 {
			l, ok := n.(*ast.SequenceNode)
			if !ok || s.index >= len(l.Values) {
				return nil
			}
			n = l.Values[s.index]
			continue
		}
		e := entryOf(asMapping(n), s.key)
		if e == nil {
			return nil
		}
		n = e.Value
	}
	return bare(n)
}

func entryOf(m *ast.MappingNode, key string) *ast.MappingValueNode {
	if m == nil {
		return nil
	}
	return (&reading{node: m}).entry(key)
}

// entries are what each entry of a list says.
func entries(n ast.Node) []string {
	l, _ := n.(*ast.SequenceNode)
	if l == nil {
		return nil
	}
	out := make([]string, len(l.Values))
	for i, v := range l.Values {
		out[i] = same(v)
	}
	return out
}

// same is what a value says, however it is written.
func same(n ast.Node) string { return without(n, nil) }

// without is what a value says with the value at a path left out, and every
// mapping that is empty then.
func without(n ast.Node, path []step) string {
	n = bare(n)
	inner := func(s step) ([]step, bool) {
		if len(path) == 0 || path[0] != s {
			return nil, false
		}
		return path[1:], len(path) == 1
	}
	var b strings.Builder
	if m := asMapping(n); m != nil {
		for _, e := range m.Values {
			key := keyText(e.Key)
			rest, out := inner(step{key, -1})
			if v := without(e.Value, rest); !out && v != "" {
				b.WriteString(strconv.Quote(key) + ":" + v + ",")
			}
		}
		if b.Len() == 0 {
			return ""
		}
		return "{" + b.String() + "}"
	}
	if l, ok := n.(*ast.SequenceNode); ok {
		for i, v := range l.Values {
			if rest, out := inner(step{index: i}); !out {
				b.WriteString(without(v, rest) + ",")
			}
		}
		return "[" + b.String() + "]"
	}
	if s, ok := asScalar(n); ok {
		return strconv.Quote(s.text) + strconv.FormatBool(isText(n))
	}
	return ""
}
