package winding

import (
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// ShortS is the longest the brake is eased at one time, seconds: an assumption
// of this model, no source. The procedure lets go by itself after that.
const ShortS = 0.6

// MostNM is the greatest torque a hand gives the wheel here, newton metres:
// EffortN at RimM.
const MostNM = EffortN * RimM

// Step is one act of the procedure. The steps are taken in this order.
type Step uint8

// The steps. Move is taken as often as it needs; every other once.
const (
	People      Step = iota // two authorised people, one at the brake and one at the wheel
	Told                    // whoever is in the car has been spoken to
	Isolated                // the main isolator is opened
	LockedOff               // locked, and the key kept by who locked it
	ProvedDead              // tried: nothing answers
	DoorsShut               // every landing door closed and locked, or guarded
	Hands                   // hands on the wheel, before the brake is touched
	Move                    // the brake eased in a short movement, the wheel turned
	Level                   // the marks on the ropes say that the car is level
	BrakeSet                // lever let go and taken off, brake set
	WheelClear              // hands and loose wheel away
	DoorsAgain              // landing doors closed and locked again
	LockRemoved             // by whoever fitted it
	PowerOn                 // the isolator is closed; the car waits for a call
	steps
)

// String returns the step's key, as messages spell it.
func (s Step) String() string {
	return [...]string{"people", "told", "isolated", "locked-off", "proved-dead", "doors-shut", "hands", "move",
		"level", "brake-set", "wheel-clear", "doors-again", "lock-removed", "power-on", "done"}[s]
}

// StepOf returns the step with a key.
func StepOf(key string) (Step, bool) {
	for s := range steps {
		if s.String() == key {
			return s, true
		}
	}
	return steps, false
}

// Steps is how many there are.
const Steps = int(steps)

// A Machine is what the procedure is carried out on: a lift.Machine, or one
// with its history.
type Machine interface {
	Do(lift.Input) phrase.Phrase
}

// An Act is somebody doing a step.
type Act struct {
	Step Step
	By   string  // who: of LockedOff and LockRemoved, to tell the one who fitted the lock
	NM   float64 // of Move: torque by hand at the wheel, raising the car positive; MostNM at most
	ForS float64 // of Move: how long the brake is eased; 0 or more than ShortS: ShortS
}

// A Procedure is how far somebody has come with it. The zero value is its
// beginning. It is a plain value: copy it to go back.
type Procedure struct {
	Next   Step    // the step to be taken; Steps when it is over
	Fitter string  // who fitted the lock
	Moves  int     // short movements so far
	FreeS  float64 // the machine's time at which the brake is let go
}

// Do takes a step, or refuses it with the reason. What the step does to the
// machine is recorded as its inputs; view is the machine as it stands.
func (p *Procedure) Do(m Machine, view *lift.View, act Act) phrase.Phrase {
	if why := p.refuse(view, act); why.ID != "" {
		return why
	}
	var inputs []lift.Input
	do := func(afterS float64, kind lift.InputKind, part lift.Part, state string, value float64) {
		inputs = append(inputs, lift.Input{TimeS: view.TimeS + afterS, Kind: kind, Part: part, State: state, Value: value})
	}
	switch act.Step {
	case Isolated:
		do(0, lift.Isolate, "isolator", "open", 0)
	case Move:
		forS := act.ForS
		if !(forS > 0 && forS < ShortS) {
			forS = ShortS
		}
		do(0, lift.Wind, "handwheel", "", max(-MostNM, min(act.NM, MostNM)))
		do(0, lift.EaseBrake, "brake-lever", "open", 0)
		do(forS, lift.EaseBrake, "brake-lever", "", 0)
		do(forS, lift.Wind, "handwheel", "", 0)
		p.FreeS = view.TimeS + forS
	case PowerOn:
		do(0, lift.Isolate, "isolator", "", 0)
	}
	for _, in := range inputs {
		if why := m.Do(in); why.ID != "" {
			return why
		}
	}
	switch act.Step {
	case LockedOff:
		p.Fitter = act.By
	case Move:
		p.Moves++
	}
	if p.Next <= act.Step {
		p.Next = act.Step
		if act.Step != Move {
			p.Next++
		}
	}
	return phrase.Phrase{}
}

// refuse says why a step cannot be taken now; the empty phrase lets it.
func (p *Procedure) refuse(view *lift.View, act Act) phrase.Phrase {
	if act.Step >= steps {
		return phrase.Of("winding.no-such-step")
	}
	after := p.Next == Move && p.Moves > 0 && act.Step == Level
	switch {
	case p.Next >= steps:
		return phrase.Of("winding.over")
	case act.Step < p.Next:
		return phrase.Of("winding.taken", "step", act.Step.Name())
	case act.Step > p.Next && !after:
		return phrase.Of("winding.first", "first", p.Next.Name(), "why", p.Next.why())
	}
	if act.Step > Isolated && act.Step <= Level && view.TimeS < p.FreeS {
		return phrase.Of("winding.brake-open")
	}
	return p.look(view, act)
}

// look refuses what the machine itself speaks against.
func (p *Procedure) look(view *lift.View, act Act) phrase.Phrase {
	switch act.Step {
	case Isolated:
		if view.Moving {
			return phrase.Of("winding.car-moving")
		}
	case ProvedDead:
		for _, in := range view.Relays {
			if in {
				return phrase.Of("winding.not-dead")
			}
		}
	case DoorsShut, DoorsAgain:
		if view.DoorOpen > 0 {
			return phrase.Of("winding.doors-open")
		}
	case LockedOff:
		if act.By == "" {
			return phrase.Of("winding.whose-lock")
		}
	case Move:
		if view.Moving {
			return phrase.Of("winding.car-moving")
		}
	case Level:
		if view.Moving {
			return phrase.Of("winding.car-moving")
		}
		if !marked(view) {
			return phrase.Of("winding.not-level")
		}
	case BrakeSet:
		if view.BrakeLift > 0 {
			return phrase.Of("winding.brake-open")
		}
	case LockRemoved:
		if act.By != p.Fitter {
			return phrase.Of("winding.not-your-lock", "fitter", p.Fitter)
		}
	}
	return phrase.Phrase{}
}

// marked tells that the car stands at a landing, as marks on the ropes would
// say: the centre contact of a landing is made. It is looked at on the wheel,
// which needs no power.
func marked(view *lift.View) bool {
	for _, made := range view.Rim {
		if made {
			return true
		}
	}
	return false
}

// Name is the step in words.
func (s Step) Name() phrase.Phrase { return phrase.Of("winding.step-" + s.String()) }

// why is why the step cannot be passed over.
func (s Step) why() phrase.Phrase { return phrase.Of("winding.why-" + s.String()) }

// A Line is one step as a list shows it.
type Line struct {
	Step Step
	Say  phrase.Phrase // what is done
	Why  phrase.Phrase // why it stands there
	Done bool
	Now  bool // may be taken now
}

// Lines lists all steps.
func (p *Procedure) Lines() []Line {
	var out []Line
	for s := range steps {
		out = append(out, Line{Step: s, Say: s.Name(), Why: s.why(), Done: s < p.Next,
			Now: s == p.Next || s == Level && p.Next == Move && p.Moves > 0})
	}
	return out
}

// Cautions are the sentences that stand on the screen all the time and on
// every sheet printed from it.
func Cautions() []phrase.Phrase {
	var out []phrase.Phrase
	for _, key := range []string{"model", "authorised", "isolate", "two", "stored", "rotating", "doors", "trapped",
		"pit", "other-circuits", "link", "asbestos", "power-back", "visitors"} {
		out = append(out, phrase.Of("winding.caution-"+key))
	}
	return out
}
