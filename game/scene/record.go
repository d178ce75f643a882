package scene

import "wheelroom/physics/lift"

// A Record is what the chart shows: the speed, the position lamps and the
// relays of a run, seen again and again. Its storage is bounded: the oldest
// goes first. Make it with NewRecord.
type Record struct {
	coils  int
	times  ring64  // of the samples
	speeds ring64  // m/s, with the times
	bars   [][]bar // by track: coils first, then floors' lamps
	open   []bool  // by track: its newest bar has not ended
	next   []int   // by track: where its next bar goes
	count  []int   // by track
	last   float64
	begun  bool
}

// A bar is a stretch of time for which something was on.
type bar struct{ from, to float64 }

const (
	keptSamples = 4096
	keptBars    = 128
)

// ring64 is a bounded queue of numbers.
type ring64 struct {
	at    [keptSamples]float64
	first int
	n     int
}

func (r *ring64) push(v float64) {
	if r.n == keptSamples {
		r.at[r.first] = v
		r.first = (r.first + 1) % keptSamples
		return
	}
	r.at[(r.first+r.n)%keptSamples] = v
	r.n++
}

func (r *ring64) get(i int) float64    { return r.at[(r.first+i)%keptSamples] }
func (r *ring64) set(i int, v float64) { r.at[(r.first+i)%keptSamples] = v }

// NewRecord returns an empty record for a machine with so many coils and
// floors.
func NewRecord(coils, floors int) *Record {
	n := coils + floors
	r := &Record{coils: coils, bars: make([][]bar, n), open: make([]bool, n), next: make([]int, n), count: make([]int, n)}
	for i := range r.bars {
		r.bars[i] = make([]bar, keptBars)
	}
	return r
}

// Reset empties the record and keeps its storage.
func (r *Record) Reset() {
	r.times.n, r.speeds.n, r.begun, r.last = 0, 0, false, 0
	clear(r.open)
	clear(r.count)
	clear(r.next)
}

// Look adds what is seen at an instant. An instant before the last takes back
// what came after it; the same instant again replaces it.
func (r *Record) Look(v *lift.View) {
	if r.begun && v.TimeS < r.last {
		r.rewind(v.TimeS)
	}
	// On a straight stretch the newest sample moves along instead of growing.
	n := r.times.n
	switch {
	case n > 0 && r.times.get(n-1) == v.TimeS:
		r.speeds.set(n-1, v.SpeedMS)
	case n > 1 && straight(r.times.get(n-2), r.speeds.get(n-2), r.times.get(n-1), r.speeds.get(n-1), v.TimeS, v.SpeedMS):
		r.times.set(n-1, v.TimeS)
		r.speeds.set(n-1, v.SpeedMS)
	default:
		r.times.push(v.TimeS)
		r.speeds.push(v.SpeedMS)
	}
	for i := range r.bars {
		on := false
		if i < r.coils {
			on = i < len(v.Relays) && v.Relays[i]
		} else if fl := i - r.coils; fl < len(v.Lamps) {
			on = v.Lamps[fl]
		}
		switch {
		case on && !r.open[i]:
			r.bars[i][r.next[i]] = bar{v.TimeS, v.TimeS}
			r.next[i] = (r.next[i] + 1) % keptBars
			r.count[i] = min(r.count[i]+1, keptBars)
			r.open[i] = true
		case r.open[i]:
			r.bars[i][(r.next[i]+keptBars-1)%keptBars].to = v.TimeS
			r.open[i] = on
		}
	}
	r.last, r.begun = v.TimeS, true
}

// straight reports whether the middle of three samples lies on the line
// through the others, to within what a chart can show.
func straight(t0, v0, t1, v1, t2, v2 float64) bool {
	if t2 <= t0 {
		return false
	}
	d := v0 + (v2-v0)*(t1-t0)/(t2-t0) - v1
	return d < 0.004 && d > -0.004 && t2-t0 < 5
}

// rewind takes back everything after a time.
func (r *Record) rewind(t float64) {
	for r.times.n > 0 && r.times.get(r.times.n-1) > t {
		r.times.n--
		r.speeds.n--
	}
	for i := range r.bars {
		for r.count[i] > 0 {
			b := &r.bars[i][(r.next[i]+keptBars-1)%keptBars]
			if b.from <= t {
				if b.to > t {
					b.to, r.open[i] = t, true
				}
				break
			}
			r.next[i] = (r.next[i] + keptBars - 1) % keptBars
			r.count[i]--
			r.open[i] = false
		}
	}
	r.last = t
}

// SinceS is the time from which the record is whole, seconds: older things may
// have gone to make room.
func (r *Record) SinceS() float64 {
	if r.times.n == 0 {
		return 0
	}
	since := r.times.get(0)
	for i := range r.bars {
		if r.count[i] == keptBars {
			since = max(since, r.bar(i, keptBars-1).to)
		}
	}
	return since
}

// bar returns the j-th newest bar of a track.
func (r *Record) bar(track, j int) bar {
	return r.bars[track][(r.next[track]+2*keptBars-1-j)%keptBars]
}
