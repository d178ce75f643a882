// Package course is the lessons that ship with the program, one file each.
//
// The files are read by package script and proved by package tutor; this
// package only hands them out, in the order of the course.
package course

import "embed"

// order is the course: lessons by the names of their files.
var order = []string{
	"wheel-in-small", "reading-the-ring", "dark-intervals", "odd-terminals", "car-panel",
	"ramps-and-rollers", "slowing-early", "direction-switches",
	"one-call", "above-and-below", "two-calls", "direction-relay", "last-call", "late-calls",
	"doors-and-safety", "button-to-doors", "hand-winding",
	"handwheel", "levelling",
	"two-buttons",
}

//go:embed *.yaml
var files embed.FS

// A File is one lesson as it is written.
type File struct {
	Name string // "two-calls.yaml"
	Text []byte
}

// Files returns the lessons in the order of the course.
func Files() []File {
	list := make([]File, len(order))
	for i, id := range order {
		name := id + ".yaml"
		text, err := files.ReadFile(name)
		if err != nil {
			panic("course: " + err.Error())
		}
		list[i] = File{Name: name, Text: text}
	}
	return list
}
