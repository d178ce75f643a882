package progress

import (
	"bytes"
	"encoding/json"
	"errors"
	"slices"
)

// Bounds of what may be taken in: far above any learner, far under what would
// trouble a page.
const (
	mostBytes   = 1 << 20
	mostLessons = 1000
	mostItems   = 100
)

// ErrNot is the error for a text that is no progress, or of a newer version.
var ErrNot = errors.New("progress: not what this program keeps")

// Read takes in what Write gave, perhaps by way of a file that somebody has
// changed. "" is a learner who has done nothing.
func Read(text string) (Progress, error) {
	var p Progress
	if text == "" {
		return Progress{Version: Version}, nil
	}
	d := json.NewDecoder(bytes.NewReader([]byte(text)))
	d.DisallowUnknownFields()
	if len(text) > mostBytes || d.Decode(&p) != nil || d.More() || !p.sound() {
		return Progress{Version: Version}, ErrNot
	}
	for i := range p.Lessons {
		l := &p.Lessons[i]
		slices.SortStableFunc(l.Answers, func(a, b Item) int { return a.Item - b.Item })
		slices.Sort(l.Reviews)
		l.Answers, l.Reviews = append([]Item{}, l.Answers...), append([]Day{}, l.Reviews...)
	}
	return p, nil
}

// Write spells the progress for keeping.
func (p *Progress) Write() string {
	text, err := json.Marshal(p)
	if err != nil {
		panic("progress: " + err.Error())
	}
	return string(text)
}

func (p *Progress) sound() bool {
	if p.Version != Version || len(p.Lessons) > mostLessons {
		return false
	}
	seen := map[string]bool{}
	for i := range p.Lessons {
		l := &p.Lessons[i]
		if l.ID == "" || len(l.ID) > 40 || seen[l.ID] || !l.sound() {
			return false
		}
		seen[l.ID] = true
	}
	return true
}

func (l *Lesson) sound() bool {
	if len(l.Answers) > mostItems || len(l.Reviews) > len(Gaps) || l.Finished != "" && !IsDay(l.Finished) || l.Finished == "" && len(l.Reviews) > 0 {
		return false
	}
	items := map[int]bool{}
	for _, a := range l.Answers {
		if a.Item < 1 || a.Item > mostItems || items[a.Item] || a.Sure < 0 || a.Sure > 3 || !IsDay(a.Day) {
			return false
		}
		items[a.Item] = true
	}
	return !slices.ContainsFunc(l.Reviews, func(d Day) bool { return !IsDay(d) })
}
