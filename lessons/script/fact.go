package script

import (
	"strconv"
	"strings"

	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// A Fact is a blank in a text that a run of the machine fills in:
//
//	{SUBJECT.N.WHAT}
//
// SUBJECT is "stop", "departure" or a part and its word (see Event), joined
// by dots: relay.direction.in, call.5.answered. N is which one, counted from
// 1, or "last"; left out it is 1. WHAT is one of
//
//	floor    where (of a stop or a departure)
//	time     when, by the clock of the picture
//	after    how long after the frozen frame
//	height   how high the car then was, above the lowest landing
//	speed    how fast it then went
//	length   how long it lasted: until the same part changed again
//	level    how far the car then stood from the nearest landing, mm
//	why      what brought it about, as a list of parts
//	count    how many there were (without N)
//
// A run is the part after the frozen frame; "lead." before the subject means
// the part before it. How long one thing came after another, and how far the
// car went between them, is written
//
//	{SUBJECT.N since SUBJECT.N}
//	{SUBJECT.N from SUBJECT.N}
//
// Why a part stands as it does when the text is told, or stood at the frozen
// frame, is a sentence of its own, with its full stop:
//
//	{why.PART}
//	{lead.why.PART}
//
// Facts about no event are listed at steadies.
type Fact struct {
	Written string    // without the braces
	Why     lift.Part // of a fact that explains a part, else ""
	Frozen  bool      // it explains the part as it stood at the frozen frame
	needs   Needs
	value   func(l *Log) (Value, bool)
	unit    Unit // of its value, "" for words alone
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
func (f *Fact) Needs() Needs { return f.needs }

// Value returns what the fact comes to, false while the log does not hold it:
// the event has not happened, or not yet.
func (f *Fact) Value(l *Log) (Value, bool) { return f.value(l) }

func (m mention) needs() Needs {
	if m.lead {
		return NeedsLead
	}
	return NeedsRun
}

// A what is one thing that can be asked of an event.
type what struct {
	word  string
	unit  Unit
	value func(v *vocabulary, m mention, l *Log) (Value, bool)
}

// whats lists what can be asked of an event; of a stop the length is how long
// the car stood there.
var whats []what

func init() {
	whats = []what{
		{"floor", "", atEvent(func(_ *vocabulary, l *Log, i int) (Value, bool) {
			if l.Events[i].State == "-" {
				return named(l.restedAt(i)), true
			}
			return named(l.Events[i].State), true
		})},
		{"time", Seconds, atEvent(func(_ *vocabulary, l *Log, i int) (Value, bool) {
			return quantity(l.Events[i].TimeS, Seconds), true
		})},
		{"after", Seconds, atEvent(func(_ *vocabulary, l *Log, i int) (Value, bool) {
			return duration(l.Events[i].TimeS - l.FrozenS), true
		})},
		{"height", Metres, atEvent(func(_ *vocabulary, l *Log, i int) (Value, bool) {
			h, _ := l.place(l.Events[i].TimeS)
			return quantity(h, Metres), true
		})},
		{"speed", MetresASec, atEvent(func(_ *vocabulary, l *Log, i int) (Value, bool) {
			_, v := l.place(l.Events[i].TimeS)
			return quantity(max(v, -v), MetresASec), true
		})},
		{"level", Millimetres, atEvent(func(v *vocabulary, l *Log, i int) (Value, bool) {
			h, _ := l.place(l.Events[i].TimeS)
			return offLevel(h - v.nearestLanding(h)), true
		})},
		{"why", "", atEvent(func(_ *vocabulary, l *Log, i int) (Value, bool) {
			return l.why(i), true
		})},
		{"length", Seconds, length},
		{"count", Pieces, func(_ *vocabulary, m mention, l *Log) (Value, bool) {
			from, to := m.span(l)
			n := m.event.count(l, from, to)
			return Value{Number: float64(n), Unit: Pieces, Words: phrase.Of("lesson.count", "value", n)}, l.Asked
		}},
	}
}

// atEvent makes a value of one event's index.
func atEvent(of func(v *vocabulary, l *Log, i int) (Value, bool)) func(*vocabulary, mention, *Log) (Value, bool) {
	return func(v *vocabulary, m mention, l *Log) (Value, bool) {
		if i := m.find(l); i >= 0 {
			return of(v, l, i)
		}
		return Value{}, false
	}
}

// length is how long it was until the same part changed again, if that came in
// the same part of the run.
func length(_ *vocabulary, m mention, l *Log) (Value, bool) {
	i := m.find(l)
	if i < 0 {
		return Value{}, false
	}
	_, to := m.span(l)
	for _, later := range l.Events[i+1 : to] {
		if later.Part == l.Events[i].Part {
			return duration(later.TimeS - l.Events[i].TimeS), true
		}
	}
	return Value{}, false
}

// fits reports whether the event can be asked this.
func (w *what) fits(m mention, counted bool) bool {
	switch w.word {
	case "floor", "level":
		return m.event.part == "stop"
	case "after":
		return !m.lead
	case "count":
		return !counted
	}
	return true
}

// fact reads what stands between braces. On failure it returns what is wrong
// and the facts it might have been meant to be.
func (v *vocabulary) fact(written string) (*Fact, *phrase.Phrase, []string) {
	unknown := phrase.Of("lesson.unknown-fact", "found", written)
	for _, between := range []string{" since ", " from "} {
		if later, earlier, ok := strings.Cut(written, between); ok {
			return v.between(written, later, earlier, between)
		}
	}
	if f := v.still(written); f != nil {
		return f, nil, nil
	}
	if part, frozen, ok := whyOf(written); ok {
		if !has(v.parts, part) {
			return nil, &unknown, spellings(v.named(), strings.TrimSuffix(written, part), "")
		}
		return explaining(written, lift.Part(part), frozen), nil, nil
	}
	rest, word, _ := cutLast(written)
	m, counted, ok := v.mention(rest)
	if !ok {
		before := ""
		if m.lead {
			before = "lead."
		}
		return nil, &unknown, append(spellings(v.subjects, before, ".time"), v.stillNames()...)
	}
	for i := range whats {
		if w := &whats[i]; w.word == word && w.fits(m, counted) {
			return &Fact{Written: written, needs: m.needs(), unit: w.unit, value: func(l *Log) (Value, bool) { return w.value(v, m, l) }}, nil, nil
		}
	}
	return nil, &unknown, variants(rest, m, counted)
}

// between reads a fact about two events.
func (v *vocabulary) between(written, later, earlier, word string) (*Fact, *phrase.Phrase, []string) {
	unknown := phrase.Of("lesson.unknown-fact", "found", written)
	a, _, okA := v.mention(later)
	b, _, okB := v.mention(earlier)
	switch {
	case !okA:
		return nil, &unknown, spellings(v.subjects, "", word+earlier)
	case !okB:
		return nil, &unknown, spellings(v.subjects, later+word, "")
	}
	f := &Fact{Written: written, needs: max(a.needs(), b.needs())}
	pair := func(of func(l *Log, i, j int) Value) func(l *Log) (Value, bool) {
		return func(l *Log) (Value, bool) {
			i, j := a.find(l), b.find(l)
			if i < 0 || j < 0 {
				return Value{}, false
			}
			return of(l, i, j), true
		}
	}
	if word == " since " {
		f.unit = Seconds
		f.value = pair(func(l *Log, i, j int) Value { return duration(l.Events[i].TimeS - l.Events[j].TimeS) })
		return f, nil, nil
	}
	f.unit = Metres
	f.value = pair(func(l *Log, i, j int) Value {
		to, _ := l.place(l.Events[i].TimeS)
		from, _ := l.place(l.Events[j].TimeS)
		return quantity(max(to-from, from-to), Metres)
	})
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

// whyOf reads a fact that explains a part.
func whyOf(written string) (part string, frozen, ok bool) {
	rest, frozen := strings.CutPrefix(written, "lead.")
	part, ok = strings.CutPrefix(rest, "why.")
	return part, frozen, ok
}

// explaining is a fact told from what the log was given to keep. It is never
// told before the commit: until then "why" is closed.
func explaining(written string, part lift.Part, frozen bool) *Fact {
	return &Fact{Written: written, Why: part, Frozen: frozen, needs: NeedsRun, value: func(l *Log) (Value, bool) {
		kept := l.Whys
		if frozen {
			kept = l.FrozenWhys
		}
		said, ok := kept[part]
		return Value{Words: said}, ok
	}}
}

// spellings lists every subject between the two given pieces of text.
func spellings[V any](known map[string]V, before, after string) []string {
	list := sortedKeys(known)
	for i := range list {
		list[i] = before + list[i] + after
	}
	return list
}

// named is the set of parts that can be named.
func (v *vocabulary) named() map[string]bool {
	set := map[string]bool{}
	for _, p := range v.parts {
		set[p] = true
	}
	return set
}

// variants lists what can be asked of an event.
func variants(written string, m mention, counted bool) []string {
	var list []string
	for i := range whats {
		if whats[i].fits(m, counted) {
			list = append(list, written+"."+whats[i].word)
		}
	}
	return list
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

// cutLast cuts s at its last dot.
func cutLast(s string) (before, after string, found bool) {
	if i := strings.LastIndexByte(s, '.'); i >= 0 {
		return s[:i], s[i+1:], true
	}
	return "", s, false
}
