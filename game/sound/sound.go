// Package sound holds the noises of the machine: which of its events can be
// heard, from where, and how each sounds. Noises are computed, never recorded,
// so they have no source but this package: pitches and lengths were chosen for
// their likeness to what the part does (common practice, no source).
//
// Whatever can be heard can be seen as well; a noise tells nothing of its own.
package sound

import (
	"strings"

	"wheelroom/physics/lift"
)

// A Noise is one sound of the machine.
type Noise uint8

// The noises. Slide goes on for as long as a door moves, all others are over
// by themselves.
const (
	RelayIn Noise = iota
	RelayOut
	ContactorIn
	ContactorOut
	RollerOn
	RollerOff
	BrakeLifts
	BrakeSets
	Slide
	DoorCloses
	count
)

var names = [count]string{"relay-in", "relay-out", "contactor-in", "contactor-out", "roller-on", "roller-off",
	"brake-lifts", "brake-sets", "door-slides", "door-closes"}

// All returns every noise, in order.
func All() []Noise {
	list := make([]Noise, count)
	for i := range list {
		list[i] = Noise(i)
	}
	return list
}

// String is the noise's name, as in "relay-in".
func (n Noise) String() string { return names[n] }

// Part is what makes the noise: "relay", "contactor", "roller", "brake" or
// "door".
func (n Noise) Part() string {
	part, _, _ := strings.Cut(names[n], "-")
	return part
}

// Pan says from which side a noise comes, −1 left to +1 right: as the picture
// has its parts, the doors on the left, the circuit on the right.
func (n Noise) Pan() float64 {
	return map[string]float64{"door": -0.5, "brake": -0.3, "roller": 0, "contactor": 0.35, "relay": 0.5}[n.Part()]
}

// Of returns the noise an event of a run makes, and whether it makes one.
func Of(e lift.Event) (Noise, bool) {
	kind, name, _ := strings.Cut(string(e.Part), ".")
	switch kind {
	case "call":
		return pair(e, RelayIn), true // the call relay
	case "relay":
		switch name {
		case "brake":
			return pair(e, BrakeLifts), true
		case "up-contactor", "down-contactor", "fast", "slow":
			return pair(e, ContactorIn), true
		}
		return pair(e, RelayIn), true
	case "rim", "advance-up", "advance-down":
		return pair(e, RollerOn), true
	case "direction":
		return RollerOn, true // the crossover throws the switch over
	case "door":
		return DoorCloses, e.State == "closed"
	}
	return 0, false
}

// pair is the first of two noises for a part that comes in, the second for one
// that drops out.
func pair(e lift.Event, in Noise) Noise {
	if e.State == "1" {
		return in
	}
	return in + 1
}
