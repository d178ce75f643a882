package relay

import (
	"errors"
	"math"

	"wheelroom/physics/lamp"
)

// HotRatio is how many times its cold resistance a tungsten filament has at
// work: 0.350 ohm at room temperature, 4.8 ohm hot (OpenStax, University
// Physics vol. 2, Example 9.6).
const HotRatio = 4.8 / 0.350

// A LampSpec is a filament lamp's electrical make-up. Its resistance is
// ColdOhm until the filament has come to lamp.Hot, then HotOhm until it has
// sunk to lamp.Cold: two values and nothing between, so that every current
// stays a sum of exponentials from one switching to the next.
type LampSpec struct {
	RatedV          float64 // hot, it takes RatedV/HotOhm
	ColdOhm, HotOhm float64 // 0 < ColdOhm <= HotOhm
	Filament        lamp.Lamp
}

// LampFor returns a usual indicator lamp that takes watts at volts when hot.
func LampFor(volts, watts float64) LampSpec {
	hot := volts * volts / watts
	return LampSpec{RatedV: volts, ColdOhm: hot / HotRatio, HotOhm: hot, Filament: lamp.Usual}
}

// leastFilamentS is the shortest rise or fall a lamp may have. Between two
// changes of its resistance lies most of one, so that lamps cannot keep a
// circuit busy without time passing.
const leastFilamentS = 0.001

func (s LampSpec) check() error {
	var errs []error
	if !(s.ColdOhm > 0 && s.HotOhm >= s.ColdOhm && !math.IsInf(s.HotOhm, 1)) {
		errs = append(errs, errors.New("want 0 < cold ohms <= hot ohms"))
	}
	if !(s.RatedV > 0) || math.IsInf(s.RatedV, 1) {
		errs = append(errs, errors.New("rated voltage must be more than 0"))
	}
	if !(s.Filament.RiseS >= leastFilamentS && s.Filament.FallS >= leastFilamentS) {
		errs = append(errs, errors.New("filament must take a millisecond or more to rise and to fall"))
	}
	return errors.Join(errs...)
}

// fedV is the voltage from which the filament heats and above which it stays
// hot: that at which it takes, cold, the power it takes hot at RatedV. It
// does not depend on how hot the filament is, so at a steady voltage a lamp
// goes over once at most.
func (s LampSpec) fedV() float64 { return s.RatedV * math.Sqrt(s.ColdOhm/s.HotOhm) }

// Lamp adds a lamp; in a new State it is cold.
func (c *Circuit) Lamp(name string, a, b Node, spec LampSpec) ElementID {
	e := c.add(Element{Kind: Lamp, Name: name, A: a, B: b, Ohms: spec.HotOhm, Index: int32(len(c.lamps))})
	c.lamps = append(c.lamps, filament{element: e, spec: spec, fedV: spec.fedV()})
	if err := spec.check(); err != nil {
		c.fail("lamp %s: %w", name, err)
	}
	return e
}

// A filament is one lamp of a circuit.
type filament struct {
	element ElementID
	spec    LampSpec
	fedV    float64
}

// A lampState is how one filament stands. Its temperature has been on its
// way, up or down, since it was from.
type lampState struct {
	hot   bool // has its hot resistance
	fed   bool
	from  float64 // 0 cold to 1 hot, at since
	since float64 // on the clock of State.t
	at    float64 // on the same clock: when its resistance changes
}

// heat decides anew which lamps are fed: by the voltage the present topology
// settles at, since a filament is as slow as the coils around it.
func (s *State) heat() {
	for i := range s.lamps {
		l, f := &s.lamps[i], &s.c.lamps[i]
		e := &s.c.elements[f.element]
		fed := math.Abs(s.restV[e.A]-s.restV[e.B]) >= f.fedV
		if fed == l.fed {
			continue
		}
		l.from = s.glow(i)
		l.fed, l.since, l.at = fed, s.t, math.Inf(1)
		if l.hot != fed {
			l.at = s.t + f.spec.Filament.Takes(l.from, fed)
		}
	}
}

// glow is a filament's temperature now, 0 cold to 1 hot.
func (s *State) glow(i int) float64 {
	l := &s.lamps[i]
	return s.c.lamps[i].spec.Filament.After(l.from, l.fed, s.t-l.since)
}

// warm lets filaments that are due go over to hot or cold.
func (s *State) warm() {
	for i := range s.lamps {
		if l := &s.lamps[i]; l.at <= s.t+sameS {
			l.hot, l.at = l.fed, math.Inf(1)
			s.dirty = true
		}
	}
}

// Fed reports whether the topology as it is heats a lamp or keeps it hot. A
// filament follows in its own time. It is false of any other element.
func (s *State) Fed(id ElementID) bool {
	s.Solve()
	e := &s.c.elements[id]
	return e.Kind == Lamp && s.lamps[e.Index].fed
}

// Hot reports whether a lamp has its hot resistance.
func (s *State) Hot(id ElementID) bool {
	e := &s.c.elements[id]
	return e.Kind == Lamp && s.lamps[e.Index].hot
}

// Glow returns a lamp's brightness now, 0 cold to 1 long fed.
func (s *State) Glow(id ElementID) float64 {
	s.Solve()
	e := &s.c.elements[id]
	if e.Kind != Lamp {
		return 0
	}
	return s.glow(int(e.Index))
}

// Ohms returns the resistance of an element as it stands: of an open contact
// the leak, of a cold lamp its cold one.
func (s *State) Ohms(id ElementID) float64 { return s.ohms(&s.c.elements[id]) }

func (s *State) ohms(e *Element) float64 {
	switch {
	case e.Kind == Contact && !s.closed[e.Index]:
		return s.c.OpenOhm
	case e.Kind == Lamp && !s.lamps[e.Index].hot:
		return s.c.lamps[e.Index].spec.ColdOhm
	}
	return e.Ohms
}
