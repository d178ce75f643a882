package lift

import (
	"math"

	"wheelroom/physics/phrase"
)

// Moving the car by hand. The main isolator cuts the control supply and the
// motor's, so that every relay drops out; the brake is then eased open with
// its lever and the handwheel turned. Wheel, ring and direction switches
// follow the car as always. The model eases no brake and lets no hand to the
// wheel unless the isolator is open, and does not close it before brake and
// wheel are let go.

// The parts of it, as inputs and events name them.
const (
	isolator   = "isolator"    // "1" open, the machine dead
	brakeLever = "brake-lever" // "1" the brake eased by hand
	handwheel  = "handwheel"   // "up", "down" or "0": which way a hand turns it
)

// A winding is what is done by hand at one instant.
type winding struct {
	isolated, eased bool
	handNM          float64
}

// windingAt is what will have been done by a time, all recorded inputs up to
// it carried out.
func (m *Machine) windingAt(timeS float64) winding {
	var w winding
	for _, in := range m.inputs {
		if in.TimeS > timeS {
			break
		}
		switch in.Kind {
		case Isolate:
			w.isolated = in.State == "open"
		case EaseBrake:
			w.eased = in.State == "open"
		case Wind:
			w.handNM = in.Value
		}
	}
	return w
}

// windingFault says what is wrong with an input done by hand.
func (m *Machine) windingFault(in Input) phrase.Phrase {
	part := map[InputKind]Part{Isolate: isolator, EaseBrake: brakeLever, Wind: handwheel}[in.Kind]
	if in.Part != part {
		return phrase.Of("input.unknown-part", "part", string(in.Part))
	}
	if in.Kind != Wind && in.State != "open" && in.State != "" {
		return phrase.Of("input.unknown-state", "part", string(in.Part), "state", in.State)
	}
	if math.IsNaN(in.Value) || math.IsInf(in.Value, 0) {
		return phrase.Of("input.hand", "found", phrase.Num(in.Value, 0))
	}
	w := m.windingAt(max(in.TimeS, m.timeS) + GridS)
	switch {
	case in.Kind == Isolate && in.State == "" && w.eased:
		return phrase.Of("input.brake-eased")
	case in.Kind == Isolate && in.State == "" && w.handNM != 0:
		return phrase.Of("input.hand-on-wheel")
	case in.Kind == EaseBrake && in.State == "open" && !w.isolated,
		in.Kind == Wind && in.Value != 0 && !w.isolated:
		return phrase.Of("input.not-isolated")
	}
	return phrase.Phrase{}
}

// wind carries out an input done by hand.
func (m *Machine) wind(in Input) {
	switch in.Kind {
	case Isolate:
		m.door.dead = in.State == "open"
		m.throw(m.indexes.isolator, b2u(in.State == "open"), -1)
		m.power(m.lastNoted(isolator))
		m.doorThink(m.lastNoted(isolator))
	case EaseBrake:
		if m.feed.HeldOpen == (in.State == "open") {
			return
		}
		m.feed.HeldOpen = in.State == "open"
		m.note(brakeLever, [...]string{"0", "1"}[b2u(m.feed.HeldOpen)], -1)
	case Wind:
		if m.feed.HandNM == in.Value {
			return
		}
		m.feed.HandNM = in.Value
		way := "0"
		if in.Value > 0 {
			way = "up"
		} else if in.Value < 0 {
			way = "down"
		}
		m.note(handwheel, way, -1)
	}
}

// isolated tells whether the main isolator is open.
func (m *Machine) isolated() bool { return m.switches[m.indexes.isolator] == 1 }

// restCause is the event that let the car set off or brought it to rest: what
// the brake did, or the hand.
func (m *Machine) restCause() int {
	if m.isolated() {
		if e := max(m.lastNoted(brakeLever), m.lastNoted(handwheel)); e > m.lastNoted(isolator) {
			return e
		}
	}
	return m.lastOf(m.indexes.brake)
}

// lastNoted returns the last event of a part, -1 if there was none.
func (m *Machine) lastNoted(part Part) int {
	for i := len(m.events) - 1; i >= 0; i-- {
		if m.events[i].Part == part {
			return i
		}
	}
	return -1
}
