package fitting

import (
	"cmp"
	"math"
	"slices"

	"wheelroom/physics/building"
	"wheelroom/physics/match"
)

// fits tries every guess under every motion and returns what comes out, best
// first.
func (q *question) fits(motions []course) []*fit {
	var out []*fit
	for _, c := range motions {
		start, whole := q.begin(c)
		if !(whole > 0) {
			continue
		}
		for _, g := range q.guesses(c, start, whole) {
			if q.pace.over() {
				break
			}
			x := q.first(&g, start, whole)
			out = append(out, newModel(q, g.shape, usualScatterS, x[pitchM]).settle(x))
			q.pace.turn()
		}
	}
	q.pace.step()
	slices.SortStableFunc(out, func(a, b *fit) int {
		return cmp.Compare(a.badness(usualScatterS), b.badness(usualScatterS))
	})
	return out
}

// motions are the courses the car may have run.
func (q *question) motions(p *building.Plan) []course {
	var out []course
	if c, ok := driven(p, q.trip.From, q.trip.To); ok {
		out = append(out, c)
	}
	return append(out, steady())
}

// begin estimates when the car set off and over how many seconds at full speed
// the trip went: from the marks as far as there are any, else from the lamps'
// middles against the heights of their landings.
func (q *question) begin(c course) (start, whole float64) {
	o := q.obs
	lost := 0.0
	if c.motion == match.Driven {
		lost = c.lostS()
	}
	if o.Depart != nil && o.Arrive != nil {
		return o.Depart.TimeS, o.Arrive.TimeS - o.Depart.TimeS - lost
	}
	slope, at := q.middles()
	if o.SpeedMS > 0 {
		slope = 1 / o.SpeedMS
	}
	whole = q.wholeM * slope
	switch {
	case o.Depart != nil:
		return o.Depart.TimeS, whole
	case o.Arrive != nil:
		return o.Arrive.TimeS - whole - lost, whole
	}
	start = at
	if c.motion == match.Driven {
		start -= c.start.wholeS - c.start.wholeX
	}
	return start, whole
}

// middles returns seconds a metre and the time at which the car passes the
// first landing, from a straight line through the middles of the lamps.
func (q *question) middles() (perM, fromS float64) {
	var d, t []float64
	lit := 0.0
	for _, l := range q.trip.Lamps {
		if len(l.On) > 0 && len(l.Off) > 0 && !l.FromEnd {
			on, off := l.On[0].TimeS, l.Off[len(l.Off)-1].TimeS
			d = append(d, math.Abs(q.heights[l.Floor]-q.fromM))
			t = append(t, (on+off)/2)
			lit = max(lit, off-on)
		}
	}
	if len(t) < 2 { // the lamps at the ends are seen half
		d, t = d[:0], t[:0]
		for _, l := range q.inOrder() {
			d = append(d, math.Abs(q.heights[l.Floor]-q.fromM))
			switch {
			case len(l.On) > 0 && len(l.Off) > 0 && !l.FromEnd:
				t = append(t, (l.On[0].TimeS+l.Off[len(l.Off)-1].TimeS)/2)
			case len(l.Off) > 0:
				t = append(t, l.Off[len(l.Off)-1].TimeS-lit/2)
			default:
				t = append(t, l.On[0].TimeS+lit/2)
			}
		}
	}
	n := float64(len(t))
	md, mt, dd, dt := 0.0, 0.0, 0.0, 0.0
	for i := range t {
		md, mt = md+d[i]/n, mt+t[i]/n
	}
	for i := range t {
		dd += (d[i] - md) * (d[i] - md)
		dt += (d[i] - md) * (t[i] - mt)
	}
	perM = dt / dd
	return perM, mt - perM*md
}

// first turns a guess into unknowns to begin with.
func (q *question) first(g *guess, start, whole float64) []float64 {
	v := q.wholeM / whole
	pitch := g.period * v
	w := (g.off - g.on) / g.period
	if !g.blinks {
		w -= float64(g.live - 1)
	}
	w = min(max(w, leastWidths), mostWidths)
	// The side of the first terminal in travel that comes first.
	first := q.fromM + q.way*(g.on*v+w*pitch/2)
	low := first
	if q.way < 0 { // that terminal is the highest of the highest lamp
		low = first - float64(g.lowest[len(g.lowest)-1]+g.live-1)*pitch
	}
	return []float64{start, v, pitch, low, w, 0, 0}
}
