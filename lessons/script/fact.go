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
// the part before it. How long one thing came after another is written
//
//	{SUBJECT.N since SUBJECT.N}
//
// and three facts are about no event: {start.floor}, {floor.F.height} and
// {frozen.time}, the instant of the frozen frame.
type Fact struct {
	Written string // without the braces
	fixed   string // "start", "frozen" or "floor"
	height  float64
	event   mention
	since   *mention // for how long after it
	what    string
}

// A mention is one event of a run.
type mention struct {
	event Event
	lead  bool // before the frozen frame
	n     int  // from 1; 0 for the last
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
	case f.fixed == "frozen" || f.fixed == "" && f.event.lead && (f.since == nil || f.since.lead):
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
	f := &Fact{Written: written}
	unknown := phrase.Of("lesson.unknown-fact", "found", written)
	if later, earlier, ok := strings.Cut(written, " since "); ok {
		a, _, okA := v.mention(later)
		b, _, okB := v.mention(earlier)
		switch {
		case !okA:
			return nil, &unknown, spellings(v.subjects, "", " since "+earlier)
		case !okB:
			return nil, &unknown, spellings(v.subjects, later+" since ", "")
		}
		f.event, f.since = a, &b
		return f, nil, nil
	}
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
	m, counted, ok := v.mention(rest)
	f.event = m
	if !ok {
		before := ""
		if m.lead {
			before = "lead."
		}
		return nil, &unknown, append(spellings(v.subjects, before, ".time"), "start.floor", "frozen.time")
	}
	if !has(whats, what) || counted && what == "count" || m.lead && what == "after" || what == "floor" && m.event.part != "stop" {
		return nil, &unknown, variants(rest, m, counted)
	}
	return f, nil, nil
}

// mention reads SUBJECT.N and reports whether there was an N.
func (v *vocabulary) mention(written string) (m mention, counted, ok bool) {
	m.n = 1
	subject, lead := strings.CutPrefix(written, "lead.")
	m.lead = lead
	if before, n, cut := cutLast(subject); cut && v.subjects[before].part != "" {
		if number, err := strconv.Atoi(n); n == "last" || err == nil && number > 0 {
			subject, m.n, counted = before, number, true
		}
	}
	m.event, ok = v.subjects[subject]
	return m, counted, ok
}

// spellings lists every subject between the two given pieces of text.
func spellings(known map[string]Event, before, after string) []string {
	list := sortedKeys(known)
	for i := range list {
		list[i] = before + list[i] + after
	}
	return list
}

// variants lists what can be asked of an event.
func variants(written string, m mention, counted bool) []string {
	var list []string
	for _, what := range whats {
		switch {
		case what == "floor" && m.event.part != "stop", what == "after" && m.lead, what == "count" && counted:
		default:
			list = append(list, written+"."+what)
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
	if f.what == "count" {
		from, to := f.event.span(l)
		return f.event.event.count(l, from, to), l.Asked
	}
	i := f.event.find(l)
	if i < 0 {
		return nil, false
	}
	e := l.Events[i]
	if f.since != nil {
		j := f.since.find(l)
		if j < 0 {
			return nil, false
		}
		return durationS(e.TimeS - l.Events[j].TimeS), true
	}
	switch f.what {
	case "floor":
		if e.State == "-" {
			return l.restedAt(i), true
		}
		return e.State, true
	case "time":
		return timeS(e.TimeS), true
	case "after":
		return durationS(e.TimeS - l.FrozenS), true
	case "length":
		_, to := f.event.span(l)
		for _, later := range l.Events[i+1 : to] {
			if later.Part == e.Part {
				return durationS(later.TimeS - e.TimeS), true
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

// span returns the part of the log the mention is about.
func (m mention) span(l *Log) (from, to int) {
	if m.lead {
		return 0, l.Before
	}
	return l.Before, len(l.Events)
}

// find returns the index of the event mentioned, -1 while there is none.
func (m mention) find(l *Log) int {
	if !l.Asked {
		return -1
	}
	from, to := m.span(l)
	return m.event.nth(l, from, to, m.n)
}

// durationS words how long something took: in milliseconds under a second,
// where relays work.
func durationS(v float64) phrase.Phrase {
	if math.Abs(v) < 1 {
		return phrase.Of("lesson.milliseconds", "value", phrase.Num(v*1000, 0))
	}
	return timeS(v)
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
