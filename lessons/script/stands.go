package script

import (
	"strings"

	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// switchStands is the form of set-switches: how each direction switch stands
// when the run is over, spelled FLOOR:STAND for every floor asked about,
// lowest first, separated by spaces. A switch not yet set is left out.
type switchStands struct {
	floors []string // asked about, lowest first
}

// stands are the words for how a switch stands.
var stands = []string{lift.Above.String(), lift.Between.String(), lift.Below.String()}

// Offered returns the floors whose switches are to be set.
func (s *switchStands) Offered() []string { return s.floors }

// Stands returns the ways in which a direction switch can stand.
func Stands() []string { return append([]string(nil), stands...) }

// read returns the stands by floor, "" for a switch not yet set.
func (s *switchStands) read(answer string) ([]string, bool) {
	set := make([]string, len(s.floors))
	for _, word := range strings.Fields(answer) {
		floor, stand, _ := strings.Cut(word, ":")
		i := index(s.floors, floor)
		if i < 0 || set[i] != "" || !has(stands, stand) {
			return nil, false
		}
		set[i] = stand
	}
	return set, true
}

func (s *switchStands) spell(set []string) string {
	var words []string
	for i, stand := range set {
		if stand != "" {
			words = append(words, s.floors[i]+":"+stand)
		}
	}
	return strings.Join(words, " ")
}

// Tidy takes floors in any order.
func (s *switchStands) Tidy(answer string) (string, bool) {
	set, ok := s.read(answer)
	return s.spell(set), ok
}

// Whole: every switch is to be set.
func (s *switchStands) Whole(answer string) bool {
	return len(strings.Fields(answer)) == len(s.floors)
}

// Truth is how the switches stand at the end of the run.
func (s *switchStands) Truth(l *Log) (string, bool) {
	set := make([]string, len(s.floors))
	for i, f := range s.floors {
		set[i] = l.State(lift.Part("direction."+f), len(l.Events))
	}
	return s.spell(set), true
}

// Class is Mirrored when every switch that stands either way was set the
// other way.
func (s *switchStands) Class(answer string, l *Log) string {
	truth, _ := s.Truth(l)
	if truth == answer {
		return Right
	}
	is, _ := s.read(truth)
	said, _ := s.read(answer)
	turned := map[string]string{"above": "below", "below": "above"}
	mirrored := false
	for i := range is {
		if other := turned[is[i]]; other != "" {
			if said[i] != other {
				return Other
			}
			mirrored = true
		}
	}
	if mirrored {
		return Mirrored
	}
	return Other
}

// Classes are all there are.
func (s *switchStands) Classes(*Log) []string { return []string{Mirrored, Other} }

// Say words each switch.
func (s *switchStands) Say(answer string) phrase.Phrase {
	var words []phrase.Phrase
	set, _ := s.read(answer)
	for i, stand := range set {
		if stand != "" {
			words = append(words, phrase.Of("lesson.answer-switch-"+stand, "floor", s.floors[i]))
		}
	}
	return listed("lesson.answer-and", words)
}
