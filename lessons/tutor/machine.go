package tutor

import (
	"math"
	"sort"

	"wheelroom/lessons/script"
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
)

// A Machine is what a tutor needs of a lift: it presses landing buttons, lets
// time pass and watches. A *lift.Machine is one.
type Machine interface {
	Press(floor int)          // the landing's button, held for lift.HoldS
	RunTo(timeS float64)      // to a time that is a whole number of the machine's steps
	Step(limitS float64) bool // to the very instant of the next event, or for so long
	Events() []lift.Event     // all since the start, in causal order
	Look(v *lift.View)
}

// A Maker builds the machine of a plan, at rest at a floor with its doors
// closed.
type Maker func(plan *building.Plan, floor int) (Machine, error)

// beatS is the tutor's clock: buttons are pressed, and runs stopped, at whole
// beats, so that a lesson goes the same way at every frame rate. Seconds; a
// whole number of the machine's steps.
const beatS = 0.01

// A run is one machine on its way through an item, and the log of it.
type run struct {
	item    *script.Item
	plan    *building.Plan
	machine Machine
	view    lift.View
	log     script.Log
	beats   int
	frozen  int // beats at the frozen frame
	calls   []script.Call
	pressed int

	since  float64 // when the stretch that now runs began, machine time
	before int     // events in the log by then
}

// begin builds the machine of an item and sets it at its first instant.
func begin(lesson *script.Lesson, item *script.Item, make Maker) (*run, error) {
	machine, err := make(lesson.Plan, lesson.Plan.Floor(item.Start))
	if err != nil {
		return nil, err
	}
	r := &run{item: item, plan: lesson.Plan, machine: machine, log: script.Log{Start: item.Start}}
	r.queue(item.Lead.Calls)
	r.observe()
	return r, nil
}

// queue sets the calls of the part that begins now, in the order of their
// times.
func (r *run) queue(calls []script.Call) {
	r.calls, r.pressed = append([]script.Call(nil), calls...), 0
	sort.SliceStable(r.calls, func(i, j int) bool { return r.calls[i].AtS < r.calls[j].AtS })
}

// press pushes the buttons that are due at the beginning of this beat.
func (r *run) press() {
	for r.pressed < len(r.calls) && int(math.Round(r.calls[r.pressed].AtS/beatS)) <= r.beats-r.frozen {
		r.machine.Press(r.plan.Floor(r.calls[r.pressed].Floor))
		r.pressed++
	}
}

// beat lets one beat pass, or what is left of it after steps.
func (r *run) beat() {
	r.press()
	r.beats++
	r.machine.RunTo(r.beatEndS())
	r.observe()
}

// step goes to the next event of this beat and reports whether there was one;
// without one the beat is not over.
func (r *run) step() bool {
	r.press()
	if !r.machine.Step(float64(r.beats+1)*beatS - r.view.TimeS - stepShortS) {
		return false
	}
	r.look()
	return true
}

// stepShortS keeps a step inside its beat: the machine goes by whole steps of
// its own and may not begin the next beat before its buttons are pressed.
const stepShortS = 1e-7

func (r *run) beatEndS() float64 { return float64(r.beats) * beatS }

// look notes what has happened by now.
func (r *run) look() {
	r.machine.Look(&r.view)
	r.log.Events, r.log.NowS = r.machine.Events(), r.view.TimeS
}

// observe looks at the end of a beat, where the log keeps the car's place: at
// the same instants however the beats were gone through.
func (r *run) observe() {
	r.look()
	r.log.Path = append(r.log.Path, script.Place{TimeS: r.view.TimeS, HeightM: r.view.CarM, SpeedMS: r.view.SpeedMS})
}

// freeze makes the present the frozen frame.
func (r *run) freeze() {
	r.log.Freeze()
	r.frozen = r.beats
	r.queue(r.item.Calls)
}

// stretch marks the beginning of a stretch: the lead-in or a segment.
func (r *run) stretch() { r.since, r.before = r.log.NowS, len(r.log.Events) }

// over reports whether the stretch has come to its end, by its condition or by
// the longest time a learner is to watch without a pause.
func (r *run) over(until script.Until, speed float64) bool {
	return until.Reached(&r.log, r.before, r.since) || r.late(speed)
}

// late reports whether the stretch has lasted as long as it may.
func (r *run) late(speed float64) bool {
	return r.log.NowS-r.since >= script.MotionS*speed-1e-9
}

// lead plays the lead-in to the frozen frame and reports whether its condition
// was reached.
func (r *run) lead() bool {
	r.stretch()
	until, speed := r.item.Lead.Until, r.item.Lead.Speed
	for !r.over(until, speed) {
		r.beat()
	}
	reached := until.Reached(&r.log, r.before, r.since)
	r.freeze()
	return reached
}
