package proof

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
)

// A timed is one circuit at switch level whose relays take their times: a coil
// fed differently from how its armature stands moves it after its operate or
// release time, unless the feed changes back before.
type timed struct {
	d     *control.Diagram
	l     *control.Logic
	lanes *control.Lanes // the first lane only
	part  parts

	nominal [][2]float64 // by coil: operate and release time, seconds
	factor  []float64    // by coil, on both
	due     []float64    // by coil: when its armature moves
	now     float64
	shut    bool // the doors are closed, so that the lock follows the cam

	moved   []int // coils in the order in which they moved
	shorted bool  // both ways or both windings were on at some moment
}

// An act throws a switch at a time.
type act struct {
	atS    float64
	signal int
	on     bool
}

func newTimed(b *bench, plan *building.Plan) *timed {
	t := &timed{d: b.d, l: b.l, lanes: b.l.Lanes(), part: b.part}
	for _, part := range b.l.Coils() {
		in, out := control.Times(part, plan)
		t.nominal = append(t.nominal, [2]float64{in, out})
		t.factor = append(t.factor, 1)
		t.due = append(t.due, math.Inf(1))
	}
	return t
}

// begin takes over how a bench stands in its first lane.
func (t *timed) begin(b *bench) {
	for i, w := range b.lanes.In {
		t.lanes.In[i] = -(w & 1)
	}
	for c := range t.due {
		t.due[c] = math.Inf(1)
	}
	t.now, t.shut, t.shorted, t.moved = 0, b.shut, false, t.moved[:0]
}

// togetherS: what happens within a microsecond happens at once.
const togetherS = 1e-6

// run lets the circuit move until a time, the acts throwing switches on the
// way. Acts are in order of time.
func (t *timed) run(acts []act, untilS float64) {
	for {
		t.feed()
		next := untilS
		if len(acts) > 0 {
			next = min(next, acts[0].atS)
		}
		for _, at := range t.due {
			next = min(next, at)
		}
		if next >= untilS {
			t.now = untilS
			return
		}
		t.now = max(t.now, next)
		for len(acts) > 0 && acts[0].atS <= t.now+togetherS {
			if s := acts[0].signal; s >= 0 {
				t.lanes.In[s] = word(acts[0].on)
			}
			acts = acts[1:]
		}
		t.move()
	}
}

// feed finds what every coil is fed and when its armature will follow.
func (t *timed) feed() {
	t.l.Fed(t.lanes)
	for c, fed := range t.lanes.Fed {
		in, fed := t.lanes.In[t.l.CoilSignal(c)]&1, fed&1
		switch {
		case in == fed:
			t.due[c] = math.Inf(1)
		case math.IsInf(t.due[c], 1):
			t.due[c] = t.now + t.nominal[c][in]*t.factor[c]
		}
	}
}

// move lets over all armatures that are due.
func (t *timed) move() {
	for c, at := range t.due {
		if at > t.now+togetherS {
			continue
		}
		s := t.l.CoilSignal(c)
		t.lanes.In[s] = ^t.lanes.In[s]
		t.due[c] = math.Inf(1)
		t.moved = append(t.moved, c)
		if s == t.part.cam && t.shut && t.part.lock >= 0 {
			t.lanes.In[t.part.lock] = t.lanes.In[s]
		}
	}
	t.shorted = t.shorted || t.in(t.part.upContactor) && t.in(t.part.downContactor) || t.in(t.part.fast) && t.in(t.part.slow)
}

func (t *timed) in(signal int) bool { return signal >= 0 && t.lanes.In[signal]&1 == 1 }
