// Package program puts together what ships: words, buildings and lessons as
// the page, the native command and the site builder all start from.
package program

import (
	"wheelroom/assets"
	"wheelroom/game/session"
	"wheelroom/lessons/course"
	"wheelroom/lessons/exhibit"
	"wheelroom/lessons/script"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

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

// Lessons returns the lessons that ship, each to be read when it is opened. One
// that is not told in the language is told in English, and says so.
func (l *Language) Lessons() []*script.Lesson {
	var list []*script.Lesson
	contents := course.Contents()
	for i, f := range course.Files() {
		c, text := contents[i], f.Text
		if t, told := l.Told[c.ID]; told {
			c, text = t.Contents, []byte(t.Text)
		} else if l.Tag() != english {
			c.Language = english
		}
		list = append(list, script.Later(c, func() *script.Lesson {
			lesson := sound(f.Name, text)
			lesson.Language = c.Language
			return lesson
		}))
	}
	return list
}

// Scenes returns the scenes of the exhibit, the one that attracts first, each
// to be read when it is opened; in English where the language does not tell it.
func (l *Language) Scenes() []*script.Lesson {
	var list []*script.Lesson
	for _, f := range exhibit.Files() {
		text := f.Text
		if t, told := l.Told[f.ID]; told {
			text = []byte(t.Text)
		}
		list = append(list, script.Later(script.Contents{ID: f.ID}, func() *script.Lesson { return sound(f.ID+".yaml", text) }))
	}
	return list
}

// sound reads a lesson that ships. Tests prove them all, so a problem is a
// fault of the program.
func sound(name string, text []byte) *script.Lesson {
	lesson, problems := script.Read(name, text, Building)
	if document.Failed(problems) {
		panic("program: " + problems[0].Format(phrase.Phrase.String))
	}
	return lesson
}

// written returns the file of a lesson that ships, nil for none.
func (l *Language) written(id string) []byte {
	if t, told := l.Told[id]; told {
		return []byte(t.Text)
	}
	for _, f := range course.Files() {
		if f.Name == id+".yaml" {
			return f.Text
		}
	}
	return nil
}

// Session returns a new session with everything that ships, in the language.
func (l *Language) Session() (*session.Session, error) {
	o := session.Options{Words: l.Words.Text, Lessons: l.Lessons(), Scenes: l.Scenes(), Written: l.written}
	for _, b := range assets.Buildings() {
		o.Buildings = append(o.Buildings, session.Building(b))
	}
	return session.New(o)
}
