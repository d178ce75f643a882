package session

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// A Part is one part of the picture by its name, and the group of a list in
// which it stands.
type Part struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Group string `json:"group"`
}

// A PartText is what there is to say of one part: its name, its state and one
// plain sentence on what it is for.
type PartText struct {
	Name  string `json:"name"`
	State string `json:"state"`
	Text  string `json:"text"`
}

// Parts lists the parts of the picture in reading order.
func (s *Session) Parts() []Part {
	list := []Part{}
	for _, id := range s.stage().Parts() {
		list = append(list, Part{id, s.o.Words(partName(id)), s.o.Words(s.partGroup(id))})
	}
	return list
}

// Describe says what a part of the picture is and how it stands.
func (s *Session) Describe(id string) PartText {
	state := phrase.Of("part.is", "part", partName(id), "state", s.state(id))
	return PartText{Name: s.o.Words(partName(id)), State: s.o.Words(state), Text: s.o.Words(partPurpose(id))}
}

// partName names a part: one of several by what stands after its point.
func partName(id string) phrase.Phrase {
	kind, which, several := strings.Cut(id, ".")
	switch {
	case kind == "relay":
		return phrase.Of("part.relay-" + which)
	case several:
		return phrase.Of("part."+kind, "which", which)
	}
	return phrase.Of("part." + kind)
}

// partPurpose is the sentence on what a part is for; the parts that each
// floor has share theirs.
func partPurpose(id string) phrase.Phrase {
	kind, which, several := strings.Cut(id, ".")
	switch {
	case kind == "relay":
		return phrase.Of("part.relay-" + which + "-does")
	case several:
		return phrase.Of("part."+kind+"-does", "which", which)
	}
	return phrase.Of("part." + kind + "-does")
}

// state says how a part stands.
func (s *Session) state(id string) phrase.Phrase {
	kind, which, _ := strings.Cut(id, ".")
	if f := s.machine().Plan().Floor(which); f >= 0 {
		if p, ok := s.floorState(kind, f); ok {
			return p
		}
	}
	v := &s.view
	switch kind {
	case "relay":
		i := int(s.machine().Wiring().Coil(id))
		return yes(i >= 0 && v.Relays[i], relayWords(which))
	case "car":
		if v.Moving {
			return phrase.Of("state.travels", "way", yes(v.SpeedMS > 0, "state.up"), "height", phrase.Num(v.CarM, 2), "speed", phrase.Num(math.Abs(v.SpeedMS), 2))
		}
		return phrase.Of("state.rests", "height", phrase.Num(v.CarM, 2))
	case "counterweight":
		return phrase.Of("state.height", "height", phrase.Num(s.machine().Plan().TravelM()-v.CarM, 2))
	case "wheel", "brush", "crossover", "track", "ring", "advance-up-ramp", "centre-ramp", "advance-down-ramp":
		return phrase.Of("state.turned", "degrees", phrase.Num(v.WheelRad*180/math.Pi, 1))
	case "handwheel", "motor":
		return phrase.Of("state.turns", "rpm", phrase.Num(math.Abs(v.MotorRadS)*30/math.Pi, 0))
	case "sheave", "gear":
		return yes(v.Moving, "state.turning")
	case "rope":
		return yes(v.Moving, "state.running")
	case "terminal":
		i, err := strconv.Atoi(which)
		return yes(err == nil && i < len(v.Terminal) && v.Terminal[i], "state.brush-on")
	case "safety-line":
		return s.state("relay.safety")
	case "brake":
		switch {
		case v.BrakeLift >= 1:
			return phrase.Of("state.lifted")
		case v.BrakeLift > 0:
			return phrase.Of("state.lifting")
		}
		return phrase.Of("state.set")
	case "car-door":
		switch {
		case v.DoorOpen >= 1:
			return phrase.Of("state.door-open")
		case v.DoorOpen > 0:
			return phrase.Of("state.door-between")
		}
		return phrase.Of("state.door-closed")
	case "cam":
		return yes(v.CamIn >= 1, "state.cam-in")
	}
	if i := s.machine().Switch(lift.Part(id)); i >= 0 {
		if slices.Contains(resting, id) {
			return yes(v.Switches[i], "state.operated")
		}
		return yes(v.Switches[i], "state.made")
	}
	return phrase.Of("state.here")
}

// resting are the switches that nothing touches while all is well; their
// contacts in the safety line are closed then, so neither "open" nor "made"
// would say how they stand.
var resting = []string{"stop-switch", "governor", "safety-gear", "overload", "final-limit-top", "final-limit-bottom",
	"stop-limit-top", "stop-limit-bottom", "slow-down-top", "slow-down-bottom"}

// floorState says how one of the parts that every floor has stands.
func (s *Session) floorState(kind string, f int) (phrase.Phrase, bool) {
	v, plan := &s.view, s.machine().Plan()
	switch kind {
	case "call", "call-lamp", "row":
		return yes(v.Calls[f], "state.registered"), true
	case "lamp":
		return yes(v.Lamps[f], "state.lit"), true
	case "rim":
		return yes(v.Rim[f], "state.made"), true
	case "advance-up":
		return yes(v.AdvanceUp[f], "state.made"), true
	case "advance-down":
		return yes(v.AdvanceDown[f], "state.made"), true
	case "button":
		return yes(v.Pressed[f], "state.pressed"), true
	case "button-up":
		return yes(v.PressedUp[f], "state.pressed"), true
	case "button-down":
		return yes(v.PressedDown[f], "state.pressed"), true
	case "button-car":
		return yes(v.PressedCar[f], "state.pressed"), true
	case "call-up", "call-up-lamp":
		return yes(v.CallsUp[f], "state.registered"), true
	case "call-down", "call-down-lamp":
		return yes(v.CallsDown[f], "state.registered"), true
	case "call-car", "call-car-lamp":
		return yes(v.CallsCar[f], "state.registered"), true
	case "direction", "above", "below":
		return phrase.Of("state.direction-" + v.Direction[f].String()), true
	case "landing":
		if v.AtFloor == f {
			return phrase.Of("state.car-here"), true
		}
		d := v.CarM - plan.Floors[f].HeightM
		return phrase.Of(pick(d > 0, "state.car-above", "state.car-below"), "distance", phrase.Num(math.Abs(d), 2)), true
	case "vane":
		d := math.Abs(v.CarM - plan.Floors[f].HeightM)
		return yes(d <= plan.Shaft.VaneHalfM, "state.vane-in"), true
	}
	return phrase.Phrase{}, false
}

// relayWords is how the states of a coil are called: most come in and drop
// out, but a brake lifts and a safety line is whole.
func relayWords(name string) string {
	switch name {
	case "brake":
		return "state.lifts"
	case "safety":
		return "state.whole"
	case "up-line", "down-line":
		return "state.live"
	}
	return "state.in"
}

// yes words a state that is so or not so: the message, or the same with -not.
func yes(so bool, id string) phrase.Phrase { return phrase.Of(pick(so, id, id+"-not")) }

func pick(so bool, a, b string) string {
	if so {
		return a
	}
	return b
}
