package session

import (
	"math"

	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/relay"
)

// A Reading is what two probes show.
type Reading struct {
	Volts   string    `json:"volts"`   // of the first against the second
	Between []Current `json:"between"` // what joins them by itself
}

// A Current is what a contact, a coil or a lamp draws or lets through.
type Current struct {
	Leaf int    `json:"leaf"`
	Text string `json:"text"`
}

// measure reads the first probe against the second.
func (s *Session) measure(probes [2]int) (Reading, error) {
	m := s.own()
	var v lift.View
	m.Look(&v)
	for _, n := range probes {
		if n < 0 || n >= len(v.Volts) {
			return Reading{}, refuse("circuit.no-probe")
		}
	}
	r := Reading{s.o.Words(phrase.Of("circuit.volts", "volts", phrase.Num(v.Volts[probes[0]]-v.Volts[probes[1]]+0, 1))), []Current{}}
	a, b := relay.Node(probes[0]), relay.Node(probes[1])
	for i := range m.Wiring().Leaves {
		if l := &m.Wiring().Leaves[i]; l.From == a && l.To == b || l.From == b && l.To == a {
			r.Between = append(r.Between, Current{i, s.o.Words(current(m, &v, i))})
		}
	}
	return r, nil
}

// reading is the voltage across a leaf and the current through it, in words.
func (s *Session) reading(m *lift.Machine, v *lift.View, leaf int) string {
	l := &m.Wiring().Leaves[leaf]
	volts := math.Abs(v.Volts[l.From] - v.Volts[l.To])
	return s.o.Words(phrase.Of("circuit.reading", "volts", phrase.Num(volts, 1), "current", current(m, v, leaf)))
}

// current is the current through a leaf; of a lamp also how hot it is, since
// that decides it.
func current(m *lift.Machine, v *lift.View, leaf int) phrase.Phrase {
	l := &m.Wiring().Leaves[leaf]
	amps := phrase.Of("circuit.milliamps", "amps", phrase.Num(1000*math.Abs(v.Amperes[leaf]), 1))
	if _, lamp := l.Body.(control.Lamp); !lamp {
		return amps
	}
	ohms, id := m.Ohms(l.Element), "circuit.filament-cold"
	if ohms == m.Wiring().Net.Element(l.Element).Ohms {
		id = "circuit.filament-hot"
	}
	return phrase.Of(id, "current", amps, "ohms", phrase.Num(ohms, 0))
}

// readingOf reads the leaf that a question is about: one contact, or the coil
// or lamp of a part; "" for a part that has neither.
func (s *Session) readingOf(q Target) string {
	m := s.own()
	var v lift.View
	m.Look(&v)
	leaves := m.Wiring().Leaves
	if q.Part == "" && q.Leaf >= 0 && q.Leaf < len(leaves) {
		return s.reading(m, &v, q.Leaf)
	}
	for i := range leaves {
		if leaves[i].Contact < 0 && leaves[i].Part() == q.Part {
			return s.reading(m, &v, i)
		}
	}
	return ""
}
