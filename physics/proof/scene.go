package proof

import (
	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// afterS is when calls are registered that should find the car on its way: it
// has left by then and met nothing yet, seconds.
const afterS = 1.0

// Open returns how to set up a case on a running machine: where it begins, and
// what is pressed when. Where the circuit has to remember a direction or to
// run, the machine is first given a call that makes it so.
func (c *Case) Open(plan *building.Plan) (lift.Options, []lift.Input) {
	top := len(plan.Floors) - 1
	var o lift.Options
	var first []lift.Part // pressed at once
	switch {
	case c.Phase == Starting || c.Phase == Running || c.Phase == Slowing || c.Phase == Tripped:
		o.Start = c.behind(plan)
		first = c.ahead(o.Start)
	case c.Memory.Down && c.Floor >= 0 && c.Floor < top:
		o.Start = c.Floor + 1
		first = []lift.Part{plainButton(plan, c.Floor)}
	case c.Memory.BoundUp && c.Floor > 0:
		o.Start = c.Floor - 1
		first = []lift.Part{plainButton(plan, c.Floor)}
	case c.Floor >= 0:
		o.Start = c.Floor
	default:
		y := min(max((c.FromM+c.ToM)/2, 0), plan.TravelM())
		o.HeightM = &y
	}
	return o, c.presses(first)
}

// presses are the buttons of the case: those that make the car run at once,
// the others when it does, or all at once where nothing has to run.
func (c *Case) presses(first []lift.Part) []lift.Input {
	var ins []lift.Input
	pressed := map[lift.Part]bool{}
	press := func(atS float64, button lift.Part) {
		if !pressed[button] {
			ins = append(ins, lift.Input{TimeS: atS, Kind: lift.Press, Part: button})
		}
		pressed[button] = true
	}
	for _, button := range first {
		press(0, button)
	}
	atS := 0.0
	if len(first) > 0 {
		atS = afterS
	}
	for _, call := range c.Calls {
		press(atS, lift.Part(call.Button))
	}
	return ins
}

// behind is the landing the car has come from.
func (c *Case) behind(plan *building.Plan) int {
	at := (c.FromM + c.ToM) / 2
	best := 0
	for f := range plan.Floors {
		h := plan.Floors[f].HeightM
		if c.Up && h < at {
			best = f
		}
		if !c.Up && h > at {
			return f
		}
	}
	if !c.Up {
		return len(plan.Floors) - 1
	}
	return best
}

// ahead are the buttons of the calls ahead of a landing, in the direction of
// the case.
func (c *Case) ahead(from int) []lift.Part {
	var out []lift.Part
	for _, call := range c.Calls {
		if c.Up && call.Floor > from || !c.Up && call.Floor < from {
			out = append(out, lift.Part(call.Button))
		}
	}
	return out
}

// plainButton is the button of a floor that says nothing of a direction.
func plainButton(plan *building.Plan, f int) lift.Part {
	kinds := control.CallsOf(plan.Control.Scheme, len(plan.Floors), f)
	kind := kinds[len(kinds)-1]
	if kind == control.AnyCall {
		return lift.Part("button." + plan.Floors[f].Name)
	}
	return lift.Part("button-" + kind.String() + "." + plan.Floors[f].Name)
}
