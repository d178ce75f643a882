// Package timeline is a run one can move about in: at its end the machine runs
// on; anywhere before it any moment comes back exactly, and looking back
// changes nothing. A run can be taken up again from one of its moments, as a
// branch that leaves the first run whole.
//
// Times are seconds of the machine. The package draws nothing; it keeps what
// the chart of the scene shows, because only a run knows its own past.
package timeline

import (
	"wheelroom/game/scene"
	"wheelroom/physics/lift"
)

// LookS is how often a machine is looked at while it runs, for the chart,
// seconds.
const LookS = 0.02

// The chart shows a minute at the most; a record that reaches back so far
// from a moment is all that the moment's chart needs.
const chartS = 62.0

// A Run is one machine with its past. Make it with New, Follow or Branch.
type Run struct {
	history *lift.History
	past    *lift.Machine // what is looked at; nil at the end
	chart   *scene.Record // seen at the end

	// A chart made again for a moment that the other no longer reaches.
	again      *scene.Record
	from, upTo float64

	tally tally
	view  lift.View
}

// New begins a run with a machine as it stands. The run owns the machine.
func New(m *lift.Machine) *Run {
	r := &Run{history: lift.NewHistory(m), chart: record(m)}
	r.Keep()
	return r
}

// Follow begins the run of a machine that somebody else moves, and tells of
// by Keep. What the machine has done already is played again.
func Follow(m *lift.Machine) *Run {
	r := &Run{history: lift.Recall(m)}
	r.chart = r.chartTo(m.TimeS())
	r.Keep()
	return r
}

// Branch begins a run that is this one up to the moment now looked at, and
// goes on from there. This run stays whole.
func (r *Run) Branch() *Run {
	m := r.Machine()
	b := &Run{history: r.history.Branch(m)}
	b.chart = r.chartTo(m.TimeS())
	b.Keep()
	return b
}

func record(m *lift.Machine) *scene.Record {
	return scene.NewRecord(len(m.Wiring().Coils), len(m.Plan().Floors))
}

// End returns the machine as far as the run has come.
func (r *Run) End() *lift.Machine { return r.history.End() }

// Machine returns the machine as it is looked at. Between Keeps it must not be
// moved.
func (r *Run) Machine() *lift.Machine {
	if r.past != nil {
		return r.past
	}
	return r.End()
}

// Looking reports whether a moment before the end is looked at.
func (r *Run) Looking() bool { return r.past != nil }

// Keep notes where the end has come to: for the chart, and to come back to.
func (r *Run) Keep() {
	r.history.Keep()
	r.End().Look(&r.view)
	r.chart.Look(&r.view)
}

// Advance lets time pass: looking back it plays what has been, with all that
// was done then, and at the end it runs on. It comes no further than to the
// next point at which the machine ought to be looked at, and returns what is
// left of the seconds; all of them when the model has stopped for good.
func (r *Run) Advance(seconds float64) (left float64) {
	d := min(seconds, LookS)
	if r.past != nil {
		r.past.Advance(d)
		if r.past.TimeS() > r.End().TimeS()-lift.GridS {
			r.past = nil
		}
		return seconds - d
	}
	if r.End().Stopped() != "" {
		return seconds
	}
	r.history.Advance(d)
	r.Keep()
	return seconds - d
}

// At looks at the run as it was at a time: before the start at the start, from
// the end on at the end.
func (r *Run) At(timeS float64) {
	if timeS >= r.End().TimeS()-lift.GridS/2 {
		r.past = nil
		return
	}
	r.past = r.history.AtTime(timeS)
}

// AtEvent looks at the run as it was right after event i; it reports whether
// there is one. The last one is the end only where the run stands there.
func (r *Run) AtEvent(i int) bool {
	if i < 0 || i >= len(r.End().Events()) {
		return false
	}
	r.past = r.history.AtEvent(i)
	if same(r.past, r.End()) {
		r.past = nil
	}
	return true
}

// Return goes to the end.
func (r *Run) Return() { r.past = nil }

// same reports whether two machines of one run stand at the same happening.
func same(a, b *lift.Machine) bool {
	return a.TimeS() == b.TimeS() && len(a.Events()) == len(b.Events())
}

// Back goes to the last event before this moment that counts as a step, and
// before the first to the start. It returns the event's index, -1 for the
// start.
func (r *Run) Back(counts func(events []lift.Event, i int) bool) int {
	now := r.Machine()
	for i := len(now.Events()) - 1; i >= 0; i-- {
		if !counts(now.Events(), i) {
			continue
		}
		if m := r.history.AtEvent(i); !same(m, now) {
			r.past = m
			return i
		}
	}
	r.At(0)
	return -1
}

// Forward goes from a moment looked back at to the next event that counts as a
// step and returns its index; where none is left it goes to the end and
// returns -1.
func (r *Run) Forward(counts func(events []lift.Event, i int) bool) int {
	events := r.End().Events()
	for i := len(r.Machine().Events()); i < len(events); i++ {
		if counts(events, i) {
			r.AtEvent(i)
			return i
		}
	}
	r.Return()
	return -1
}

// Step runs from the end to the next event, at most for limitS seconds; it
// reports whether there was one.
func (r *Run) Step(limitS float64) bool {
	happened := r.history.Step(limitS)
	r.Keep()
	return happened
}

// Chart returns what the chart shows at the moment looked at.
func (r *Run) Chart() *scene.Record {
	if r.past == nil {
		return r.chart
	}
	t := r.past.TimeS()
	if r.chart.SinceS() <= max(0, t-chartS) {
		return r.chart
	}
	if r.again == nil || t > r.upTo || max(0, t-chartS) < r.from {
		r.again, r.from, r.upTo = r.chartTo(t), max(0, t-chartS), t
	}
	return r.again
}

// Seen returns what there was to see at a time, and the record of the minute
// before it, without going there.
func (r *Run) Seen(timeS float64) (*lift.View, *scene.Record) {
	var v lift.View
	r.history.AtTime(timeS).Look(&v)
	return &v, r.chartTo(timeS)
}

// chartTo makes the record of what came before a time, by playing it again.
func (r *Run) chartTo(timeS float64) *scene.Record {
	m := r.history.AtTime(timeS - chartS)
	c := record(m)
	for {
		m.Look(&r.view)
		c.Look(&r.view)
		if m.TimeS() > timeS-lift.GridS {
			return c
		}
		m.RunTo(min(m.TimeS()+LookS, timeS))
		if m.Stopped() != "" {
			return c
		}
	}
}

// AtMoment looks at the run as it was at a time with so many events done; it
// is where an AtEvent or an At came to.
func (r *Run) AtMoment(timeS float64, events int) {
	r.At(timeS)
	if events > len(r.Machine().Events()) {
		r.AtEvent(min(events, len(r.End().Events())) - 1)
	}
}

// EventsBy returns how many events had happened by a time on the machine's
// grid, with what happens at that very instant still to come.
func (r *Run) EventsBy(timeS float64) int { return len(r.history.AtTime(timeS).Events()) }

// Start returns a machine at the start of the run, with all that is done in
// it in its book.
func (r *Run) Start() *lift.Machine { return r.history.AtTime(0) }
