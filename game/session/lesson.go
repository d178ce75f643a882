package session

import (
	"slices"
	"strconv"

	"wheelroom/lessons/tutor"
	"wheelroom/physics/phrase"
)

// LessonTitle is one lesson that can be opened.
type LessonTitle struct {
	ID      string `json:"id"`
	Title   string `json:"title"`
	Group   string `json:"group"`
	Level   string `json:"level"`
	Items   int    `json:"items"`   // without those for review
	Reviews int    `json:"reviews"` // items for review

	Language string `json:"language,omitempty"` // of its texts where it is another than the reader's
}

// Lessons lists the lessons that can be opened, in the order of the course.
func (s *Session) Lessons() []LessonTitle {
	list := []LessonTitle{}
	for _, l := range s.tutor.Lessons() {
		if slices.Contains(s.o.Scenes, l) {
			continue
		}
		c := l.Contents()
		list = append(list, LessonTitle{c.ID, c.Title, c.Group, string(c.Level), c.Items, c.Reviews, c.Language})
	}
	return list
}

// Lesson returns all that is shown of the open lesson, nil when none is open.
func (s *Session) Lesson() *tutor.Panel {
	if !s.lesson() {
		return nil
	}
	p := s.tutor.Panel()
	return &p
}

// LessonDo hands the tutor an action (tutor.Do). Opening a lesson sets the
// reader's own machine aside, closing it brings it back; what sets the
// lesson's machine going also lets time pass.
func (s *Session) LessonDo(action, arg string) error {
	if s.lesson() && action != "choose" && action != "sure" && action != "see" {
		s.line().Return()
	}
	if err := s.tutor.Do(action, arg); err != nil {
		return err
	}
	switch action {
	case "choose", "sure", "see":
	case "continue":
		s.running = true
	default: // another moment, if not another machine
		s.running = false
		s.hush()
	}
	s.look()
	s.touch()
	return nil
}

// itemAddress is how the tutor's "open" names an item, n counted from 1.
func itemAddress(id string, n int) string { return id + "/" + strconv.Itoa(n) }

// pointed answers a question for a part with the one that is chosen in the
// picture, and reports whether the lesson asks for a part now. One that is not
// among the answers is said to be none.
func (s *Session) pointed() bool {
	p := s.tutor.Panel()
	deed := map[tutor.Phase]string{tutor.Asked: "choose", tutor.Observe: "see"}[p.State]
	if deed == "" || p.Task == nil || len(p.Task.Parts) == 0 {
		return false
	}
	for _, part := range p.Task.Parts {
		if s.picture.Chosen == part.ID && s.LessonDo(deed, part.ID) == nil {
			s.say(phrase.Of("lesson.pointed", "part", part.Text))
			return true
		}
	}
	s.say(phrase.Of("lesson.pointed-elsewhere"))
	s.touch()
	return true
}
