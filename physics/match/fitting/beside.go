package fitting

import (
	"math"
	"slices"

	"wheelroom/physics/building"
	"wheelroom/physics/match"
	"wheelroom/physics/selector"
)

// beside is a fitted ring to be laid beside the lamps.
type beside struct {
	*model
	x       []float64
	placed  []placedEdge // every observed edge that the ring has
	fromS   float64      // the first and the last instant that was noted
	untilS  float64
	rests   [2]bool // the car stands before it sets off, after it arrives
	begun   []int   // floors whose lamps were lit when the observer began
	lowests []int   // of each floor, its lowest terminal
}

func newBeside(r *match.Result, q, seen *question, f *fit) *beside {
	b := &beside{model: newModel(seen, f.shape, r.ScatterS, f.x[pitchM]), x: f.x, fromS: math.Inf(1), untilS: math.Inf(-1)}
	b.placed = slices.Clone(b.edges)
	for _, l := range q.trip.Lamps {
		if slices.Contains(r.Unexplained, l.Floor) {
			b.placed = append(b.placed, b.edgesOf(l, f.x)...)
		}
		if l.FromEnd {
			b.begun = append(b.begun, l.Floor)
		}
	}
	for floor := range b.heights {
		b.lowests = append(b.lowests, b.lowestOf(floor, f.x))
	}
	for i, l := range seen.trip.Lamps {
		b.lowests[l.Floor] = f.lowest[i]
	}
	note := func(timeS float64) { b.fromS, b.untilS = min(b.fromS, timeS), max(b.untilS, timeS) }
	for _, e := range b.obs.Edges {
		note(e.TimeS)
	}
	for i, mark := range [...]*match.Mark{b.obs.Depart, b.obs.Arrive} {
		b.rests[i] = mark != nil || b.course.motion == match.Driven
		if mark != nil {
			note(mark.TimeS)
		}
	}
	return b
}

// observed returns every edge of the observation with what the ring makes of it.
func (b *beside) observed() []match.FitEdge {
	modelled := map[int]float64{}
	for _, e := range b.placed {
		modelled[e.Row] = b.timeOf(e, b.x, nil)
	}
	used := map[int]bool{}
	for _, e := range b.edges {
		used[e.Row] = true
	}
	out := make([]match.FitEdge, 0, len(b.obs.Edges))
	for _, e := range b.obs.Edges {
		at, has := modelled[e.Row]
		if !has {
			at = math.NaN()
		}
		out = append(out, match.FitEdge{Edge: e, ModelS: at, ResidualS: e.TimeS - at, Used: used[e.Row]})
	}
	return out
}

// lit returns when the ring lights a floor's lamp within the observed time,
// whether anybody saw it or not. What was lit when the observer began begins
// then; what is still lit at the end has none.
func (b *beside) lit(floor int) []match.Interval {
	var out []match.Interval
	for run := range b.live {
		first, last := run, run
		if !b.blinks { // one terminal after the other, without a break
			if first, last = 0, b.live-1; run > 0 {
				break
			}
		}
		on := b.place(match.Edge{Floor: floor, On: true}, b.lowests[floor], first)
		off := b.place(match.Edge{Floor: floor}, b.lowests[floor], last)
		lit := match.Interval{OnS: b.timeOf(on, b.x, nil), OffS: b.timeOf(off, b.x, nil)}
		onEarly, onLate := b.outside(on, lit.OnS)
		offEarly, offLate := b.outside(off, lit.OffS)
		if onLate || offEarly {
			continue
		}
		if offLate {
			lit.OffS = math.Inf(1)
		}
		if onEarly {
			lit.OnS = min(b.fromS, lit.OffS)
		}
		if lit.OnS < lit.OffS {
			out = append(out, lit)
		}
	}
	return out
}

// outside reports whether the ring makes an edge before anything was noted or
// after all was: nobody did note it then.
func (b *beside) outside(e placedEdge, timeS float64) (early, late bool) {
	if slices.ContainsFunc(b.placed, func(p placedEdge) bool {
		return p.Floor == e.Floor && p.terminal == e.terminal && p.side == e.side
	}) {
		return false, false
	}
	away := b.away(e, b.x)
	early = timeS < b.fromS || b.rests[0] && away < 0 || e.On && slices.Contains(b.begun, e.Floor)
	return early, timeS > b.untilS || b.rests[1] && away > b.wholeM
}

// seenLamps returns when each floor's lamp was seen lit.
func seenLamps(floors int, o *match.Observation) [][]match.Interval {
	out := make([][]match.Interval, floors)
	for _, e := range o.Edges {
		list := &out[e.Floor]
		if e.On {
			*list = append(*list, match.Interval{OnS: e.TimeS, OffS: math.Inf(1)})
		} else if n := len(*list); n > 0 { // what goes out has been on: Check sees to it
			(*list)[n-1].OffS = e.TimeS
		}
	}
	return out
}

// lay puts the lamps as seen and as fitted beside each other, and names those
// between two seen ones that the ring lights and nobody saw. The ring is nil
// where none fits.
func lay(r *match.Result, ring *beside) {
	seen := seenLamps(len(r.Plan.Floors), r.Observation)
	r.Lamps = make([][2][]match.Interval, len(seen))
	lowest, highest := len(seen), -1
	for floor := range seen {
		r.Lamps[floor][0] = seen[floor]
		if ring != nil {
			r.Lamps[floor][1] = ring.lit(floor)
		}
		if len(seen[floor]) > 0 {
			lowest, highest = min(lowest, floor), floor
		}
	}
	for floor := lowest + 1; floor < highest; floor++ {
		if len(seen[floor]) == 0 && len(r.Lamps[floor][1]) > 0 {
			r.Unseen = append(r.Unseen, floor)
		}
	}
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
