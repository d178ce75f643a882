package document

import (
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// editor changes one text by places of its tree. Every change is checked
// against the tree of what came out (done), so that an unusual way of writing
// can make an edit fail but never makes it wrong.
type editor struct {
	text  []rune
	lines []int // where each line begins
	root  *ast.MappingNode
	sound int // problems of form there were
}

func newEditor(text []byte) (*editor, bool) {
	root, problems := parse(text)
	if root == nil {
		return nil, false
	}
	e := &editor{text: []rune(plainLines(text)), root: root, sound: len(problems), lines: []int{0}}
	for i, r := range e.text {
		if r == '\n' {
			e.lines = append(e.lines, i+1)
		}
	}
	return e, true
}

// done returns the changed text if nothing but the value at the path has
// changed, and that as it should.
func (e *editor) done(path string, as func(n ast.Node) bool) ([]byte, bool) {
	text := []byte(string(e.text))
	root, problems := parse(text)
	if root == nil || len(problems) > e.sound {
		return nil, false
	}
	at := steps(path)
	if without(root, at) != without(e.root, at) || !as(descend(root, at)) {
		return nil, false
	}
	return text, true
}

func (e *editor) replace(from, to int, with string) bool {
	if from < 0 || to < from || to > len(e.text) {
		return false
	}
	e.text = append(e.text[:from:from], append([]rune(with), e.text[to:]...)...)
	return true
}

// offset is where a line and column lie in the text.
func (e *editor) offset(line, col int) int { return e.lines[line-1] + col - 1 }

// begin is where a node begins.
func (e *editor) begin(n ast.Node) int { return e.offset(position(n)) }

// end is where a node ends, -1 where that cannot be told.
func (e *editor) end(n ast.Node) int {
	n = bare(n)
	switch v := n.(type) {
	case *ast.SequenceNode:
		if v.IsFlowStyle && v.End != nil {
			return e.offset(v.End.Position.Line, v.End.Position.Column) + 1
		}
		if len(v.Values) > 0 {
			return e.end(v.Values[len(v.Values)-1])
		}
		return -1
	case *ast.MappingNode:
		if v.IsFlowStyle && v.End != nil {
			return e.offset(v.End.Position.Line, v.End.Position.Column) + 1
		}
	}
	if m := asMapping(n); m != nil {
		if len(m.Values) == 0 {
			return -1
		}
		return e.endOf(m.Values[len(m.Values)-1])
	}
	s, ok := asScalar(n)
	if !ok {
		return -1
	}
	return e.endOfScalar(e.begin(n), s)
}

// endOf is where an entry ends, also one whose value is left empty.
func (e *editor) endOf(v *ast.MappingValueNode) int {
	if _, null := bare(v.Value).(*ast.NullNode); null || v.Value == nil {
		return e.colon(v)
	}
	return e.end(v.Value)
}

// colon is where the colon behind a key ends, -1 where there is none.
func (e *editor) colon(v *ast.MappingValueNode) int {
	for i := e.begin(v.Key) + len([]rune(keyText(v.Key))); i < len(e.text) && e.text[i] != '\n'; i++ {
		if e.text[i] == ':' {
			return i + 1
		}
	}
	return -1
}

// endOfScalar finds the end of a scalar on one line.
func (e *editor) endOfScalar(from int, s scalar) int {
	if from >= len(e.text) {
		return -1
	}
	switch quote := e.text[from]; quote {
	case '"', '\'':
		for i := from + 1; i < len(e.text) && e.text[i] != '\n'; i++ {
			switch {
			case e.text[i] == '\\' && quote == '"':
				i++
			case e.text[i] == quote && quote == '\'' && i+1 < len(e.text) && e.text[i+1] == quote:
				i++
			case e.text[i] == quote:
				return i + 1
			}
		}
		return -1
	}
	to := from + len([]rune(s.text))
	if s.quoted || to > len(e.text) || string(e.text[from:to]) != s.text {
		return -1
	}
	return to
}

// lineEnd is where the line of an offset ends, behind its line feed; a last
// line without one gets it.
func (e *editor) lineEnd(at int) int {
	for at < len(e.text) && e.text[at] != '\n' {
		at++
	}
	if at == len(e.text) {
		e.text = append(e.text, '\n')
	}
	return at + 1
}

func (e *editor) lineStart(at int) int {
	for at > 0 && e.text[at-1] != '\n' {
		at--
	}
	return at
}

// alone reports whether only spaces stand before an offset on its line.
func (e *editor) alone(at int) bool {
	return strings.TrimSpace(string(e.text[e.lineStart(at):at])) == ""
}

// set writes a value at a path of keys and indexes.
func (e *editor) set(fields []Field, path []step, spelled string) bool {
	var here ast.Node = e.root
	for i, s := range path {
		here = bare(here)
		if s.index >= 0 {
			l, ok := here.(*ast.SequenceNode)
			if !ok || s.index >= len(l.Values) || i == len(path)-1 {
				return false
			}
			here = l.Values[s.index]
			continue
		}
		m := asMapping(here)
		if m == nil {
			return false
		}
		v := entryOf(m, s.key)
		switch {
		case v == nil:
			return e.add(m, fields, path[i:], spelled)
		case i == len(path)-1:
			return e.write(v, spelled)
		}
		if _, null := bare(v.Value).(*ast.NullNode); null {
			at := e.colon(v)
			if at < 0 {
				return false
			}
			_, col := position(v.Key)
			at = e.lineEnd(at)
			return e.replace(at, at, block(col+1, path[i+1:], spelled))
		}
		for _, f := range fields {
			if f.Key == s.key {
				fields = f.Fields
				break
			}
		}
		here = v.Value
	}
	return false
}

// write replaces the value of an entry.
func (e *editor) write(v *ast.MappingValueNode, spelled string) bool {
	if _, null := bare(v.Value).(*ast.NullNode); null {
		at := e.colon(v)
		return at >= 0 && e.replace(at, at, " "+spelled)
	}
	return e.replace(e.begin(v.Value), e.end(v.Value), spelled)
}

// add puts a key that is missing into a mapping.
func (e *editor) add(m *ast.MappingNode, fields []Field, path []step, spelled string) bool {
	if m.IsFlowStyle {
		value := spelled
		for i := len(path) - 1; i > 0; i-- {
			value = "{" + path[i].key + ": " + value + "}"
		}
		value = path[0].key + ": " + value
		if m.End == nil {
			return false
		}
		if len(m.Values) == 0 {
			at := e.offset(m.End.Position.Line, m.End.Position.Column)
			return e.replace(at, at, value)
		}
		at := e.endOf(m.Values[len(m.Values)-1])
		return e.replace(at, at, ", "+value)
	}
	if len(m.Values) == 0 {
		return false
	}
	_, col := position(m.Values[0].Key)
	text := block(col-1, path, spelled)
	// Behind the last key that is declared before this one, or in front of all.
	var behind *ast.MappingValueNode
	for _, f := range fields {
		if f.Key == path[0].key {
			break
		}
		if v := entryOf(m, f.Key); v != nil {
			behind = v
		}
	}
	if behind == nil {
		at := e.begin(m.Values[0].Key)
		if !e.alone(at) {
			behind = m.Values[0]
		} else {
			at = e.lineStart(at)
			return e.replace(at, at, text)
		}
	}
	at := e.endOf(behind)
	if at < 0 {
		return false
	}
	at = e.lineEnd(at)
	return e.replace(at, at, text)
}

// block spells keys inside one another, each on its line, as far in as indent.
func block(indent int, path []step, spelled string) string {
	var b strings.Builder
	for i, s := range path {
		b.WriteString(strings.Repeat(" ", indent+2*i) + s.key + ":")
		if i < len(path)-1 {
			b.WriteByte('\n')
		}
	}
	b.WriteString(" " + spelled + "\n")
	return b.String()
}

// unset takes out the entry at a path, and what is empty without it.
func (e *editor) unset(path []step) bool {
	for len(path) > 1 && path[len(path)-2].index < 0 {
		around := asMapping(descend(e.root, path[:len(path)-1]))
		if around == nil || len(around.Values) > 1 {
			break
		}
		path = path[:len(path)-1]
	}
	m := asMapping(descend(e.root, path[:len(path)-1]))
	v := entryOf(m, path[len(path)-1].key)
	if v == nil {
		return false
	}
	var begins, ends []int
	at := 0
	for i, w := range m.Values {
		if w == v {
			at = i
		}
		begins, ends = append(begins, e.begin(w.Key)), append(ends, e.endOf(w))
	}
	return e.cut(m.IsFlowStyle, begins, ends, at)
}

// cut takes one of several neighbours out: with its lines where each stands on
// lines of its own, with its comma otherwise.
func (e *editor) cut(flow bool, begins, ends []int, at int) bool {
	begin, end := begins[at], ends[at]
	switch {
	case end < 0:
		return false
	case !flow:
		if !e.alone(begin) {
			return false
		}
		return e.replace(e.lineStart(begin), e.lineEnd(end), "")
	case at+1 < len(begins):
		return e.replace(begin, begins[at+1], "")
	case at > 0:
		return ends[at-1] >= 0 && e.replace(ends[at-1], end, "")
	}
	return e.replace(begin, end, "")
}

// insert puts an entry into a list that has some.
func (e *editor) insert(l *ast.SequenceNode, index int, spelled string) bool {
	if l.IsFlowStyle {
		if index < len(l.Values) {
			at := e.begin(l.Values[index])
			return e.replace(at, at, spelled+", ")
		}
		at := e.end(l.Values[len(l.Values)-1])
		return e.replace(at, at, ", "+spelled)
	}
	dash := e.dash(l.Values[0])
	if dash < 0 {
		return false
	}
	text := strings.Repeat(" ", dash-e.lineStart(dash)) + "- " + spelled + "\n"
	if index < len(l.Values) {
		at := e.dash(l.Values[index])
		if at < 0 {
			return false
		}
		at = e.lineStart(at)
		return e.replace(at, at, text)
	}
	at := e.end(l.Values[len(l.Values)-1])
	if at < 0 {
		return false
	}
	at = e.lineEnd(at)
	return e.replace(at, at, text)
}

// dash is where the dash of an entry stands, -1 unless it is the first thing
// on the entry's line.
func (e *editor) dash(n ast.Node) int {
	at := e.lineStart(e.begin(n))
	for at < len(e.text) && e.text[at] == ' ' {
		at++
	}
	if at >= len(e.text) || e.text[at] != '-' {
		return -1
	}
	return at
}

// remove takes an entry out of a list that has several.
func (e *editor) remove(l *ast.SequenceNode, index int) bool {
	var begins, ends []int
	for _, v := range l.Values {
		begin := e.begin(v)
		if !l.IsFlowStyle {
			if begin = e.dash(v); begin < 0 {
				return false
			}
		}
		begins, ends = append(begins, begin), append(ends, e.end(v))
	}
	return e.cut(l.IsFlowStyle, begins, ends, index)
}
