package script

import "wheelroom/physics/document"

// Fields returns the declaration of lesson files, for whoever edits one.
func Fields() []document.Field {
	s := sheet{version: newest}
	return document.Describe(func(m *document.Mapping) { declare(m, &s, nobody) })
}

// Kinds returns the kinds of question in the order in which a form offers
// them.
func Kinds() []string { return append([]string(nil), kinds...) }

// Alone returns the lesson with one of its items only, counted from 0: to
// check a long lesson in pieces. Its problems have their places in the whole
// file.
func (l *Lesson) Alone(item int) *Lesson {
	one := *l
	one.Items = l.Items[item : item+1 : item+1]
	return &one
}

// Named returns the lesson under another identity, for one that is not to be
// taken for a lesson that ships.
func (l *Lesson) Named(id string) *Lesson {
	other := *l
	other.ID = id
	return &other
}
