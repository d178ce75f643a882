// Package trace writes down what a run did: every signal once at the start
// and then each change, as CSV (RFC 4180) or VCD (IEEE 1364), and a snapshot
// of all of them at one instant.
//
// Signals are named as the lift names its parts. Times are seconds from the
// start of the run with three decimals; equal times keep causal order.
package trace

import (
	"strconv"
	"strings"

	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// A Row is one value of one signal, from TimeS on.
type Row struct {
	TimeS  float64
	Signal string
	Value  string
}

// SampleS is the time between two rows of the car's place and speed while it
// moves, seconds.
const SampleS = 0.1

// IdleS is how long a machine must have rested before a run until idle ends.
const IdleS = 2.0

// LongestS is where a run until idle is given up, seconds of the machine's
// time: a lift that is still busy then will stay so.
const LongestS = 4 * 3600.0

// A Recorder turns a machine's run into rows.
type Recorder struct {
	Rows []Row

	machine  *lift.Machine
	seen     int // events taken over
	known    map[string]bool
	view     lift.View
	samples  int
	lastPosM float64
}

// Record starts a recording with the machine as it stands.
func Record(m *lift.Machine) *Recorder {
	r := &Recorder{machine: m, seen: len(m.Events()), known: map[string]bool{}}
	for _, row := range Signals(m) {
		r.known[row.Signal] = true
		r.Rows = append(r.Rows, row)
	}
	m.Look(&r.view)
	r.lastPosM = r.view.CarM
	r.samples = int(m.TimeS()/SampleS + 1e-6)
	return r
}

// RunTo runs the machine to timeS and writes down what happens.
func (r *Recorder) RunTo(timeS float64) {
	for r.machine.Stopped() == "" && r.machine.TimeS() < timeS-lift.GridS/2 {
		r.machine.RunTo(min(float64(r.samples+1)*SampleS, timeS))
		r.take()
	}
}

// RunUntilIdle runs the machine until it has been idle for IdleS with nothing
// left to be done to it. It reports whether it came to that within LongestS.
func (r *Recorder) RunUntilIdle() bool {
	since := -1.0
	for r.machine.Stopped() == "" && r.machine.TimeS() < LongestS {
		r.RunTo(r.machine.TimeS() + SampleS)
		switch now := r.machine.TimeS(); {
		case !r.machine.Idle() || !r.machine.AllDone():
			since = -1
		case since < 0:
			since = now
		case now-since >= IdleS-1e-9:
			return true
		}
	}
	return false
}

// take appends the events since the last time and, on a sampling instant, the
// car's place and speed while they change.
func (r *Recorder) take() {
	for _, e := range r.machine.Events()[r.seen:] {
		if r.known[string(e.Part)] {
			r.Rows = append(r.Rows, Row{e.TimeS, string(e.Part), e.State})
		}
	}
	r.seen = len(r.machine.Events())
	due := float64(r.samples+1) * SampleS
	if r.machine.TimeS() < due-lift.GridS/2 {
		return
	}
	r.samples++
	r.machine.Look(&r.view)
	if r.view.Moving || r.view.CarM != r.lastPosM {
		r.lastPosM = r.view.CarM
		now := r.machine.TimeS()
		r.Rows = append(r.Rows,
			Row{now, "car.position_m", metres(r.view.CarM)},
			Row{now, "car.speed_m_s", metres(r.view.SpeedMS)})
	}
}

// metres spells a number with three decimals and without a negative zero.
func metres(v float64) string {
	s := strconv.FormatFloat(v, 'f', 3, 64)
	if strings.Trim(s, "-0.") == "" {
		return "0.000"
	}
	return s
}

// Signals returns every signal with its value now, in the order of a trace.
func Signals(m *lift.Machine) []Row {
	var v lift.View
	m.Look(&v)
	p := m.Plan()
	var rows []Row
	add := func(signal, value string) { rows = append(rows, Row{v.TimeS, signal, value}) }
	floors := func(kind string, value func(f int) string) {
		for f := range p.Floors {
			add(kind+"."+p.Floors[f].Name, value(f))
		}
	}
	of := func(on []bool) func(int) string { return func(f int) string { return bit(on[f]) } }
	floors("call", of(v.Calls))
	floors("lamp", of(v.Lamps))
	floors("rim", of(v.Rim))
	floors("advance-up", of(v.AdvanceUp))
	floors("advance-down", of(v.AdvanceDown))
	floors("direction", func(f int) string { return v.Direction[f].String() })
	for _, name := range control.Relays() {
		if c := m.Wiring().Coil("relay." + name); c >= 0 {
			add("relay."+name, bit(v.Relays[c]))
		} else {
			add("relay."+name, "0")
		}
	}
	at := "-"
	if v.AtFloor >= 0 {
		at = p.Floors[v.AtFloor].Name
	}
	add("stop", at)
	add("door", doorWord(v.DoorOpen))
	add("car.position_m", metres(v.CarM))
	add("car.speed_m_s", metres(v.SpeedMS))
	return rows
}

func bit(on bool) string {
	if on {
		return "1"
	}
	return "0"
}

func doorWord(open float64) string {
	if open > 0 {
		return "open"
	}
	return "closed"
}
