package document

import (
	"strconv"

	"github.com/goccy/go-yaml/ast"

	"wheelroom/physics/phrase"
)

// form collects what is wrong with the form of a document, whatever its keys
// mean: the parts of YAML that are refused, doubled keys, too many levels.
type form struct{ problems []Problem }

func (f *form) add(n ast.Node, path string, p phrase.Phrase) {
	line, col := position(n)
	f.problems = append(f.problems, Problem{Line: line, Col: col, Path: path, Phrase: p})
}

func (f *form) node(n ast.Node, path string, depth int) {
	if depth > maxDepth {
		f.add(n, path, phrase.Of("document.too-deep", "limit", maxDepth))
		return
	}
	switch v := n.(type) {
	case *ast.AnchorNode:
		f.add(n, path, phrase.Of("document.anchor"))
		f.node(v.Value, path, depth+1)
	case *ast.TagNode:
		f.add(n, path, phrase.Of("document.tag", "text", excerpt(v.GetToken().Value)))
		f.node(v.Value, path, depth+1)
	case *ast.AliasNode:
		f.add(n, path, phrase.Of("document.alias"))
	case *ast.SequenceNode:
		for i, entry := range v.Values {
			f.node(entry, path+"["+strconv.Itoa(i)+"]", depth+1)
		}
	case *ast.MappingNode, *ast.MappingValueNode:
		f.mapping(asMapping(v), path, depth)
	}
}

func (f *form) mapping(m *ast.MappingNode, path string, depth int) {
	lines := map[string]int{}
	for _, e := range m.Values {
		key := keyText(e.Key)
		switch e.Key.(type) {
		case *ast.MergeKeyNode:
			f.add(e.Key, path, phrase.Of("document.merge-key"))
			continue
		case *ast.MappingKeyNode:
			f.add(e.Key, path, phrase.Of("document.question-key"))
			continue
		}
		if line, doubled := lines[key]; doubled {
			f.add(e.Key, join(path, key), phrase.Of("document.doubled-key", "key", excerpt(key), "line", line))
			continue
		}
		lines[key], _ = position(e.Key)
		f.node(e.Value, join(path, key), depth+1)
	}
}
