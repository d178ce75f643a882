package lift

import "math"

// A door is the car door, the landing door coupled to it, and their operator.
type door struct {
	phase  phase
	open   float64 // 0 closed, 1 fully open
	openS  float64
	closeS float64
	dwellS float64 // left before it closes by itself, +Inf while held open
	dead   bool    // no power: it stays as it stands
}

type phase uint8

const (
	shut phase = iota
	opening
	standing // fully open
	closing
)

// next is the time until the door reaches an end or begins to close.
func (d *door) next() float64 {
	if d.dead {
		return math.Inf(1)
	}
	switch d.phase {
	case opening:
		return (1 - d.open) * d.openS
	case standing:
		return d.dwellS
	case closing:
		return d.open * d.closeS
	}
	return math.Inf(1)
}

// due tells that next has come.
func (d *door) due() bool { return d.next() < 1e-12 }

func (d *door) advance(h float64) {
	if d.dead {
		return
	}
	switch d.phase {
	case opening:
		d.open = min(d.open+h/d.openS, 1)
	case standing:
		d.dwellS -= h
	case closing:
		d.open = max(d.open-h/d.closeS, 0)
	}
	// Rounding may leave the last step a hair short of its end.
	if d.phase != shut && d.next() < 1e-9 {
		switch d.phase {
		case opening:
			d.open = 1
		case standing:
			d.dwellS = 0
		case closing:
			d.open = 0
		}
	}
}

// doorThink starts the operator when the door relay or the lock has changed:
// it opens once the landing door is unlocked, and closes by itself when it
// has stood open for the dwell with the relay out.
func (m *Machine) doorThink(cause int) {
	if m.door.dead {
		return
	}
	wanted := m.circuit.In(m.indexes.door)
	switch m.door.phase {
	case shut:
		if wanted && m.switches[m.indexes.lock] == 0 {
			m.door.phase = opening
			e := m.note("door", "open", cause)
			m.throw(m.indexes.carDoor, 0, e)
			m.throw(m.indexes.landingDoor, 0, e)
		}
	case closing:
		if wanted {
			m.door.phase = opening
		}
	case standing:
		if wanted {
			m.door.dwellS = math.Inf(1)
		} else {
			m.door.dwellS = m.plan.Door.DwellS
		}
	}
}

// doorArrives carries out what was due: fully open, dwell over, or closed.
func (m *Machine) doorArrives() {
	cause := m.lastOf(m.indexes.door)
	switch m.door.phase {
	case opening:
		m.door.phase = standing
		m.door.dwellS = math.Inf(1)
		m.throw(m.indexes.doorOpen, 1, cause)
		m.doorThink(cause)
	case standing:
		m.door.phase = closing
		m.throw(m.indexes.doorOpen, 0, cause)
	case closing:
		m.door.phase = shut
		e := m.note("door", "closed", cause)
		m.throw(m.indexes.carDoor, 1, e)
		m.throw(m.indexes.landingDoor, 1, e)
		m.doorThink(e)
	}
}

// latch moves the landing lock with the cam: the bolt is in while the cam is
// in and the doors are closed.
func (m *Machine) latch(cause int) {
	in := m.circuit.In(m.indexes.cam) && m.door.phase == shut
	m.throw(m.indexes.lock, b2u(in), cause)
}
