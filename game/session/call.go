package session

import (
	"slices"
	"strings"

	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// A Button is one push-button that calls the lift, and how it stands.
type Button struct {
	Call       string `json:"call"`  // as Call takes it: "3", "3:up", "3:down" or "3:car"
	Floor      string `json:"floor"` // its name
	Kind       string `json:"kind"`  // "" where a floor has one button, "up", "down" or "car"
	Registered bool   `json:"registered"`
}

// Buttons lists the push-buttons there are, by floor, the lowest first.
func (s *Session) Buttons() []Button {
	v, list := &s.view, []Button{}
	for _, c := range s.machine().Wiring().Diagram.Calls {
		name := s.machine().Plan().Floors[c.Floor].Name
		b := Button{Call: name, Floor: name, Kind: c.Kind.String()}
		if b.Kind != "" {
			b.Call += ":" + b.Kind
		}
		b.Registered = [...][]bool{v.Calls, v.CallsUp, v.CallsDown, v.CallsCar}[c.Kind][c.Floor]
		list = append(list, b)
	}
	return list
}

// Call presses a button that calls the lift: that of a floor by the floor's
// name or, where each floor has several, "3:up", "3:down" or "3:car". Whoever
// looks back goes on from there.
func (s *Session) Call(which string) error {
	if s.lesson() {
		// A finger on the picture hears no refusal: it is said.
		s.say(phrase.Of("stage.lesson-calls"))
		s.touch()
		return refuse("stage.lesson-calls")
	}
	c, err := s.called(which)
	if err != nil {
		return err
	}
	// The button is down at once, also while time stands still.
	floor := s.plan.Floors[c.Floor].Name
	said := phrase.Of("stage.pressed", "floor", floor)
	if c.Kind != control.AnyCall {
		said.ID += "-" + c.Kind.String()
	}
	if s.goOn() {
		said = phrase.Of("time.pressed-from", "floor", floor, "time", phrase.Num(s.free.End().TimeS(), 1))
	}
	end := s.free.End()
	if why := end.Do(lift.Input{TimeS: end.TimeS(), Kind: lift.Press, Part: lift.Part(c.Button)}); why.ID != "" {
		panic("session: " + why.String())
	}
	s.say(said)
	s.look()
	s.touch()
	return nil
}

// called finds the button that a call means.
func (s *Session) called(which string) (control.Call, error) {
	floor, kind := which, ""
	f := s.plan.Floor(floor)
	if i := strings.LastIndexByte(which, ':'); f < 0 && i >= 0 {
		floor, kind = which[:i], which[i+1:]
		f = s.plan.Floor(floor)
	}
	if f < 0 {
		return control.Call{}, refuse("stage.unknown-floor", "floor", floor)
	}
	calls := s.free.Machine().Wiring().Diagram.CallsAt(f)
	i := slices.IndexFunc(calls, func(c control.Call) bool { return c.Kind.String() == kind })
	switch {
	case i >= 0:
		return calls[i], nil
	case kind == "":
		return control.Call{}, refuse("stage.several-buttons", "floor", floor)
	}
	return control.Call{}, refuse("stage.unknown-button", "floor", floor, "kind", kind)
}

// Press does what the chosen part is for: a landing, a button or the lamp or
// relay of a call calls the lift.
func (s *Session) Press() error {
	if s.pointed() {
		return nil
	}
	kind, floor, _ := strings.Cut(s.picture.Chosen, ".")
	switch kind {
	case "landing", "button", "call-lamp", "call":
		return s.Call(floor)
	}
	for _, way := range []string{"up", "down", "car"} {
		switch kind {
		case "button-" + way, "call-" + way, "call-" + way + "-lamp":
			return s.Call(floor + ":" + way)
		}
	}
	return refuse("stage.nothing-to-press")
}
