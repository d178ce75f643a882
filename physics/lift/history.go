package lift

import (
	"slices"

	"wheelroom/physics/phrase"
)

// A History is a run that can be gone back over. It keeps the machine's state
// at intervals and runs on from the nearest one, so that any moment comes
// back exactly: the same hash as when it was first reached.
type History struct {
	frames []*Machine // in order of time; the first is the start
	everyS float64    // between two frames
	end    *Machine   // as far as the run has come
}

// framesMost bounds the memory of a run of days: when it is reached every
// other frame is let go and the interval doubled.
const framesMost = 240

// NewHistory begins a history with the machine as it stands. The history owns
// the machine from now on.
func NewHistory(m *Machine) *History {
	return &History{frames: []*Machine{m.Clone()}, everyS: 1, end: m}
}

// Recall makes the history of a run that is already under way, by playing it
// again from its start. Whoever runs m goes on doing so, and tells the history
// by Keep.
func Recall(m *Machine) *History {
	start, err := New(&m.plan, m.opts)
	if err != nil {
		panic("lift: a plan that made one machine does not make another: " + err.Error())
	}
	start.inputs = append(start.inputs, m.inputs...)
	h := NewHistory(start)
	for start.micros < m.micros {
		start.micro()
		h.Keep()
	}
	h.end = m
	return h
}

// End returns the machine as far as the run has come. Run it by Advance, Step
// and Do of the history, or by its own and Keep.
func (h *History) End() *Machine { return h.end }

// Advance runs on for seconds.
func (h *History) Advance(seconds float64) {
	for seconds > 0 && h.end.Stopped() == "" {
		piece := min(seconds, h.everyS)
		h.end.Advance(piece)
		seconds -= piece
		h.Keep()
	}
}

// Step runs on to the next event, or for limitS seconds; see Machine.Step.
func (h *History) Step(limitS float64) bool {
	happened := h.end.Step(limitS)
	h.Keep()
	return happened
}

// Keep notes how far the end has come when somebody else has run it: it makes
// a frame when the last one is old enough.
func (h *History) Keep() {
	if h.end.TimeS() < h.frames[len(h.frames)-1].TimeS()+h.everyS {
		return
	}
	h.frames = append(h.frames, h.end.Clone())
	if len(h.frames) < framesMost {
		return
	}
	kept := h.frames[:0]
	for i, f := range h.frames {
		if i%2 == 0 {
			kept = append(kept, f)
		}
	}
	clear(h.frames[len(kept):])
	h.frames = kept
	h.everyS *= 2
}

// AtTime returns the machine as it was at the last grid point not after
// timeS, with what happens at that very instant still to come. Before the
// start it is the start, beyond the end the end.
func (h *History) AtTime(timeS float64) *Machine {
	m := h.from(func(f *Machine) bool { return f.timeS <= timeS+GridS/1000 })
	for m.micros < h.end.micros && m.gridS() <= timeS+GridS/1000 {
		m.micro()
	}
	m.wantS = m.timeS
	return m
}

// AtEvent returns the machine as it was right after event i of the run. It
// panics if there is no such event.
func (h *History) AtEvent(i int) *Machine {
	if i < 0 || i >= len(h.end.events) {
		panic("lift: history has no such event")
	}
	m := h.from(func(f *Machine) bool { return len(f.events) <= i })
	for len(m.events) <= i {
		m.micro()
	}
	m.wantS = m.timeS
	return m
}

// from clones the last frame that is early enough, with the inputs of the
// whole run.
func (h *History) from(early func(*Machine) bool) *Machine {
	best := h.frames[0]
	for _, f := range h.frames {
		if early(f) {
			best = f
		}
	}
	m := best.Clone()
	m.inputs = append(m.inputs[:0], h.end.inputs...)
	return m
}

// Rewind makes m, a machine this history has returned, the end of the run.
// Everything after it is forgotten, inputs that were still to come included.
func (h *History) Rewind(m *Machine) {
	m = m.Clone()
	m.inputs = m.inputs[:m.applied]
	h.end = m
	for len(h.frames) > 1 && h.frames[len(h.frames)-1].micros > m.micros {
		h.frames = h.frames[:len(h.frames)-1]
	}
}

// Branch returns the history of a run that is the same up to m, a machine this
// history has returned, and ends there. Inputs still to come are left out.
// This history stays whole; what both have is shared.
func (h *History) Branch(m *Machine) *History {
	b := &History{frames: slices.Clone(h.frames), everyS: h.everyS, end: h.end}
	b.Rewind(m)
	return b
}

// A Waypoint is where the car was at a time, metres above the lowest landing.
type Waypoint struct{ TimeS, CarM float64 }

// Path returns the car's places at intervals, from the start to the end of
// the run: enough to draw its way, whatever the run's length.
func (h *History) Path() []Waypoint {
	path := make([]Waypoint, 0, len(h.frames)+1)
	for _, f := range h.frames {
		path = append(path, Waypoint{f.timeS, f.drive.CarM})
	}
	return append(path, Waypoint{h.end.timeS, h.end.drive.CarM})
}

// Do records an input at the end of the run; see Machine.Do.
func (h *History) Do(in Input) phrase.Phrase { return h.end.Do(in) }
