// Package words is the message files of every language there is, in a folder
// each. The program in the browser embeds English alone (package assets) and
// is handed another language when it starts; it has no need of this package.
package words

import (
	"embed"
	"io/fs"
)

//go:embed */*.yaml
var files embed.FS

// Languages returns the tags of the languages there are words in, sorted.
func Languages() []string { return sorted("*") }

// Of returns the message files of one language by the name of the file; none
// for a language there is not.
func Of(language string) [][]byte {
	var all [][]byte
	for _, name := range sorted(language + "/*.yaml") {
		text, err := files.ReadFile(name)
		if err != nil {
			panic("words: " + err.Error())
		}
		all = append(all, text)
	}
	return all
}

// sorted lists what is there by a pattern; a pattern that cannot be read finds
// nothing.
func sorted(pattern string) []string {
	names, _ := fs.Glob(files, pattern)
	return names
}
