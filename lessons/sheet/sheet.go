// Package sheet makes the worksheet of a lesson: what is asked at each frozen
// frame, the machine as it stands there, and what the run answers, all in
// words. It also shuffles what is offered, so that every sheet of a class set
// is another one.
//
// The package sets no type and draws nothing.
package sheet

import (
	"encoding/json"
	"fmt"
	"hash/fnv"

	"wheelroom/lessons/script"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// A Sheet is the worksheet of one lesson.
type Sheet struct {
	ID      string // of the lesson
	Title   string
	Edition string // changes with anything that the lesson says or does
	Aims    []string
	Terms   []tutor.TermText
	Caution []tutor.Paragraph
	Items   []Item
}

// An Item is one item of the lesson on paper.
type Item struct {
	Asked   tutor.Panel   // at the frozen frame
	Told    tutor.Panel   // at the end of the run, with the right answer given
	Machine *lift.Machine // as it stands at the frozen frame
}

// Make plays a lesson that has been checked and writes its sheet down, without
// the items for review. It fails when an item has no right answer.
func Make(lesson *script.Lesson, words func(phrase.Phrase) string) (*Sheet, error) {
	lesson.Open()
	s := &Sheet{ID: lesson.ID, Title: lesson.Title, Edition: edition(lesson)}
	t := tutor.New([]*script.Lesson{lesson}, tutor.Lift, words)
	for n := 1; n < lesson.Reviewed(); n++ {
		item, err := play(t, lesson.ID, n)
		if err != nil {
			return nil, err
		}
		s.Items = append(s.Items, item)
	}
	if len(s.Items) > 0 {
		first := s.Items[0].Asked
		s.Aims, s.Terms, s.Caution = first.Aims, first.Terms, first.Caution
	}
	return s, nil
}

// Play plays one item, counted from 1, by itself.
func Play(lesson *script.Lesson, n int, words func(phrase.Phrase) string) (Item, error) {
	return play(tutor.New([]*script.Lesson{lesson}, tutor.Lift, words), lesson.ID, n)
}

// play runs an item twice: with any answer, to learn the right one, and with
// the right one, for its explanation.
func play(t *tutor.Tutor, id string, n int) (Item, error) {
	var item Item
	if err := freeze(t, id, n); err != nil {
		return item, err
	}
	machine, ok := t.Machine().(*lift.Machine)
	if !ok {
		return item, fmt.Errorf("sheet: item %d has a machine of another kind", n)
	}
	item.Asked, item.Machine = t.Panel(), machine.Clone()
	if item.Asked.Kind == script.Worked {
		item.Told = finish(t, "")
		return item, nil
	}
	if err := commit(t, Guesses(&item.Asked)); err != nil {
		return item, err
	}
	outcome := finish(t, t.Panel().Chosen).Outcome
	if outcome == nil {
		return item, fmt.Errorf("sheet: item %d has no right answer", n)
	}
	if err := freeze(t, id, n); err != nil {
		return item, err
	}
	if err := commit(t, []string{outcome.ID}); err != nil {
		return item, err
	}
	item.Told = finish(t, outcome.ID)
	return item, nil
}

// freeze brings an item to its frozen frame.
func freeze(t *tutor.Tutor, id string, n int) error {
	if err := t.Do("open", fmt.Sprintf("%s/%d", id, n)); err != nil {
		return err
	}
	for t.Moving() {
		t.Tick(script.MotionS)
	}
	return nil
}

// commit gives the first of the answers that is one.
func commit(t *tutor.Tutor, answers []string) (err error) {
	for _, answer := range answers {
		if err = t.Do("choose", answer); err == nil {
			if err = t.Do("commit", ""); err == nil {
				return nil
			}
		}
	}
	return err
}

// finish runs an item to its end.
func finish(t *tutor.Tutor, seen string) tutor.Panel {
	for t.Phase() != tutor.Explained {
		switch {
		case t.Moving():
			t.Tick(script.MotionS)
		case t.Phase() == tutor.Observe:
			if t.Do("observe", seen) != nil {
				return t.Panel()
			}
		case t.Do("continue", "") != nil:
			return t.Panel()
		}
	}
	return t.Panel()
}

// Guesses are answers of which one can be committed, whatever is asked.
func Guesses(p *tutor.Panel) []string {
	var list []string
	for _, o := range p.Options {
		list = append(list, o.ID)
	}
	if p.Task == nil {
		return list
	}
	for _, part := range p.Task.Parts {
		list = append(list, part.ID)
	}
	set := ""
	for _, f := range p.Task.Floors {
		list = append(list, f.ID)
		if len(p.Task.Stands) > 0 {
			set += f.ID + ":" + p.Task.Stands[0].ID + " "
		}
	}
	return append(list, set, "0", "1")
}

// edition is a short mark of everything in a lesson that a sheet depends on.
func edition(l *script.Lesson) string {
	h := fnv.New32a()
	write := func(parts ...any) { fmt.Fprintln(h, parts...) }
	write(l.ID, l.Title, l.Level, l.Aims, l.Building)
	l.Texts(func(path string, p script.Prose) { write(path, p.Plain()) })
	for i := range l.Items {
		it := &l.Items[i]
		plan, _ := json.Marshal(it.Plan)
		write(it.Title, it.Kind, it.Start, it.Lead.Until.String(), string(plan))
		for _, in := range append(append([]script.Input(nil), it.Lead.Inputs...), it.Inputs...) {
			write(in.Path, in.AtS, in.Name, in.Do.State, in.Do.Value)
		}
		for _, s := range it.Segments {
			write(s.Until.String())
		}
	}
	return fmt.Sprintf("%08x", h.Sum32())
}
