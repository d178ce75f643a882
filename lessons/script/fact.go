package script

import (
	"math"
	"sort"
	"strconv"
	"strings"

	"wheelroom/physics/phrase"
)

// A Fact is a blank in a text that a run of the machine fills in:
//
//	{SUBJECT.N.WHAT}
//
// SUBJECT is "stop", "departure" or a signal and its word (see Event), joined
// by dots: relay.direction.in, call.5.answered. N is which one, counted from
// 1, or "last"; left out it is 1. WHAT is one of
//
//	floor    where (of a stop or a departure)
//	time     when, by the clock of the picture
//	after    how long after the frozen frame
//	height   how high the car then was, above the lowest landing
//	speed    how fast it then went
//	length   how long it lasted: until the same signal changed again
//	count    how many there were (without N)
//
// A run is the part after the frozen frame; "lead." before the subject means
// the part before it. Three facts need no run: {start.floor},
// {floor.F.height}; and {frozen.time}, the instant of the frozen frame.
type Fact struct {
	Written string // without the braces
	lead    bool
	fixed   string // "start", "frozen" or "floor"
	height  float64
	event   Event
	n       int // 0 for the last
	what    string
}

// Needs says how much of a run must be over before a fact can be told.
type Needs uint8

// What a fact needs. A text shown before the run may ask for nothing, the
// question only for what came before the frozen frame.
const (
	NeedsNothing Needs = iota
	NeedsLead
	NeedsRun
)

// Needs returns what must be over.
func (f *Fact) Needs() Needs {
	switch {
	case f.fixed == "frozen" || f.lead:
		return NeedsLead
	case f.fixed != "":
		return NeedsNothing
	}
	return NeedsRun
}

// whats lists what can be asked of an event; of a stop the length is how long
// the car stood there.
var whats = []string{"floor", "time", "after", "height", "speed", "length", "count"}

// fact reads what stands between braces. On failure it returns what is wrong
// and the facts it might have been meant to be.
func (v *vocabulary) fact(written string) (*Fact, *phrase.Phrase, []string) {
	f := &Fact{Written: written, n: 1}
	rest, what, _ := cutLast(written)
	f.what = what
	switch {
	case written == "start.floor":
		f.fixed = "start"
		return f, nil, nil
	case written == "frozen.time":
		f.fixed = "frozen"
		return f, nil, nil
	case strings.HasPrefix(rest, "floor.") && what == "height":
		if i := v.plan.Floor(strings.TrimPrefix(rest, "floor.")); i >= 0 {
			f.fixed, f.height = "floor", v.plan.Floors[i].HeightM
			return f, nil, nil
		}
	}
	subject, counted := rest, false
	subject, f.lead = strings.CutPrefix(subject, "lead.")
	if before, n, ok := cutLast(subject); ok && v.subjects[before].part != "" {
		if number, err := strconv.Atoi(n); n == "last" || err == nil && number > 0 {
			subject, f.n, counted = before, number, true
		}
	}
	event, ok := v.subjects[subject]
	if !ok {
		wrong := phrase.Of("lesson.unknown-fact", "found", written)
		return nil, &wrong, guesses(v.subjects, f.lead)
	}
	f.event = event
	if !has(whats, what) || counted && what == "count" || f.lead && what == "after" || what == "floor" && event.part != "stop" {
		wrong := phrase.Of("lesson.unknown-fact", "found", written)
		return nil, &wrong, f.variants(subject, counted)
	}
	return f, nil, nil
}

// guesses lists the facts a misspelt one may have meant: one a subject.
func guesses(known map[string]Event, lead bool) []string {
	list := []string{"start.floor", "frozen.time"}
	for _, subject := range sortedKeys(known) {
		if lead {
			subject = "lead." + subject
		}
		list = append(list, subject+".time")
	}
	return list
}

// variants lists what can be asked of the subject.
func (f *Fact) variants(subject string, counted bool) []string {
	if f.lead {
		subject = "lead." + subject
	}
	var list []string
	for _, what := range whats {
		switch {
		case what == "floor" && f.event.part != "stop", what == "after" && f.lead, what == "count" && counted:
		case !counted || what == "count":
			list = append(list, subject+"."+what)
		default:
			list = append(list, subject+".1."+what)
		}
	}
	return list
}

// Value returns the fact as a slot's value, false while the log does not hold
// it: the event has not happened, or not yet.
func (f *Fact) Value(l *Log) (any, bool) {
	switch f.fixed {
	case "start":
		return l.Start, true
	case "frozen":
		return timeS(l.FrozenS), l.Asked
	case "floor":
		return metres(f.height), true
	}
	from, to := l.Before, len(l.Events)
	if f.lead {
		from, to = 0, l.Before
	}
	if !l.Asked {
		return nil, false
	}
	if f.what == "count" {
		return f.count(l, from, to), true
	}
	i := f.event.nth(l, from, to, f.n)
	if i < 0 {
		return nil, false
	}
	e := l.Events[i]
	switch f.what {
	case "floor":
		if e.State == "-" {
			return l.restedAt(i), true
		}
		return e.State, true
	case "time":
		return timeS(e.TimeS), true
	case "after":
		return timeS(e.TimeS - l.FrozenS), true
	case "length":
		for _, later := range l.Events[i+1 : to] {
			if later.Part == e.Part {
				return timeS(later.TimeS - e.TimeS), true
			}
		}
		return nil, false
	case "height":
		h, _ := l.place(e.TimeS)
		return metres(h), true
	}
	_, v := l.place(e.TimeS)
	return phrase.Of("lesson.metres-a-second", "value", phrase.Num(math.Abs(v), 2)), true
}

func (f *Fact) count(l *Log, from, to int) int {
	n := 0
	for i := from; i < to; i++ {
		if f.event.matches(l, i) {
			n++
		}
	}
	return n
}

func timeS(v float64) phrase.Phrase { return phrase.Of("lesson.seconds", "value", phrase.Num(v, 1)) }
func metres(v float64) phrase.Phrase {
	return phrase.Of("lesson.metres", "value", phrase.Num(v, 2))
}

// cutLast cuts s at its last dot.
func cutLast(s string) (before, after string, found bool) {
	if i := strings.LastIndexByte(s, '.'); i >= 0 {
		return s[:i], s[i+1:], true
	}
	return "", s, false
}

func has(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}
