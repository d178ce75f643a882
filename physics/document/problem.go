package document

import (
	"cmp"
	"slices"
	"strconv"

	"wheelroom/physics/phrase"
)

// A Problem is one thing wrong with a document, or one thing that will work
// badly (Warning). File is the name the document was read under. Path names the
// value, as in "floors[2].height_m". Line and Col count from 1, Col in
// characters; both are 0 while the problem has not been placed in a text.
type Problem struct {
	File      string
	Line, Col int
	Path      string
	Phrase    phrase.Phrase
	Warning   bool
}

// Format spells the problem as "FILE:LINE:COL: text", the form editors and
// build tools jump to. A problem without a place leaves line and column out.
func (p Problem) Format(text func(phrase.Phrase) string) string {
	at := p.File
	if p.Line > 0 {
		at += ":" + strconv.Itoa(p.Line) + ":" + strconv.Itoa(p.Col)
	}
	return at + ": " + text(p.Phrase)
}

// Failed reports whether any of the problems is an error rather than a
// warning. What was read together with a failure must not be used.
func Failed(problems []Problem) bool {
	return slices.ContainsFunc(problems, func(p Problem) bool { return !p.Warning })
}

// Sort orders problems by place, errors before warnings at the same place;
// otherwise the order of finding is kept.
func Sort(problems []Problem) {
	slices.SortStableFunc(problems, func(a, b Problem) int {
		if d := cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col)); d != 0 {
			return d
		}
		switch {
		case a.Warning == b.Warning:
			return 0
		case b.Warning:
			return -1
		}
		return 1
	})
}
