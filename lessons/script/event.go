package script

import (
	"slices"
	"strconv"
	"strings"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/selector"
)

// An Event is something that happens in a run, as a lesson names it:
//
//	stops 5            the car comes to rest level at floor 5
//	stops              the car comes to rest level at any floor
//	departs 3          the car leaves floor 3 (or any: departs)
//	relay.direction in a part takes a state, in words
//
// The parts and their words:
//
//	call.F                 registered, answered    (and call-up.F, call-down.F, call-car.F)
//	button.F               pressed, released       (and button-up.F, …)
//	lamp.F                 lit, dark
//	rim.F                  made, broken            (the centre contact)
//	advance-up.F           made, broken
//	advance-down.F         made, broken
//	direction.F            above, between, below
//	terminal.N             made, broken            (of the ring, from 0)
//	relay.NAME             in, out
//	cam                    in, out
//	door                   open, closed
//	vane-switch, car-door, landing-door, lock, slow-down-top and the other
//	switches of shaft and car     made, broken
//	stop-switch, governor, safety-gear, overload, isolator     open, closed
//	brake-lever            eased, set
//	handwheel              up, down, still
type Event struct {
	part  lift.Part
	state string // "" for any floor
	left  string // the floor departed from, "" for any
	words string
}

// String returns the event as it was written.
func (e Event) String() string { return e.words }

// Part returns the part of the machine that changes.
func (e Event) Part() lift.Part { return e.part }

// A family is the parts that share words, and what the words are in the trace.
type family struct {
	names  []string // before the dot, or whole names
	words  []string
	states []string // of the trace, beside words
}

var onOff = []string{"1", "0"}

var families = []family{
	{[]string{"call", "call-up", "call-down", "call-car"}, []string{"registered", "answered"}, onOff},
	{[]string{"button", "button-up", "button-down", "button-car"}, []string{"pressed", "released"}, onOff},
	{[]string{"lamp"}, []string{"lit", "dark"}, onOff},
	{[]string{"rim", "advance-up", "advance-down", "terminal",
		"vane-switch", "car-door", "landing-door", "lock", "door-open", "at-rest",
		"slow-down-top", "slow-down-bottom", "stop-limit-top", "stop-limit-bottom",
		"final-limit-top", "final-limit-bottom"}, []string{"made", "broken"}, onOff},
	{[]string{"direction"}, []string{"above", "between", "below"}, []string{"above", "between", "below"}},
	{[]string{"relay", "cam"}, []string{"in", "out"}, onOff},
	{[]string{"door"}, []string{"open", "closed"}, []string{"open", "closed"}},
	{[]string{"stop-switch", "governor", "safety-gear", "overload", "isolator"}, []string{"open", "closed"}, onOff},
	{[]string{"brake-lever"}, []string{"eased", "set"}, onOff},
	{[]string{"handwheel"}, []string{"up", "down", "still"}, []string{"up", "down", "0"}},
}

// isCall reports whether a part's name before its dot is that of a call.
func isCall(name string) bool { return has(families[0].names, name) }

// familyOf returns the words of a part, nil for a part without any.
func familyOf(part string) *family {
	name, _ := split(lift.Part(part))
	for i := range families {
		if has(families[i].names, name) {
			return &families[i]
		}
	}
	return nil
}

// state returns the trace's word for one of the family's, "" for another.
func (f *family) state(word string) string {
	if i := index(f.words, word); i >= 0 {
		return f.states[i]
	}
	return ""
}

// A vocabulary is everything a lesson can name in one building.
type vocabulary struct {
	plan     *building.Plan
	ring     *selector.Ring
	wheel    *selector.Wheel
	parts    []string         // that have words, in a fixed order
	calls    []control.Call   // that can be made
	events   map[string]Event // as conditions and claims write them
	subjects map[string]Event // as facts write them
}

func newVocabulary(plan *building.Plan) *vocabulary {
	v := &vocabulary{
		plan:  plan,
		wheel: selector.NewWheel(plan),
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
	v.findParts()
	for _, part := range v.parts {
		f := familyOf(part)
		for i, word := range f.words {
			e := Event{part: lift.Part(part), state: f.states[i], words: part + " " + word}
			v.events[e.words] = e
			v.subjects[part+"."+word] = e
		}
	}
	return v
}

// findParts lists the parts of the building's machine that can be named: those
// of its circuit, and those beside it.
func (v *vocabulary) findParts() {
	ring, _ := selector.NewRing(v.plan)
	v.ring = ring
	names := make([]string, len(v.plan.Floors))
	joined := make([][]int, len(names))
	for i := range names {
		names[i] = v.plan.Floors[i].Name
	}
	seen := map[string]bool{}
	add := func(part string) {
		if !seen[part] && familyOf(part) != nil {
			seen[part] = true
			v.parts = append(v.parts, part)
		}
	}
	for t, terminal := range ring.Terminals() {
		if terminal.Floor >= 0 {
			joined[terminal.Floor] = append(joined[terminal.Floor], t)
			add("terminal." + strconv.Itoa(t))
		}
	}
	for _, part := range []string{"door", "isolator", "brake-lever", "handwheel"} {
		add(part)
	}
	diagram := control.New(v.plan.Control.Scheme, names, joined)
	if diagram == nil { // an unknown scheme, reported by itself
		diagram = control.Directional(names, joined)
	}
	v.calls = diagram.Calls
	for _, b := range diagram.Branches {
		eachPart(b.Body, add)
	}
	for _, relay := range control.Relays() {
		add("relay." + relay)
	}
}

// eachPart calls yield with the part of every contact, coil and lamp of a body.
func eachPart(body control.Body, yield func(part string)) {
	switch b := body.(type) {
	case control.Contact:
		yield(b.Part)
	case control.Coil:
		yield(b.Part)
	case control.Lamp:
		yield(b.Part)
	case control.Series:
		for _, inner := range b {
			eachPart(inner, yield)
		}
	case control.Parallel:
		for _, inner := range b {
			eachPart(inner, yield)
		}
	}
}

// matches reports whether the log's event i is this one.
func (e Event) matches(l *Log, i int) bool {
	got := &l.Events[i]
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

// ownWords are the parts that only circuits with several buttons a floor have.
var ownWords = []string{"call-up", "call-down", "call-car", "button-up", "button-down", "button-car"}

// PartName names a part in words; one of several by what stands after its
// point.
func PartName(p lift.Part) phrase.Phrase {
	kind, which := split(p)
	switch {
	case p == "stop", p == "door":
		return phrase.Of("lesson.part-" + kind)
	case has(ownWords, kind):
		return phrase.Of("lesson.part-"+kind, "floor", which)
	case p == "relay.bound-up", p == "relay.bound-down":
		return phrase.Of("lesson.part-" + which)
	case kind == "relay":
		return phrase.Of("part.relay-" + which)
	case which != "":
		return phrase.Of("part."+kind, "which", which)
	}
	return phrase.Of("part." + kind)
}

// Happening words an event of a run: when, what and how it changed.
func Happening(e *lift.Event) phrase.Phrase {
	state := phrase.Of("lesson.state-changed")
	if f := familyOf(string(e.Part)); f != nil {
		if i := index(f.states, e.State); i >= 0 {
			state = phrase.Of("lesson.state-" + f.words[i])
		}
	}
	switch {
	case e.Part == "stop" && e.State == "-":
		state = phrase.Of("lesson.state-departs")
	case e.Part == "stop":
		state = phrase.Of("lesson.state-stops", "floor", e.State)
	}
	return phrase.Of("lesson.happening", "time", Seconds.say(e.TimeS, 2), "part", PartName(e.Part), "state", state)
}

func has(list []string, s string) bool { return slices.Contains(list, s) }

func index(list []string, s string) int { return slices.Index(list, s) }
