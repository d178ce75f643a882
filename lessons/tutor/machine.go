package tutor

import (
	"math"
	"sort"

	"wheelroom/lessons/script"
	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/why"
)

// A Machine is what a tutor needs of a lift: it does things to it, lets time
// pass and watches. A *lift.Machine is one.
type Machine interface {
	Do(in lift.Input) phrase.Phrase // now, if its time is not later; the phrase says why it cannot be
	RunTo(timeS float64)            // to a time that is a whole number of the machine's steps
	Step(limitS float64) bool       // to the very instant of the next event, or for so long
	Events() []lift.Event           // all since the start, in causal order
	Look(v *lift.View)
	Wiring() *control.Wiring
	Switch(part lift.Part) int
}

// A Maker builds the machine of a plan, at rest with its doors closed.
type Maker func(plan *building.Plan, o lift.Options) (Machine, error)

// Lift is the Maker of the machines there are.
func Lift(plan *building.Plan, o lift.Options) (Machine, error) { return lift.New(plan, o) }

// beatS is the tutor's clock: buttons are pressed, and runs stopped, at whole
// beats, so that a lesson goes the same way at every frame rate. Seconds; a
// whole number of the machine's steps.
const beatS = 0.01

// A run is one machine on its way through an item, and the log of it.
type run struct {
	item    *script.Item
	machine Machine
	view    lift.View
	log     script.Log
	beats   int
	frozen  int // beats at the frozen frame
	inputs  []script.Input
	done    int            // of the inputs
	refused []refusedInput // what the machine did not take

	since  float64 // when the stretch that now runs began, machine time
	before int     // events in the log by then
}

// A refusedInput is an input the machine did not take, and why.
type refusedInput struct {
	input script.Input
	why   phrase.Phrase
}

// begin builds the machine of an item and sets it at its first instant.
func begin(item *script.Item, make Maker) (*run, error) {
	o := lift.Options{HeightM: item.StartM}
	if item.StartM == nil {
		o.Start = item.Plan.Floor(item.Start)
	}
	machine, err := make(item.Plan, o)
	if err != nil {
		return nil, err
	}
	r := &run{item: item, machine: machine}
	machine.Look(&r.view)
	r.log = script.Log{Start: item.Start, LoadKG: item.Plan.Lift.LoadKG, First: stand(machine, item.Plan, &r.view)}
	r.queue(item.Lead.Inputs)
	r.observe()
	return r, nil
}

// stand notes how every part that can be asked about stands at the start.
func stand(m Machine, plan *building.Plan, v *lift.View) map[lift.Part]string {
	first := map[lift.Part]string{"door": "closed", "handwheel": "0"}
	set := func(part lift.Part, on bool) {
		if on {
			first[part] = "1"
		}
	}
	for i, part := range m.Wiring().Coils {
		set(lift.Part(part), v.Relays[i])
	}
	for i := range m.Wiring().Gangs {
		part := lift.Part(m.Wiring().Gangs[i].Part)
		if s := m.Switch(part); s >= 0 {
			set(part, v.Switches[s])
		}
	}
	for f := range plan.Floors {
		name := plan.Floors[f].Name
		set(lift.Part("lamp."+name), v.Lamps[f])
		first[lift.Part("direction."+name)] = v.Direction[f].String()
	}
	return first
}

// queue sets the inputs of the part that begins now, in the order of their
// times.
func (r *run) queue(inputs []script.Input) {
	r.inputs, r.done = append([]script.Input(nil), inputs...), 0
	sort.SliceStable(r.inputs, func(i, j int) bool { return r.inputs[i].AtS < r.inputs[j].AtS })
}

// act does what is due at the beginning of this beat.
func (r *run) act() {
	for r.done < len(r.inputs) && int(math.Round(r.inputs[r.done].AtS/beatS)) <= r.beats-r.frozen {
		if why := r.machine.Do(r.inputs[r.done].Do); why.ID != "" {
			r.refused = append(r.refused, refusedInput{r.inputs[r.done], why})
		}
		r.done++
	}
}

// beat lets one beat pass, or what is left of it after steps.
func (r *run) beat() {
	r.act()
	r.beats++
	r.machine.RunTo(r.beatEndS())
	r.observe()
}

// step goes to the next event of this beat and reports whether there was one;
// without one the beat is not over.
func (r *run) step() bool {
	r.act()
	if !r.machine.Step(float64(r.beats+1)*beatS - r.view.TimeS - stepShortS) {
		return false
	}
	r.look()
	return true
}

// stepShortS keeps a step inside its beat: the machine goes by whole steps of
// its own and may not begin the next beat before its inputs are done.
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
	r.log.Path = append(r.log.Path, script.Place{TimeS: r.view.TimeS, HeightM: r.view.CarM, SpeedMS: r.view.SpeedMS, AccelMS2: r.view.AccelMS2})
}

// freeze makes the present the frozen frame.
func (r *run) freeze() {
	r.log.Freeze()
	r.log.FrozenWhys = r.whys(true)
	r.frozen = r.beats
	r.queue(r.item.Inputs)
}

// stretch marks the beginning of a stretch: the lead-in or a segment.
func (r *run) stretch() { r.since, r.before = r.log.NowS, len(r.log.Events) }

// over reports whether the stretch has come to its end: by its condition, by
// the longest time a learner is to watch without a pause, or because the model
// has stopped for good.
func (r *run) over(until script.Until, speed float64) bool {
	return until.Reached(&r.log, r.before, r.since) || r.late(speed) || r.view.Stopped != ""
}

// whys asks the machine why the parts that the item explains stand as they do.
func (r *run) whys(frozen bool) map[lift.Part]phrase.Phrase {
	m, ok := r.machine.(*lift.Machine)
	parts := r.item.Whys(frozen)
	if !ok || len(parts) == 0 {
		return nil
	}
	said := map[lift.Part]phrase.Phrase{}
	for _, part := range parts {
		said[part] = why.Of(m, why.Part(part)).Sentence
	}
	return said
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
