// Package course is the lessons that ship with the program, one file each.
//
// The files are read by package script and proved by package tutor; this
// package only hands them out, in the order of the course, with a table of
// contents that its test writes.
package course

import (
	"embed"

	"wheelroom/lessons/script"
)

//go:embed *.yaml
var files embed.FS

// A File is one lesson as it is written.
type File struct {
	Name string // "two-calls.yaml"
	Text []byte
}

// Files returns the lessons in the order of the course.
func Files() []File {
	list := make([]File, len(contents))
	for i, c := range contents {
		name := c.ID + ".yaml"
		text, err := files.ReadFile(name)
		if err != nil {
			panic("course: " + err.Error())
		}
		list[i] = File{Name: name, Text: text}
	}
	return list
}

// Contents returns what a list shows of the lessons, in the order of the
// course, without reading them.
func Contents() []script.Contents { return append([]script.Contents(nil), contents...) }
