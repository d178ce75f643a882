// Package exhibit is the scenes for visitors who stay a minute: lesson files of
// one item each, read by package script and proved by package tutor as the
// course is, but no part of it. Each stands by itself: a visitor may see any of
// them first, and it uses no word of the trade.
package exhibit

import "embed"

//go:embed *.yaml
var files embed.FS

// Attract is the scene that runs by itself while nobody touches. It asks
// nothing.
const Attract = "from-call-to-door"

// scenes are those that ask, in the order in which they are offered.
var scenes = []string{"next-stop", "wheel-turn", "too-late", "between-floors", "slows-early", "same-instant"}

// IDs returns the identities of the scenes that ask, in their order.
func IDs() []string { return append([]string(nil), scenes...) }

// A File is one scene as it is written.
type File struct {
	ID   string
	Text []byte
}

// Files returns every scene, that which asks nothing first.
func Files() []File {
	var list []File
	for _, id := range append([]string{Attract}, scenes...) {
		text, err := files.ReadFile(id + ".yaml")
		if err != nil {
			panic("exhibit: " + err.Error())
		}
		list = append(list, File{ID: id, Text: text})
	}
	return list
}
