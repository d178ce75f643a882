package relay

import "wheelroom/physics/phrase"

// diodeHair is the voltage by which a diode must be wrong before it flips. It
// keeps rounding from flipping it back.
const diodeHair = 1e-9

// Solve takes in everything set since the last one: new operating point, new
// modes, new times of switching. It does nothing when nothing was set.
func (s *State) Solve() {
	if !s.dirty {
		return
	}
	s.dirty = false
	s.currents()
	for i := range s.lamps {
		l := &s.lamps[i]
		l.since -= s.t
		l.at -= s.t
	}
	for k := range s.coils {
		o := &s.coils[k]
		o.since -= s.t
		if o.forced == OpenCircuit {
			s.amps[k] = 0
		}
	}
	s.t, s.ampsT = 0, 0

	if !s.settleDiodes() {
		s.fail(phrase.Of("relay.diodes"))
		s.stuck = true
	}
	s.aim()
	s.heat()
	s.transient()
	s.watchAll()
}

func (s *State) fail(p phrase.Phrase) {
	if s.err.ID == "" {
		s.err = p
	}
}

// load puts the conductances of the present topology into a mesh and takes
// its nodes away.
func (s *State) load(m *mesh, on []bool, coils bool) {
	m.clear()
	c := s.c
	for i := range c.elements {
		e := &c.elements[i]
		g := 1 / s.ohms(e)
		switch e.Kind {
		case Diode:
			if on[e.Index] {
				g += 1 / c.OpenOhm
			} else {
				g = 1 / c.OpenOhm
			}
		case Coil:
			if coils && s.coils[e.Index].forced != OpenCircuit {
				g += 1 / leakOhm
			} else {
				g = 1 / leakOhm
			}
		}
		m.g[c.plan.edge[i]] += g
	}
	c.plan.reduce(m)
}

// feed sets x to the currents which supplies and conducting diodes drive into
// each node.
func (s *State) feed(x []float64, on []bool) {
	clear(x)
	for i := range s.c.elements {
		e := &s.c.elements[i]
		if e.Kind == Source || e.Kind == Diode && on[e.Index] {
			j := e.Volts / e.Ohms
			x[e.A] += j
			x[e.B] -= j
		}
	}
}

// present solves for the node voltages with the coil currents as they are.
func (s *State) present() {
	s.feed(s.volts, s.on)
	for k := range s.c.coils {
		o := &s.c.coils[k]
		s.volts[o.a] -= s.amps[k]
		s.volts[o.b] += s.amps[k]
	}
	s.c.plan.solve(&s.open, s.volts)
	s.voltsT = s.t
}

// settled solves for the node voltages with the coils as resistances.
func (s *State) settled(v []float64, on []bool) {
	s.load(&s.work.closed, on, true)
	s.feed(v, on)
	s.c.plan.solve(&s.work.closed, v)
}

// settleDiodes finds which diodes conduct at this instant.
func (s *State) settleDiodes() bool {
	s.load(&s.open, s.on, false)
	s.present()
	for round := 0; s.flip(s.on, s.volts, round); round++ {
		if round > 4+4*len(s.on) {
			return false
		}
		s.load(&s.open, s.on, false)
		s.present()
	}
	return true
}

// flip turns over diodes whose state contradicts the voltages and reports
// whether any did. The first rounds turn all of them, later ones only the
// first, the least-index rule, which cannot go round in circles (Murty 1974,
// Linear Algebra and its Applications 9, value from memory).
func (s *State) flip(on []bool, v []float64, round int) bool {
	any := false
	for d, id := range s.c.diodes {
		e := &s.c.elements[id]
		drop := v[e.A] - v[e.B]
		if on[d] && drop < e.Volts-diodeHair || !on[d] && drop > e.Volts+diodeHair {
			on[d] = !on[d]
			any = true
			if round > 3 {
				break
			}
		}
	}
	return any
}

// aim finds where the currents head for: with the diodes as they are, which
// rules until one of them turns over, and with the diodes as they end up.
func (s *State) aim() {
	s.settled(s.restV, s.on)
	s.windings(s.target, s.restV)
	copy(s.headed, s.target)
	copy(s.rest, s.on)
	for round := 0; s.flip(s.rest, s.restV, round); round++ {
		if round > 4+4*len(s.rest) {
			s.fail(phrase.Of("relay.diodes"))
			return
		}
		s.settled(s.restV, s.rest)
		s.windings(s.headed, s.restV)
	}
}

// windings turns node voltages into currents of the coils as resistances.
func (s *State) windings(amps, v []float64) {
	for k := range s.c.coils {
		o := &s.c.coils[k]
		if s.coils[k].forced == OpenCircuit {
			amps[k] = 0
			continue
		}
		amps[k] = (v[o.a] - v[o.b]) / o.spec.OhmR
	}
}
