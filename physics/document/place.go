package document

import (
	"strconv"
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// Place fills in file, line and column of every problem that has a path but no
// place yet, from the text that was read under that name, and sorts. A value
// that the text leaves to its default is placed at the nearest mapping around
// it.
func Place(name string, text []byte, problems []Problem) {
	root, _ := parse(text)
	for i := range problems {
		if p := &problems[i]; p.Line == 0 && root != nil {
			p.File = name
			p.Line, p.Col = find(root, p.Path)
		}
	}
	Sort(problems)
}

// Has reports whether the text has a value at the path.
func Has(text []byte, path string) bool {
	root, _ := parse(text)
	if root == nil {
		return false
	}
	_, ok := lookup(root, path)
	return ok
}

// find returns the place of a path, or of the nearest thing around it.
func find(root *ast.MappingNode, path string) (line, col int) {
	at, _ := lookup(root, path)
	return at.line, at.col
}

type place struct{ line, col int }

func placed(line, col int) place { return place{line, col} }

// lookup walks down a path as far as the document goes and reports whether it
// came to the end.
func lookup(root *ast.MappingNode, path string) (place, bool) {
	here := placed(position(root))
	var n ast.Node = root
	for _, step := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' }) {
		if index, ok := strings.CutSuffix(step, "]"); ok {
			l, ok := n.(*ast.SequenceNode)
			i, err := strconv.Atoi(index)
			if !ok || err != nil || i < 0 || i >= len(l.Values) {
				return here, false
			}
			n = bare(l.Values[i])
			here = placed(position(n))
			continue
		}
		m := asMapping(n)
		if m == nil {
			return here, false
		}
		e := (&reading{node: m}).entry(step)
		if e == nil {
			return here, false
		}
		n = bare(e.Value)
		here = placed(valuePosition(e))
		if _, isList := n.(*ast.SequenceNode); isList || asMapping(n) != nil {
			here = placed(position(e.Key))
		}
	}
	return here, true
}

// Sound reports whether no error among the problems touches one of the paths
// or anything inside it: a check over several values is worth making only
// when each of them was read.
func Sound(problems []Problem, paths ...string) bool {
	for _, p := range problems {
		if p.Warning {
			continue
		}
		for _, path := range paths {
			if p.Path == path || strings.HasPrefix(p.Path, path+".") || strings.HasPrefix(p.Path, path+"[") ||
				strings.HasPrefix(path, p.Path+".") {
				return false
			}
		}
	}
	return true
}
