package match

import (
	"cmp"
	"math"
	"slices"

	"wheelroom/physics/building"
	"wheelroom/physics/lamp"
	"wheelroom/physics/selector"
)

// An Interval is a time during which a lamp is lit, seconds as observed; one
// that began before the observer did, or lasts longer, has an infinite end.
type Interval struct{ OnS, OffS float64 }

// A Comparison lays the building file's own ring beside the lamps, with
// nothing fitted but the speed and the start.
type Comparison struct {
	Motion  Motion
	SpeedMS float64
	StartS  float64
	RootS   float64 // root mean square of the residuals
	MostS   float64 // the largest residual
	Missing int     // edges that the file's ring does not have at all
	Lamps   [][]Interval
}

// fittedEdges lays every edge of the observation beside the ring.
func (r *Result) fittedEdges(q, seen *question, f *fit) {
	m := newModel(seen, f.shape, r.ScatterS, f.x[pitchM])
	modelled := map[int]float64{}
	used := map[int]bool{}
	for _, e := range m.edges {
		modelled[e.Row], used[e.Row] = m.timeOf(e, f.x, nil), true
	}
	for _, l := range q.trip.lamps {
		if slices.Contains(r.Unexplained, l.floor) {
			for _, e := range m.edgesOf(l, f.x) {
				modelled[e.Row] = m.timeOf(e, f.x, nil)
			}
		}
	}
	for _, e := range r.Observation.Edges {
		at, has := modelled[e.Row]
		if !has {
			at = math.NaN()
		}
		r.Edges = append(r.Edges, FitEdge{Edge: e, ModelS: at, ResidualS: e.TimeS - at, Used: used[e.Row]})
	}
}

// traces returns when each floor's lamp is lit, as observed and as fitted.
func (r *Result) traces() [][2][]Interval {
	out := make([][2][]Interval, len(r.Plan.Floors))
	add := func(floor, which int, timeS float64, on bool) {
		list := &out[floor][which]
		if on {
			*list = append(*list, Interval{timeS, math.Inf(1)})
			return
		}
		if n := len(*list); n > 0 && math.IsInf((*list)[n-1].OffS, 1) {
			(*list)[n-1].OffS = timeS
			return
		}
		*list = append(*list, Interval{math.Inf(-1), timeS})
	}
	for _, e := range r.Observation.Edges {
		add(e.Floor, 0, e.TimeS, e.On)
	}
	fitted := slices.Clone(r.Edges)
	for i, e := range fitted {
		if math.IsNaN(e.ModelS) {
			fitted[i].ModelS = e.TimeS // lit when the observer began
		}
	}
	slices.SortStableFunc(fitted, func(a, b FitEdge) int { return cmp.Compare(a.ModelS, b.ModelS) })
	for _, e := range fitted {
		add(e.Floor, 1, e.ModelS, e.On)
	}
	return out
}

// compare lays the file's own ring beside the lamps under the motion that suits
// it best; nil where the car cannot be placed.
func compare(p *building.Plan, q *question, motions []course) *Comparison {
	ring, _ := selector.NewRing(p)
	var best *Comparison
	for _, c := range motions {
		start, whole := q.begin(c)
		if !(whole > 0) {
			continue
		}
		f := &fileRing{question: q, course: c}
		missing := f.gather(ring)
		if len(f.edges) < 2 {
			continue
		}
		x := []float64{start, q.wholeM / whole}
		sum := newSquares(f, []float64{0.1, 0.02 * x[1]}).minimise(x)
		n := float64(len(f.edges) + 3)
		root := usualScatterS * math.Sqrt(sum/n)
		if best != nil && best.RootS <= root {
			continue
		}
		best = &Comparison{Motion: c.motion, StartS: x[0], SpeedMS: x[1], RootS: root, Missing: missing, Lamps: f.lamps(ring, x)}
		for _, e := range f.edges {
			best.MostS = max(best.MostS, math.Abs(f.timeOf(e.awayM, x)-e.timeS))
		}
	}
	return best
}

// Brightness returns how bright each floor's lamp is at an instant of the
// observation, as seen or as fitted: a panel to be watched beside another.
func (r *Result) Brightness(fitted bool, l lamp.Lamp, timeS float64) []float64 {
	out := make([]float64, len(r.Lamps))
	which := 0
	if fitted {
		which = 1
	}
	for f, traces := range r.Lamps {
		var changes []float64
		for _, lit := range traces[which] {
			// What has no beginning was lit for long before.
			changes = append(changes, max(lit.OnS, -longestS))
			if !math.IsInf(lit.OffS, 1) {
				changes = append(changes, lit.OffS)
			}
		}
		out[f] = l.At(changes, timeS)
	}
	return out
}
