package session

import (
	"encoding/json"
	"slices"

	"wheelroom/lessons/script"
	"wheelroom/lessons/sheet"
	"wheelroom/lessons/tutor"
)

// lecture is what the view for a projector asks for. A class answers by a show
// of hands, so the run is started with any answer, and the view keeps verdict
// and outcome to itself until somebody asks.
var lecture = map[string]action{
	"mode": taking(func(a Asking, q lectureMode) (any, error) {
		a.picture.Lecture = q.On
		a.scene = nil
		a.looked++
		a.touch()
		return nil, nil
	}),
	"notes":   taking(lectureNotes),
	"entries": taking(func(a Asking, _ struct{}) (any, error) { return a.Entries(0), nil }),
	"event":   taking(func(a Asking, q struct{ Event int }) (any, error) { return nil, a.LookAtEvent(q.Event) }),
	"back":    taking(func(a Asking, _ struct{}) (any, error) { return nil, a.Back() }),
	"end":     taking(func(a Asking, _ struct{}) (any, error) { a.Return(); return nil, nil }),
	"commit":  taking(func(a Asking, q struct{ Answer string }) (any, error) { return nil, a.commitAny(q.Answer) }),
	"seen": taking(func(a Asking, _ struct{}) (any, error) {
		return nil, a.LessonDo("observe", a.tutor.Panel().Chosen)
	}),
	"pack": taking(func(a Asking, _ struct{}) (any, error) {
		text, err := json.Marshal(a.Record())
		return Pack(text), err
	}),
	"unpack": taking(func(a Asking, q struct{ Text string }) (any, error) {
		text, err := Unpack(q.Text)
		if err != nil {
			return nil, err
		}
		var r Record
		if json.Unmarshal(text, &r) != nil {
			return nil, refuse("stage.bad-record")
		}
		return nil, a.Restore(r)
	}),
}

type lectureMode struct {
	On bool // large type and thick lines
}

// commitAny commits the answer of the class, or where it has given none the
// first that can be given.
func (s *Session) commitAny(answer string) error {
	p := s.tutor.Panel()
	answers := sheet.Guesses(&p)
	if answer != "" {
		answers = slices.Insert(answers, 0, answer)
	}
	var err error
	for _, a := range answers {
		if err = s.LessonDo("choose", a); err == nil {
			if err = s.LessonDo("commit", ""); err == nil {
				return nil
			}
		}
	}
	if err == nil {
		return refuse("stage.answer-first")
	}
	return err
}

// LectureNotes are for the lecturer's own screen: what the run will show, from
// a machine of its own, so that nothing of it is on the stage.
type LectureNotes struct {
	Answer      string            `json:"answer"` // "" in a worked item
	Explanation []tutor.Paragraph `json:"explanation"`
	Options     []tutor.Choice    `json:"options"`
	Next        string            `json:"next"` // title of the next item, "" for none
}

func lectureNotes(a Asking, q struct {
	Lesson string
	Item   int
}) (any, error) {
	i := slices.IndexFunc(a.o.Lessons, func(l *script.Lesson) bool { return l.ID == q.Lesson })
	if i < 0 {
		return nil, refuse("lesson.unknown-lesson", "found", q.Lesson)
	}
	l := a.o.Lessons[i]
	l.Open()
	if q.Item < 1 || q.Item > len(l.Items) {
		return nil, refuse("lesson.not-open")
	}
	item, err := sheet.Play(l, q.Item, a.o.Words)
	if err != nil {
		return nil, err
	}
	n := LectureNotes{Explanation: item.Told.Explanation, Options: item.Told.Options}
	if item.Told.Outcome != nil {
		n.Answer = item.Told.Outcome.Text
	}
	if q.Item < len(l.Items) {
		n.Next = l.Items[q.Item].Title
	}
	return n, nil
}
