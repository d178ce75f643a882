package session

import (
	"slices"
	"strings"

	"wheelroom/game/handout"
	"wheelroom/game/svg"
	"wheelroom/lessons/script"
	"wheelroom/lessons/sheet"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// writer is the screen on which a lesson is written. The text of its file is
// the one thing that is edited, and the page keeps it; form and text view are
// two ways to it. Reading is quick and is done at every pause; proving plays
// an item and is asked for one item at a time.
var writer = map[string]action{
	"text":  taking(func(a Asking, q struct{ ID string }) (any, error) { return a.written(q.ID) }),
	"blank": taking(func(a Asking, _ struct{}) (any, error) { return a.o.Words(phrase.Of("writer.blank")) + "\n", nil }),
	"read":  taking(func(a Asking, q WriterItem) (any, error) { return a.draft(q), nil }),
	"prove": taking(func(a Asking, q WriterItem) (any, error) { return a.proof(q) }),
	"edit":  taking(func(_ Asking, q WriterEdit) (any, error) { return q.done() }),
	"pack":  taking(func(_ Asking, q struct{ Text string }) (any, error) { return Pack([]byte(q.Text)), nil }),
	"unpack": taking(func(_ Asking, q struct{ Packed string }) (any, error) {
		text, err := Unpack(q.Packed)
		return string(text), err
	}),
	"use": taking(func(a Asking, q struct{ Text string }) (any, error) { return a.offer(q.Text) }),
}

// WriterItem is a lesson's text and one of its items, counted from 0.
type WriterItem struct {
	Text string
	Item int
}

// written returns the file of a lesson that ships.
func (s *Session) written(id string) (string, error) {
	if s.o.Written != nil {
		if text := s.o.Written(id); text != nil {
			return string(text), nil
		}
	}
	return "", refuse("lesson.unknown-lesson", "found", cutShort(id))
}

// buildings finds a shipped building for a lesson.
func (s *Session) buildings(id string) (*building.Plan, []string) {
	var known []string
	for _, b := range s.o.Buildings {
		known = append(known, b.ID)
		if b.ID == id {
			plan, problems := building.Read(b.ID, b.Text)
			if !document.Failed(problems) {
				return &plan, nil
			}
		}
	}
	return nil, known
}

// A Draft is a lesson's text as it stands while somebody writes it.
type Draft struct {
	Readable bool          `json:"readable"` // single values can be shown and changed
	Sound    bool          `json:"sound"`    // as far as it can be known without a run
	ID       string        `json:"id"`
	Items    []string      `json:"items"` // their titles, without those for review
	Item     int           `json:"item"`  // the one the fields are of
	Fields   []WriterField `json:"fields"`
	Faults   []Fault       `json:"faults"`
}

// draft reads a text.
func (s *Session) draft(q WriterItem) Draft {
	text := []byte(q.Text)
	_, problems := script.Read("", text, s.buildings)
	d := Draft{Readable: document.Readable(text), Sound: !document.Failed(problems), Items: []string{}, Fields: []WriterField{}, Faults: s.placed(problems)}
	values := document.Scalars(text)
	d.ID = values["id"]
	for n := entriesAt(values, "items"); len(d.Items) < n; {
		d.Items = append(d.Items, values[itemPath(len(d.Items))+".title"])
	}
	d.Item = max(0, min(q.Item, len(d.Items)-1))
	if d.Readable {
		d.Fields = s.writerFields(values, d.Item)
	}
	return d
}

// placed puts problems into words.
func (s *Session) placed(problems []document.Problem) []Fault {
	faults := []Fault{}
	for _, p := range problems {
		faults = append(faults, Fault{Path: p.Path, Line: p.Line, Column: p.Col, Text: s.sentence(p.Phrase), Warning: p.Warning, Cures: []Cure{}})
	}
	return faults
}

// A Proof is what playing one item has shown.
type Proof struct {
	Faults      []Fault           `json:"faults"`
	Title       string            `json:"title"`
	Lead        []tutor.Paragraph `json:"lead"`
	Question    []tutor.Paragraph `json:"question"`
	Options     []tutor.Choice    `json:"options"` // with what is right
	Answer      string            `json:"answer"`  // the machine's, in words
	Explanation []tutor.Paragraph `json:"explanation"`
	Picture     string            `json:"picture"` // the frozen frame, SVG
}

// proof plays an item of a sound text.
func (a Asking) proof(q WriterItem) (Proof, error) {
	lesson, problems := script.Read("", []byte(q.Text), a.buildings)
	if lesson == nil || q.Item < 0 || q.Item >= len(lesson.Items) {
		return Proof{}, FileError{problems}
	}
	p := Proof{Faults: a.placed(tutor.Check(lesson.Alone(q.Item), tutor.Lift))}
	item, err := sheet.Play(lesson, q.Item+1, a.o.Words)
	if item.Machine == nil {
		return p, err
	}
	p.Title, p.Lead, p.Question, p.Options = item.Asked.ItemTitle, item.Asked.Lead, item.Asked.Question, item.Asked.Options
	if err == nil {
		p.Explanation = slices.Concat(item.Told.Notes, item.Told.Explanation)
		if p.Options = item.Told.Options; item.Told.Outcome != nil {
			p.Answer = item.Told.Outcome.Text
		}
	}
	var picture strings.Builder
	err = svg.Write(&picture, handout.Picture(item.Machine, a.o.Words), a.Palette, svg.Options{ID: "writer-"})
	p.Picture = picture.String()
	return p, err
}

// offer adds a written lesson to those that can be opened, under an identity
// of its own, and returns that.
func (s *Session) offer(text string) (string, error) {
	lesson, problems := script.Read("", []byte(text), s.buildings)
	if document.Failed(problems) {
		return "", FileError{problems}
	}
	lesson = lesson.Named("own-" + lesson.ID)
	s.tutor.Offer(lesson)
	s.o.Lessons = s.tutor.Lessons()
	s.touch()
	return lesson.ID, nil
}
