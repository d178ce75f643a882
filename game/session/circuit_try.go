package session

import (
	"math"
	"slices"

	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/why"
)

// A Trial is a change to be tried on a copy: a contact kept open or closed, or
// a call registered or taken back.
type Trial struct {
	Leaf    int
	Call    string
	Closed  bool
	Seconds float64 // how far both lifts run
}

// The longest trial, seconds, and the most rows of one that are shown.
const (
	longestTrialS = 120
	trialRows     = 80
)

// A Tried is a copy with a change beside a copy without: the real lift has
// not moved.
type Tried struct {
	Sentence string     `json:"sentence"`
	Refused  bool       `json:"refused"` // what must be made safe instead is the sentence
	Rows     []TriedRow `json:"rows"`
	More     int        `json:"more"` // rows left out
	First    string     `json:"first"`
	Notes    [2]string  `json:"notes"` // of the lift as it is and of the other: why it ends early, "" where it does not
	Ends     []TriedEnd `json:"ends"`  // what differs at the end
}

// A TriedRow is one moment: what happens in the lift as it is, in the other,
// or in both.
type TriedRow struct {
	TimeS float64 `json:"time_s"`
	AsIs  string  `json:"asIs"`
	With  string  `json:"with"`
}

// A TriedEnd is one thing that stands differently at the end.
type TriedEnd struct {
	What string `json:"what"`
	AsIs string `json:"asIs"`
	With string `json:"with"`
}

func (s *Session) try(q Trial) (Tried, error) {
	if !(q.Seconds > 0 && q.Seconds <= longestTrialS) {
		return Tried{}, refuse("circuit.try-seconds", "most", longestTrialS)
	}
	m := s.own()
	with, say := why.WhatIf(m, why.Change{Leaf: q.Leaf, Call: lift.Part(q.Call), Closed: q.Closed})
	t := Tried{Sentence: s.o.Words(say), Rows: []TriedRow{}, Ends: []TriedEnd{}}
	if with == nil {
		t.Refused = true
		return t, nil
	}
	asIs := m.Clone()
	had := len(m.Events())
	until := m.TimeS() + q.Seconds
	asIs.RunTo(until)
	with.RunTo(until)
	for i, side := range []*lift.Machine{asIs, with} {
		if why := side.Stopped(); why != "" {
			t.Notes[i] = s.o.Words(phrase.Of("circuit.try-stopped", "time", phrase.Num(side.TimeS(), 2), "reason", phrase.Of(why)))
		}
	}
	t.rows(s, asIs.Events()[had:], with.Events()[had:])
	t.ends(s, asIs, with)
	return t, nil
}

// The same thing within this time is the same in both, seconds: a relay more on
// the supply lets others follow a little later.
const sameS = 0.05

// rows lays what happens in both beside one another. What happens in both at
// one instant stands in one row.
func (t *Tried) rows(s *Session, a, b []lift.Event) {
	told := func(e lift.Event) bool { return weights[kindOf(e.Part)] > 0 }
	a, b = slices.DeleteFunc(slices.Clone(a), func(e lift.Event) bool { return !told(e) }), slices.DeleteFunc(slices.Clone(b), func(e lift.Event) bool { return !told(e) })
	differs := false
	for len(a) > 0 || len(b) > 0 {
		var row TriedRow
		switch {
		case len(a) > 0 && len(b) > 0 && a[0].Part == b[0].Part && a[0].State == b[0].State && math.Abs(a[0].TimeS-b[0].TimeS) < sameS:
			text := s.o.Words(Sentence(a[0]))
			row = TriedRow{a[0].TimeS, text, text}
			a, b = a[1:], b[1:]
		case len(b) == 0 || len(a) > 0 && a[0].TimeS <= b[0].TimeS:
			row = TriedRow{a[0].TimeS, s.o.Words(Sentence(a[0])), ""}
			a = a[1:]
		default:
			row = TriedRow{b[0].TimeS, "", s.o.Words(Sentence(b[0]))}
			b = b[1:]
		}
		if row.AsIs != row.With && !differs {
			differs = true
			t.First = s.o.Words(phrase.Of("circuit.try-first", "time", phrase.Num(row.TimeS, 2)))
		}
		if len(t.Rows) < trialRows {
			t.Rows = append(t.Rows, row)
		} else {
			t.More++
		}
	}
	if !differs {
		t.First = s.o.Words(phrase.Of("circuit.try-same"))
	}
}

// ends lists what stands differently when both have run.
func (t *Tried) ends(s *Session, a, b *lift.Machine) {
	var v, w lift.View
	a.Look(&v)
	b.Look(&w)
	add := func(what phrase.Phrase, x, y string) {
		if x != y {
			t.Ends = append(t.Ends, TriedEnd{s.capital(what), x, y})
		}
	}
	height := func(v *lift.View) string {
		return s.o.Words(phrase.Of("circuit.height", "height", phrase.Num(v.CarM, 2)))
	}
	add(phrase.Of("circuit.car"), height(&v), height(&w))
	for i, part := range a.Wiring().Coils {
		if v.Relays[i] != w.Relays[i] {
			in := func(on bool) string { return s.o.Words(yes(on, "circuit.in")) }
			add(why.Name(lift.Part(part)), in(v.Relays[i]), in(w.Relays[i]))
		}
	}
}
