// Package assets holds what ships with the program: buildings and English
// words. The type is in the package fonts below it, the words of every language
// in the package words. Nothing here is read from a disk at run time.
package assets

import (
	"embed"
	"io/fs"
	"path"
	"strings"
)

//go:embed buildings/*.yaml words/en
var files embed.FS

// A Building is one building file that ships. ID is its name without
// ".yaml", fit for an address.
type Building struct {
	ID   string
	Text []byte
}

// first is the building a newcomer sees.
const first = "tidemill-house"

// Buildings returns the shipped building files: the first to show, then the
// others by ID.
func Buildings() []Building {
	var all []Building
	for _, name := range names("buildings") {
		b := Building{ID: strings.TrimSuffix(name, ".yaml"), Text: text("buildings/" + name)}
		if b.ID == first {
			all = append([]Building{b}, all...)
			continue
		}
		all = append(all, b)
	}
	return all
}

// Words returns the message files of a language that is in the program itself
// ("en"), by name of the file; none for any other.
func Words(language string) [][]byte {
	var all [][]byte
	for _, name := range names(path.Join("words", language)) {
		all = append(all, text(path.Join("words", language, name)))
	}
	return all
}

// names lists a folder, sorted by name.
func names(folder string) []string {
	entries, err := fs.ReadDir(files, folder)
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

// text returns a file that was listed, so it is there.
func text(name string) []byte {
	b, err := files.ReadFile(name)
	if err != nil {
		panic("assets: " + err.Error())
	}
	return b
}
