// Package program puts together what ships: words, buildings and lessons as
// the page, the native command and the site builder all start from.
package program

import (
	"fmt"

	"wheelroom/assets"
	"wheelroom/game/session"
	"wheelroom/lessons/course"
	"wheelroom/lessons/script"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// Words returns the catalogue of a language that ships ("en").
func Words(language string) (*phrase.Catalogue, error) {
	files := assets.Words(language)
	if len(files) == 0 {
		return nil, fmt.Errorf("program: no words in %q", language)
	}
	return phrase.ReadCatalogue(files...)
}

// Building finds a shipped building by its identity, for lessons that name
// one; it also returns the identities there are.
func Building(id string) (*building.Plan, []string) {
	var known []string
	for _, b := range assets.Buildings() {
		known = append(known, b.ID)
		if b.ID != id {
			continue
		}
		plan, problems := building.Read(b.ID+".yaml", b.Text)
		if document.Failed(problems) {
			return nil, nil
		}
		return &plan, nil
	}
	return nil, known
}

// Lessons returns the lessons that ship, each to be read when it is opened.
// They are proved by tests, so a problem then is a fault of the program.
func Lessons() []*script.Lesson {
	var list []*script.Lesson
	contents := course.Contents()
	for i, f := range course.Files() {
		list = append(list, script.Later(contents[i], func() *script.Lesson {
			lesson, problems := script.Read(f.Name, f.Text, Building)
			if document.Failed(problems) {
				panic("program: " + problems[0].Format(phrase.Phrase.String))
			}
			return lesson
		}))
	}
	return list
}

// written returns the file of a lesson that ships, nil for none.
func written(id string) []byte {
	for _, f := range course.Files() {
		if f.Name == id+".yaml" {
			return f.Text
		}
	}
	return nil
}

// Session returns a new session with everything that ships, worded by words.
func Session(words *phrase.Catalogue) (*session.Session, error) {
	o := session.Options{Words: words.Text, Lessons: Lessons(), Written: written}
	for _, b := range assets.Buildings() {
		o.Buildings = append(o.Buildings, session.Building(b))
	}
	return session.New(o)
}
