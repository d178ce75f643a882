package fitting

import (
	"math"
	"slices"
	"sort"

	"wheelroom/physics/match"
)

// A guess is a shape with the rates that the lamps show by themselves, in the
// course's own distance: lamp n comes on at on + k·period and goes out at
// off + k·period, k being the number of its first terminal in the direction of
// travel.
type guess struct {
	shape
	period, on, off float64
	misfit          float64 // root mean square, seconds at full speed
}

// guesses looks for whole numbers: for every number of terminals a floor can
// have, the terminals at which each lamp must begin, as the lamps' own times
// say; and for each of these every number of joined terminals that is
// possible. Times are first turned into distances by the course of a trip that
// sets off at start and goes over whole.
func (q *question) guesses(c course, start, whole float64) []guess {
	lamps := q.inOrder()
	runs, blinks := q.runs()
	at := func(e match.Edge) float64 { return c.inverse(e.TimeS-start, whole) }

	// How long a lamp is lit, and from that when each one begins.
	var lit []float64
	for _, l := range lamps {
		for n := range min(len(l.On), len(l.Off)) {
			if d := at(l.Off[len(l.Off)-1-n]) - at(l.On[len(l.On)-1-n]); d > 0 {
				lit = append(lit, d)
			}
		}
	}
	if len(lit) == 0 {
		return nil
	}
	slices.Sort(lit)
	usual := lit[len(lit)/2]
	begins := func(l match.SeenLamp, period float64) float64 {
		sum, n := 0.0, 0.0
		for i, e := range l.On {
			sum += at(e) - float64(runOrder(l, i, len(l.On), runs))*period
			n++
		}
		for i, e := range l.Off {
			sum += at(e) - usual - float64(runOrder(l, i, len(l.Off), runs))*period
			n++
		}
		return sum / n
	}

	// Seconds a floor, from the first lamp's begin to the last one's.
	one := begins(lamps[0], 0)
	last := begins(lamps[len(lamps)-1], 0)
	rise := math.Abs(q.heights[lamps[len(lamps)-1].Floor] - q.heights[lamps[0].Floor])
	floorS := (last - one) / rise * q.meanM
	if !(floorS > 0) {
		return nil
	}

	seen := map[string]bool{}
	var out []guess
	const steps = 300
	for i := range steps + 1 {
		if q.pace.turn(); q.pace.over() {
			break
		}
		perFloor := leastPerFloor * math.Exp2(float64(i)/steps*math.Log2(mostPerFloor/leastPerFloor))
		g := guess{period: floorS / perFloor}
		from := make([]int, len(lamps))
		for n := 1; n < len(lamps); n++ {
			from[n] = from[n-1] + max(1, int(math.Round((begins(lamps[n], g.period)-begins(lamps[n-1], g.period))/g.period)))
		}
		key := spell(from)
		if seen[key] {
			continue
		}
		seen[key] = true
		if !g.straighten(lamps, from, runs, at) {
			continue
		}
		for _, s := range g.shapes(runs, blinks) {
			s.course, s.lowest = c, q.upward(from)
			if !q.possible(s, g.period*q.meanM/floorS) {
				continue
			}
			g.shape = s
			out = append(out, g)
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].misfit < out[b].misfit })
	// What fits twice as badly as the best, and badly for any hand, is not
	// worth fitting further.
	for i, g := range out {
		if g.misfit > max(2*out[0].misfit, 0.12) || i == 24 {
			return out[:i]
		}
	}
	return out
}

// leastPhase is how many pitches a ring must have room to be shifted by and
// still join the same terminals: what fits at one place only is a coincidence.
const leastPhase = 0.003

// possible reports whether some ring with about that pitch has the shape's
// terminals nearest to the landings, by the rule of the nearest.
func (q *question) possible(s shape, pitch float64) bool {
	room := func(pitch float64) float64 {
		lo, hi := math.Inf(-1), math.Inf(1)
		for i, l := range q.trip.Lamps {
			// Where the lowest terminal would be with these in the middle.
			y := q.heights[l.Floor] - (float64(s.lowest[i])+float64(s.live-1)/2)*pitch
			lo, hi = max(lo, y-pitch/2), min(hi, y+pitch/2)
		}
		return (hi - lo) / pitch
	}
	// The room has one peak.
	lo, hi := 0.8*pitch, 1.25*pitch
	for range 40 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if room(a) < room(b) {
			lo = a
		} else {
			hi = b
		}
	}
	return room((lo+hi)/2) > leastPhase
}

// inOrder returns the lamps in the order of travel.
func (q *question) inOrder() []match.SeenLamp {
	lamps := slices.Clone(q.trip.Lamps)
	if q.way < 0 {
		slices.Reverse(lamps)
	}
	return lamps
}

// upward turns first terminals in the direction of travel into lowest
// terminals, for the lamps from the lowest up.
func (q *question) upward(from []int) []int {
	out := slices.Clone(from)
	if q.way < 0 {
		for i, k := range from {
			out[len(out)-1-i] = from[len(from)-1] - k
		}
	}
	return out
}

// runs returns how often a lamp is lit within its floor, as most lamps seen
// whole have it, and whether they blink at all.
func (q *question) runs() (n int, blinks bool) {
	votes := map[int]int{}
	for _, l := range q.trip.Lamps {
		if !l.FromEnd && len(l.On) == len(l.Off) {
			votes[len(l.On)]++
		}
	}
	n = 1
	for r := 2; r <= mostLive; r++ {
		if votes[r] > votes[n] {
			n = r
		}
	}
	return n, n > 1
}

// runOrder is shape.runOf for lamps whose every run is seen.
func runOrder(l match.SeenLamp, n, of, runs int) int {
	if l.FromEnd {
		n += runs - of
	}
	return min(max(n, 0), runs-1)
}

func spell(numbers []int) string {
	b := make([]byte, 0, 3*len(numbers))
	for _, n := range numbers {
		b = append(b, byte(n), byte(n>>8), ',')
	}
	return string(b)
}

// straighten fits period, on and off to the lamps' edges by least squares;
// false where the edges do not determine them.
func (g *guess) straighten(lamps []match.SeenLamp, from []int, runs int, at func(match.Edge) float64) bool {
	type point struct {
		k, x float64
		on   bool
	}
	var points []point
	for i, l := range lamps {
		for n, e := range l.On {
			points = append(points, point{float64(from[i] + runOrder(l, n, len(l.On), runs)), at(e), true})
		}
		for n, e := range l.Off {
			points = append(points, point{float64(from[i] + runOrder(l, n, len(l.Off), runs)), at(e), false})
		}
	}
	// A common slope within the two groups: means first, then the slope.
	var k, x, n [2]float64
	group := func(on bool) int {
		if on {
			return 1
		}
		return 0
	}
	for _, p := range points {
		i := group(p.on)
		k[i], x[i], n[i] = k[i]+p.k, x[i]+p.x, n[i]+1
	}
	if n[0] == 0 || n[1] == 0 {
		return false
	}
	var kk, kx float64
	for _, p := range points {
		i := group(p.on)
		dk := p.k - k[i]/n[i]
		kk += dk * dk
		kx += dk * (p.x - x[i]/n[i])
	}
	if kk == 0 || !(kx > 0) {
		return false
	}
	g.period = kx / kk
	g.off, g.on = (x[0]-g.period*k[0])/n[0], (x[1]-g.period*k[1])/n[1]
	sum := 0.0
	for _, p := range points {
		want := g.off
		if p.on {
			want = g.on
		}
		d := p.x - want - p.k*g.period
		sum += d * d
	}
	g.misfit = math.Sqrt(sum / float64(len(points)))
	return true
}

// shapes returns every number of joined terminals for which brush and terminal
// come out as wide as they can be, a hand's delay allowed for.
func (g *guess) shapes(runs int, blinks bool) []shape {
	lit, slack := (g.off-g.on)/g.period, 3*usualDelayS/g.period
	if blinks {
		return []shape{{live: runs, blinks: true}}
	}
	var out []shape
	for live := 1; live <= mostLive; live++ {
		least := leastWidths
		if live > 1 {
			least = 1 // else the lamp would blink
		}
		if w := lit - float64(live-1); w > least-slack && w < mostWidths+slack {
			out = append(out, shape{live: live})
		}
	}
	return out
}
