package document

import (
	"strconv"

	"github.com/goccy/go-yaml/ast"
)

// Scalars returns every scalar of the text as it is written, without quotes,
// by its path, as "items[0].title"; none where the text is no mapping. It
// reads the text once, where Raw reads it for each value.
func Scalars(text []byte) map[string]string {
	out := map[string]string{}
	root, _ := parse(text)
	if root == nil {
		return out
	}
	var walk func(n ast.Node, path string)
	walk = func(n ast.Node, path string) {
		n = bare(n)
		if m := asMapping(n); m != nil {
			for _, v := range m.Values {
				if key, ok := asScalar(v.Key); ok {
					walk(v.Value, join(path, key.text))
				}
			}
			return
		}
		if l, ok := n.(*ast.SequenceNode); ok {
			for i, entry := range l.Values {
				walk(entry, path+"["+strconv.Itoa(i)+"]")
			}
			return
		}
		if s, ok := asScalar(n); ok {
			out[path] = s.text
		}
	}
	walk(root, "")
	return out
}
