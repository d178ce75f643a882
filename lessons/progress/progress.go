// Package progress keeps what a learner has done and says which lessons are to
// be reviewed, and when.
//
// It has no clock and no store: a day is handed in, and what is kept is plain
// data that whoever shows the lessons may hold, write out, take in again or
// throw away. It holds no name and nothing else about a person.
//
// A lesson that has been finished is reviewed after Gaps: spaced practice is
// remembered better than practice at once (Latimier and others 2021; the gaps
// are common practice, no source). A review that came late does not move
// nearer to the next: the gap between the two stays.
package progress

import (
	"slices"
	"time"
)

// Gaps are the days after which a finished lesson is offered for review.
var Gaps = []int{1, 3, 7}

// Version is the version of what is kept.
const Version = 1

// Progress is all that is kept. The zero value is a learner who has done
// nothing.
type Progress struct {
	Version int      `json:"version"`
	Lessons []Lesson `json:"lessons"`
}

// A Lesson is what has been done in one lesson.
type Lesson struct {
	ID       string `json:"id"`
	Answers  []Item `json:"answers"`            // by item, in their order
	Finished string `json:"finished,omitempty"` // the day on which the last item was over, "" before
	Reviews  []Day  `json:"reviews"`            // the days on which it was reviewed
}

// An Item is the last answer to one item.
type Item struct {
	Item  int  `json:"item"` // from 1
	Right bool `json:"right"`
	Sure  int  `json:"sure,omitempty"`
	Day   Day  `json:"day"`
}

// A Day is a day of the calendar where the learner is, as "2026-03-01".
type Day = string

// format is how a Day is spelled.
const format = time.DateOnly

// IsDay reports whether a text is a day.
func IsDay(text string) bool {
	_, err := time.Parse(format, text)
	return err == nil
}

// after returns the day so many days later.
func after(d Day, days int) Day {
	t, err := time.Parse(format, d)
	if err != nil {
		panic("progress: " + err.Error())
	}
	return t.AddDate(0, 0, days).Format(format)
}

// Find returns what was done in a lesson, nothing if it was never begun.
func (p *Progress) Find(id string) Lesson {
	for _, l := range p.Lessons {
		if l.ID == id {
			return l
		}
	}
	return Lesson{ID: id}
}

// Next returns the day on which the lesson is to be reviewed next, false
// before it is finished and after the last review.
func (l *Lesson) Next() (Day, bool) {
	if l.Finished == "" || len(l.Reviews) >= len(Gaps) {
		return "", false
	}
	n := len(l.Reviews)
	next := after(l.Finished, Gaps[n])
	if n > 0 {
		next = max(next, after(l.Reviews[n-1], Gaps[n]-Gaps[n-1]))
	}
	return next, true
}

// Due reports whether a review is due by a day.
func (l *Lesson) Due(today Day) bool {
	next, ok := l.Next()
	return ok && next <= today
}

// An Answer is what became of one item.
type Answer struct {
	Item  int
	Right bool
	Sure  int
}

// Stage is how far a lesson has been taken.
type Stage uint8

// The stages.
const (
	Begun    Stage = iota
	Finished       // the items that are not for review are over
	Reviewed       // so are those for review
)

// Note enters what became of the items of a lesson so far, on a day, and how
// far it has been taken. A lesson that is due counts as reviewed when its last
// item is over. Noting the same twice changes nothing.
func (p *Progress) Note(id string, answers []Answer, stage Stage, today Day) {
	p.Version = Version
	i := slices.IndexFunc(p.Lessons, func(l Lesson) bool { return l.ID == id })
	if i < 0 {
		if len(answers) == 0 && stage == Begun {
			return
		}
		i = len(p.Lessons)
		p.Lessons = append(p.Lessons, Lesson{ID: id, Answers: []Item{}, Reviews: []Day{}})
	}
	l := &p.Lessons[i]
	for _, a := range answers {
		l.enter(Item{Item: a.Item, Right: a.Right, Sure: a.Sure, Day: today})
	}
	switch {
	case stage == Begun:
	case l.Finished == "":
		l.Finished = today
	case stage == Reviewed && l.Due(today):
		l.Reviews = append(l.Reviews, today)
	}
}

// enter sets an item's answer, in the order of the items.
func (l *Lesson) enter(item Item) {
	i, known := slices.BinarySearchFunc(l.Answers, item, func(a, b Item) int { return a.Item - b.Item })
	if known {
		l.Answers[i] = item
		return
	}
	l.Answers = slices.Insert(l.Answers, i, item)
}
