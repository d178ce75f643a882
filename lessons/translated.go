// Package lessons holds the lessons in the languages beside English: a folder
// for each language in the folder of the English files, with files of the same
// names. Prose apart, a file says what the English one says. The program in
// the browser has no need of it.
package lessons

import (
	"embed"
	"io/fs"
	"path"
	"strings"
)

//go:embed course/*/*.yaml exhibit/*/*.yaml
var files embed.FS

// Translated returns the files of a folder ("course", "exhibit") in a language, by
// identity; none where there are none.
func Translated(folder, language string) map[string][]byte {
	names, _ := fs.Glob(files, path.Join(folder, language, "*.yaml")) // only a bad pattern is an error
	all := map[string][]byte{}
	for _, name := range names {
		text, err := files.ReadFile(name)
		if err != nil {
			panic("lessons: " + err.Error())
		}
		all[strings.TrimSuffix(path.Base(name), ".yaml")] = text
	}
	return all
}
