// Package study measures whole machines: it runs a lift on its own circuit,
// with the delays that circuit has, and reads figures, sweeps, comparisons and
// sequences of causes from the run.
//
// SI units, heights above the lowest landing, up positive; loads are in the
// car. It knows no words and draws nothing. What a machine does in the hand of
// somebody who winds it is package winding's below.
package study

import (
	"fmt"
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// A Trip is one journey from a landing to another, answering one call.
type Trip struct {
	From, To int // landings
	LoadKG   float64
	StepS    float64 // of the moving masses; 0: the machine's own
}

// A Run is a trip as the machine made it. The record's time begins at the last
// sample before direction and fast contactors came in; the machine is left
// where the doors stand open, or where the trip was given up.
type Run struct {
	drive.Record
	Trip    Trip
	Plan    *building.Plan
	Machine *lift.Machine
	StartS  float64     // the machine's time at the first sample
	Begin   drive.State // at rest, before the call
}

// patienceS is how long beyond twice its time at creeping speed a trip may
// take before it is given up.
const patienceS = 30

// Ride runs a trip on a machine of the plan. It fails where no machine can be
// made of the plan or the trip leads nowhere; a machine that does not arrive
// leaves NaN among the figures.
func Ride(p *building.Plan, t Trip) (*Run, error) {
	if n := len(p.Floors); t.From < 0 || t.From >= n || t.To < 0 || t.To >= n || t.From == t.To {
		return nil, fmt.Errorf("study: trip from landing %d to %d of %d", t.From, t.To, n)
	}
	plan := *p
	plan.Lift.LoadKG = t.LoadKG
	m, err := lift.New(&plan, lift.Options{Start: t.From, StepS: t.StepS})
	if err != nil {
		return nil, err
	}
	r := &Run{Trip: t, Plan: &plan, Machine: m, Begin: m.Drive()}
	w := watch{m: m, run: r}
	m.Press(t.To)
	w.until(w.opened, w.patience())
	w.finish()
	return r, nil
}

// Figures works out the run's figures.
func (r *Run) Figures() drive.Figures { return r.Record.Figures(r.Machine.Train()) }

// JerkMS3 returns the change of acceleration as it is felt, sample by sample.
func (r *Run) JerkMS3() []float64 { return drive.Jerk(r.AccelMS2, r.SampleS) }

// PullRatio returns the greatest ratio of the rope pulls on the two sides of
// the sheave during the run.
func (r *Run) PullRatio() float64 {
	most := 1.0
	for _, a := range r.AccelMS2 {
		most = max(most, r.Machine.Train().PullRatio(r.Trip.LoadKG, a))
	}
	return most
}

// RopeFriction is a friction of steel ropes in plain grooves by which the pulls
// are judged, as in the tables of EN 81-50 5.11 (value from memory).
const RopeFriction = 0.1

// SayTraction states the pulls beside what plain grooves and half a turn carry.
func (r *Run) SayTraction() phrase.Phrase {
	ratio, limit := r.PullRatio(), drive.TractionLimit(RopeFriction, math.Pi)
	id := "drive.traction"
	if ratio > limit {
		id = "drive.traction-lost"
	}
	return phrase.Of(id, "ratio", phrase.Num(ratio, 2), "limit", phrase.Num(limit, 2), "friction", phrase.Num(RopeFriction, 1))
}

// A watch runs a machine and writes down what a record wants.
type watch struct {
	m       *lift.Machine
	run     *Run
	heights []float64      // of the car, by event
	spent   []drive.Energy // by event
	states  []drive.State  // by sample
}

// sample notes the state at a grid point.
func (w *watch) sample() { w.states = append(w.states, w.m.Drive()) }

// until runs from grid point to grid point until the condition holds or a
// time is reached, stopping at every event between.
func (w *watch) until(done func() bool, timeS float64) {
	w.sample()
	for tick := 1; !done() && w.m.Stopped() == "" && w.m.TimeS() < timeS; tick++ {
		for at := float64(tick) * lift.GridS; w.m.TimeS() < at-lift.GridS/1000 && w.m.Stopped() == ""; {
			w.m.Step(at - lift.GridS/1000 - w.m.TimeS())
			w.note()
		}
		w.sample()
	}
}

// note takes down where the car was at the events that have come.
func (w *watch) note() {
	s := w.m.Drive()
	for len(w.heights) < len(w.m.Events()) {
		w.heights = append(w.heights, s.CarM)
		w.spent = append(w.spent, s.Energy)
	}
}

// opened tells that the doors stand open at the landing called.
func (w *watch) opened() bool {
	events := w.m.Events()
	for i := len(events) - 1; i >= 0 && events[i].TimeS > w.m.TimeS()-2*lift.GridS; i-- {
		if events[i].Part == "door-open" && events[i].State == "1" {
			return true
		}
	}
	return false
}

// patience is when a trip is given up.
func (w *watch) patience() float64 {
	p, train := w.run.Plan, w.m.Train()
	way := math.Abs(p.Floors[w.run.Trip.To].HeightM - p.Floors[w.run.Trip.From].HeightM)
	return patienceS + 2*way/(train.SynchronousRadS(drive.Slow)*train.MetresPerRad())
}

// finish makes the record of what was seen.
func (w *watch) finish() {
	r := w.run
	k := find(w.m.Events())
	events := w.m.Events()
	first := 0
	if k.on >= 0 {
		first = int(events[k.on].TimeS/lift.GridS + 1e-6)
	}
	r.StartS = float64(first) * lift.GridS
	train := w.m.Train()
	r.SampleS = lift.GridS
	last := len(w.states) - 1
	time := func(e int) float64 {
		if e < 0 {
			return math.NaN()
		}
		return events[e].TimeS - r.StartS
	}
	height := func(e int) float64 {
		if e < 0 {
			return math.NaN()
		}
		return w.heights[e]
	}
	r.Marks = drive.Marks{
		OnS: time(k.on), LiftS: time(k.lift), MoveS: time(k.move), AdvanceS: time(k.advance), SlowS: time(k.slow),
		VaneS: time(k.vane), OffS: time(k.off), SetS: time(k.set), RestS: time(k.rest),
		FromM: r.Plan.Floors[r.Trip.From].HeightM, ToM: r.Plan.Floors[r.Trip.To].HeightM,
		AdvanceM: height(k.advance), VaneM: height(k.vane), RestM: height(k.rest),
	}
	if k.rest >= 0 {
		last = min(last, int((events[k.rest].TimeS+afterS)/lift.GridS))
	}
	for _, s := range w.states[first : last+1] {
		r.CarM = append(r.CarM, s.CarM)
		r.SpeedMS = append(r.SpeedMS, train.SpeedMS(&s))
		r.AccelMS2 = append(r.AccelMS2, train.AccelMS2(&s))
		r.AirgapNM = append(r.AirgapNM, s.AirgapNM)
		r.MotorRadS = append(r.MotorRadS, s.OmegaRadS)
		r.Running = append(r.Running, s.Running)
	}
	if k.advance >= 0 {
		r.Slow = w.spent[k.advance].Since(r.Begin.Energy)
	}
	r.End = w.states[last]
	r.End.Energy = r.End.Energy.Since(r.Begin.Energy)
}

// afterS is how long after standstill a record goes on.
const afterS = 0.25
