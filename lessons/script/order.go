package script

import (
	"strings"

	"wheelroom/physics/phrase"
)

// stopOrder is the form of order-stops: floors in the order in which the car
// stops at them, separated by spaces. Floors at which it does not stop are
// left out.
type stopOrder struct {
	floors []string // offered
}

// Offered returns the floors a learner has to choose from.
func (s *stopOrder) Offered() []string { return s.floors }

// Tidy takes each offered floor once at most.
func (s *stopOrder) Tidy(answer string) (string, bool) {
	floors := strings.Fields(answer)
	for i, f := range floors {
		if !has(s.floors, f) || has(floors[:i], f) {
			return "", false
		}
	}
	return strings.Join(floors, " "), true
}

// Whole: a car that is called stops somewhere.
func (s *stopOrder) Whole(answer string) bool { return answer != "" }

// Truth is every stop of the run; one that is not offered, or made twice,
// cannot be answered.
func (s *stopOrder) Truth(l *Log) (string, bool) {
	stops := l.Stops()
	truth, ok := s.Tidy(strings.Join(stops, " "))
	return truth, ok && len(stops) > 0
}

// Class looks for a stop too many first, then for one left out.
func (s *stopOrder) Class(answer string, l *Log) string {
	truth, ok := s.Truth(l)
	if !ok {
		return Other
	}
	if truth == answer {
		return Right
	}
	said, made := strings.Fields(answer), strings.Fields(truth)
	for _, f := range said {
		if !has(made, f) {
			return Extra
		}
	}
	if len(said) < len(made) {
		return Missing
	}
	return Swapped
}

// Classes are those that the number of stops leaves room for.
func (s *stopOrder) Classes(l *Log) []string {
	truth, _ := s.Truth(l)
	made := len(strings.Fields(truth))
	var list []string
	if made > 1 {
		list = append(list, Swapped, Missing)
	}
	if len(s.floors) > made {
		list = append(list, Extra)
	}
	return list
}

// Say words the floors: 5, then 2.
func (s *stopOrder) Say(answer string) phrase.Phrase {
	var words []phrase.Phrase
	for _, f := range strings.Fields(answer) {
		words = append(words, floorWord(f))
	}
	return listed("lesson.answer-then", words)
}
