package session

import (
	"slices"

	"wheelroom/game/handout"
	"wheelroom/lessons/script"
	"wheelroom/lessons/sheet"
)

// worksheet is what the screen that prints asks for.
var worksheet = map[string]action{"pages": taking(worksheetPages)}

type worksheetOrder struct {
	Lesson  string
	Copies  int // of a class set, 0 for one sheet
	Seed    uint64
	Answers bool
	Address string // of the page
}

// worksheetPages returns the pages of a worksheet as markup, to be shown with
// the style sheet of the handout.
func worksheetPages(a Asking, q worksheetOrder) (any, error) {
	i := slices.IndexFunc(a.o.Lessons, func(l *script.Lesson) bool { return l.ID == q.Lesson })
	if i < 0 {
		return nil, refuse("lesson.unknown-lesson", "found", q.Lesson)
	}
	if q.Copies < 0 || q.Copies > sheet.MostCopies {
		return nil, refuse("sheet.bad-set", "most", sheet.MostCopies)
	}
	s, err := sheet.Make(a.o.Lessons[i], a.o.Words)
	if err != nil {
		return nil, err
	}
	return handout.Pages(s, handout.Options{Words: a.o.Words, Address: q.Address, Copies: q.Copies, Seed: q.Seed, Answers: q.Answers}), nil
}
