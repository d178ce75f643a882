package script

import (
	"strings"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// An Event is something that happens in a run, as a lesson names it:
//
//	stops 5            the car comes to rest level at floor 5
//	stops              the car comes to rest level at any floor
//	departs 3          the car leaves floor 3 (or any: departs)
//	relay.direction in a signal of the trace takes a value, in words
//
// The signals and their words:
//
//	call.F                 registered, answered
//	lamp.F                 lit, dark
//	rim.F                  made, broken      (the centre contact)
//	advance-up.F           made, broken
//	advance-down.F         made, broken
//	direction.F            above, between, below
//	relay.NAME             in, out
//	door                   open, closed
type Event struct {
	part  lift.Part
	state string // "" for any floor
	left  string // the floor departed from, "" for any
	words string
}

// String returns the event as it was written.
func (e Event) String() string { return e.words }

// A family is the signals that share a name and words, and what the words
// are in the trace.
type family struct {
	name   string
	floors bool     // one signal a floor
	names  []string // or one a name; neither: the name is the signal
	words  []string
	states []string // of the trace, beside words
}

var onOff = []string{"1", "0"}

// families is every signal a lesson can speak of: those of the trace.
var families = []family{
	{name: "call", floors: true, words: []string{"registered", "answered"}, states: onOff},
	{name: "lamp", floors: true, words: []string{"lit", "dark"}, states: onOff},
	{name: "rim", floors: true, words: []string{"made", "broken"}, states: onOff},
	{name: "advance-up", floors: true, words: []string{"made", "broken"}, states: onOff},
	{name: "advance-down", floors: true, words: []string{"made", "broken"}, states: onOff},
	{name: "direction", floors: true, words: []string{"above", "between", "below"}, states: []string{"above", "between", "below"}},
	{name: "relay", names: control.Relays(), words: []string{"in", "out"}, states: onOff},
	{name: "door", words: []string{"open", "closed"}, states: []string{"open", "closed"}},
}

// members returns the names behind the dot in this building, or one empty
// name for a signal that has none.
func (f family) members(plan *building.Plan) []string {
	switch {
	case f.floors:
		names := make([]string, len(plan.Floors))
		for i, floor := range plan.Floors {
			names[i] = floor.Name
		}
		return names
	case f.names != nil:
		return f.names
	}
	return []string{""}
}

// signal returns the part's name in the trace.
func (f family) signal(member string) string {
	if member == "" {
		return f.name
	}
	return f.name + "." + member
}

// A vocabulary is everything a lesson can name in one building.
type vocabulary struct {
	plan     *building.Plan
	events   map[string]Event // as conditions and claims write them
	subjects map[string]Event // as facts write them
}

func newVocabulary(plan *building.Plan) *vocabulary {
	v := &vocabulary{
		plan: plan,
		events: map[string]Event{
			"stops":   {part: "stop", words: "stops"},
			"departs": {part: "stop", state: "-", words: "departs"},
		},
		subjects: map[string]Event{
			"stop":      {part: "stop", words: "stop"},
			"departure": {part: "stop", state: "-", words: "departure"},
		},
	}
	for _, floor := range plan.Floors {
		stops, departs := "stops "+floor.Name, "departs "+floor.Name
		v.events[stops] = Event{part: "stop", state: floor.Name, words: stops}
		v.events[departs] = Event{part: "stop", state: "-", left: floor.Name, words: departs}
	}
	for _, f := range families {
		for _, member := range f.members(plan) {
			for i, word := range f.words {
				signal := f.signal(member)
				e := Event{part: lift.Part(signal), state: f.states[i], words: signal + " " + word}
				v.events[e.words] = e
				v.subjects[signal+"."+word] = e
			}
		}
	}
	return v
}

// matches reports whether the log's event i is this one.
func (e Event) matches(l *Log, i int) bool {
	got := l.Events[i]
	if got.Part != e.part {
		return false
	}
	switch {
	case e.left != "":
		return got.State == "-" && l.restedAt(i) == e.left
	case e.part == "stop" && e.state == "":
		return got.State != "-"
	}
	return got.State == e.state
}

// first returns the index of the first matching event at or after index
// from, or -1.
func (e Event) first(l *Log, from int) int {
	for i := from; i < len(l.Events); i++ {
		if e.matches(l, i) {
			return i
		}
	}
	return -1
}

// nth returns the index of the n-th match (from 1; 0 for the last) among the
// events from index from to index to, or -1.
func (e Event) nth(l *Log, from, to, n int) int {
	found, count := -1, 0
	for i := from; i < to; i++ {
		if !e.matches(l, i) {
			continue
		}
		found = i
		if count++; count == n {
			return i
		}
	}
	if n == 0 {
		return found
	}
	return -1
}

// count returns the number of matches from index from to index to.
func (e Event) count(l *Log, from, to int) int {
	n := 0
	for i := from; i < to; i++ {
		if e.matches(l, i) {
			n++
		}
	}
	return n
}

// restedAt returns the floor at which the car last rested before event i.
func (l *Log) restedAt(i int) string {
	for i--; i >= 0; i-- {
		if l.Events[i].Part == "stop" && l.Events[i].State != "-" {
			return l.Events[i].State
		}
	}
	return l.Start
}

// split cuts a part's name at its first dot.
func split(p lift.Part) (family, member string) {
	family, member, _ = strings.Cut(string(p), ".")
	return family, member
}
