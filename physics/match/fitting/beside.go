package fitting

import (
	"cmp"
	"math"
	"slices"

	"wheelroom/physics/building"
	"wheelroom/physics/match"
	"wheelroom/physics/selector"
)

// edges lays every edge of the observation beside the ring.
func edges(r *match.Result, q, seen *question, f *fit) []match.FitEdge {
	m := newModel(seen, f.shape, r.ScatterS, f.x[pitchM])
	modelled := map[int]float64{}
	used := map[int]bool{}
	for _, e := range m.edges {
		modelled[e.Row], used[e.Row] = m.timeOf(e, f.x, nil), true
	}
	for _, l := range q.trip.Lamps {
		if slices.Contains(r.Unexplained, l.Floor) {
			for _, e := range m.edgesOf(l, f.x) {
				modelled[e.Row] = m.timeOf(e, f.x, nil)
			}
		}
	}
	out := make([]match.FitEdge, 0, len(r.Observation.Edges))
	for _, e := range r.Observation.Edges {
		at, has := modelled[e.Row]
		if !has {
			at = math.NaN()
		}
		out = append(out, match.FitEdge{Edge: e, ModelS: at, ResidualS: e.TimeS - at, Used: used[e.Row]})
	}
	return out
}

// traces returns when each floor's lamp is lit, as observed and as fitted.
func traces(r *match.Result) [][2][]match.Interval {
	out := make([][2][]match.Interval, len(r.Plan.Floors))
	add := func(floor, which int, timeS float64, on bool) {
		list := &out[floor][which]
		if on {
			*list = append(*list, match.Interval{OnS: timeS, OffS: math.Inf(1)})
			return
		}
		if n := len(*list); n > 0 && math.IsInf((*list)[n-1].OffS, 1) {
			(*list)[n-1].OffS = timeS
			return
		}
		*list = append(*list, match.Interval{OnS: math.Inf(-1), OffS: timeS})
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
	slices.SortStableFunc(fitted, func(a, b match.FitEdge) int { return cmp.Compare(a.ModelS, b.ModelS) })
	for _, e := range fitted {
		add(e.Floor, 1, e.ModelS, e.On)
	}
	return out
}

// compare lays the file's own ring beside the lamps under the motion that suits
// it best; nil where the car cannot be placed.
func compare(p *building.Plan, q *question, motions []course) *match.Comparison {
	ring, _ := selector.NewRing(p)
	var best *match.Comparison
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
		best = &match.Comparison{Motion: c.motion, StartS: x[0], SpeedMS: x[1], RootS: root, Missing: missing, Lamps: f.lamps(ring, x)}
		for _, e := range f.edges {
			best.MostS = max(best.MostS, math.Abs(f.timeOf(e.awayM, x)-e.timeS))
		}
	}
	return best
}
