package script

import (
	"strings"

	"wheelroom/physics/phrase"
)

// A Form is how a question is answered: what an answer looks like, which one
// the machine gives, and in what way another differs from it. Answers are
// texts, each kind with a spelling of its own; an answer may be unfinished
// while the learner is at it. No Form holds the right answer: only a finished
// run does.
type Form interface {
	// Tidy returns the answer in its one spelling, false if it is none.
	Tidy(answer string) (string, bool)
	// Whole reports whether a tidy answer is finished and may be committed.
	Whole(answer string) bool
	// Truth returns the machine's answer, false if the run gives none.
	Truth(l *Log) (string, bool)
	// Class says how a whole answer compares with the run: Right, or in what
	// way it is wrong.
	Class(answer string, l *Log) string
	// Classes returns the ways in which an answer can be wrong after this run.
	Classes(l *Log) []string
	// Say words a tidy answer; those of options are worded by their texts.
	Say(answer string) phrase.Phrase
}

// The classes of an answer. Other stands for every way to be wrong that an
// item does not explain by itself.
const (
	Right = "right"
	Other = "other"

	Swapped  = "swapped"  // the right stops in another order
	Missing  = "missing"  // a stop left out
	Extra    = "extra"    // a stop that is not made
	Mirrored = "mirrored" // every switch the other way round
	TooLow   = "too-low"
	TooHigh  = "too-high"
	TooEarly = "too-early"
	TooLate  = "too-late"
)

// classes are what an explanation of each kind may be for, besides Right,
// Other and a whole answer.
var classes = map[Kind][]string{
	OrderStops:  {Swapped, Missing, Extra},
	SetSwitches: {Mirrored},
	ReadNumber:  {TooLow, TooHigh},
	LampOut:     {TooEarly, TooLate},
}

// An Answer is the explanation of one kind of answer.
type Answer struct {
	Is       string // a class or, tidy, a whole answer
	Because  Prose
	Tempting bool // what most would say who have not met this before
}

// explanation returns the explanation of a whole answer: its own, that of its
// class or that of any other; nil if there is none.
func (it *Item) explanation(answer string, l *Log) *Answer {
	class := it.Form.Class(answer, l)
	for _, is := range []string{answer, class, Other} {
		if is == Other && class == Right {
			break
		}
		for i := range it.Answers {
			if it.Answers[i].Is == is {
				return &it.Answers[i]
			}
		}
	}
	return nil
}

// Explain returns why an answer is right or wrong, then, if it is wrong, why
// the right one is right. For options it explains each that was chosen and
// each that was wrongly left out.
func (it *Item) Explain(answer string, l *Log) []Prose {
	var out []Prose
	if it.Chooses() {
		chosen := strings.Fields(answer)
		for i := range it.Options {
			o := &it.Options[i]
			if has(chosen, o.ID) {
				out = append(out, o.Because)
			}
		}
		for i := range it.Options {
			if o := &it.Options[i]; !has(chosen, o.ID) && o.Claim.Holds(l) {
				out = append(out, o.Because)
			}
		}
		return out
	}
	wrong := it.Form.Class(answer, l) != Right
	if a := it.explanation(answer, l); a != nil {
		out = append(out, a.Because)
	}
	if truth, ok := it.Form.Truth(l); wrong && ok {
		if a := it.explanation(truth, l); a != nil {
			out = append(out, a.Because)
		}
	}
	return out
}

// Tidy returns an answer in its one spelling, false if it is none.
func (it *Item) Tidy(answer string) (string, bool) {
	if !it.Asks() || len(answer) > longestAnswer {
		return "", false
	}
	return it.Form.Tidy(answer)
}

// longestAnswer bounds an answer, bytes: 32 floors of 4 letters, each with the
// stand of its switch.
const longestAnswer = 1000

// Correct reports whether a whole answer is what the machine did.
func (it *Item) Correct(answer string, l *Log) bool {
	return it.Asks() && it.Form.Whole(answer) && it.Form.Class(answer, l) == Right
}

// listed words several things one after another.
func listed(id string, words []phrase.Phrase) phrase.Phrase {
	if len(words) == 0 {
		return phrase.Of("lesson.answer-none")
	}
	out := words[len(words)-1]
	for i := len(words) - 2; i >= 0; i-- {
		out = phrase.Of(id, "first", words[i], "rest", out)
	}
	return out
}

func floorWord(name string) phrase.Phrase { return phrase.Of("lesson.answer-floor", "floor", name) }
