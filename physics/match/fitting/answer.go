package fitting

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"wheelroom/physics/building"
	"wheelroom/physics/match"
)

// How well a fit must do.
const (
	mostScatterS   = 0.12 // a worse hand is no hand: common practice, no source
	mostHinges     = 9.0  // standard deviations squared
	alike          = 6.0  // growth of the sum of squares that rules a ring out, and
	even           = 2.0  // one that is no reason to prefer another
	clumsyS        = 0.08 // scatter from which on one lamp may be to blame
	doubtfulS      = 0.2  // an edge further out than this is looked into,
	oddS           = 0.3  // one further out than this, and
	oddChance      = 1e-5 // than a hand would be once in so many, is another ring's
	sameShare      = 0.15 // by which terminals per floor may differ within one answer
	mostAside      = 3    // lamps; more that contradict are no panel of this ring
	leastForOthers = 3    // lamps that must be left when some are put aside
)

// sameRing reports whether two fits have the same number of terminals, as far
// as can be judged; they may still join different numbers of them.
func sameRing(a, b *fit) bool {
	return a.blinks == b.blinks && math.Abs(math.Log(a.x[pitchM]/b.x[pitchM])) < sameShare
}

func (f *fit) good() bool { return f.scatter() <= mostScatterS && f.hinges <= mostHinges }

// Match fits a ring to an observation that Read or Check has passed.
func Match(p *building.Plan, o *match.Observation) *match.Result { return newQuestion(p, o).answer(p) }

func (q *question) answer(p *building.Plan) *match.Result {
	q.pace.foresee(2) // of all lamps, and of the intervals
	o := q.obs
	motions := q.motions(p)
	q.pace.turn()
	fits, aside := q.explain(motions)
	if q.pace.over() {
		return nil
	}
	r := &match.Result{Plan: p, Observation: o, From: q.trip.From, To: q.trip.To, SpeedKnown: q.speedKnown(), Unexplained: aside}
	if len(fits) == 0 {
		r.Verdict = match.None
		for _, l := range q.trip.Lamps {
			r.Unexplained = append(r.Unexplained, l.Floor)
		}
		lay(r, nil)
		return r
	}
	seen := q
	if len(aside) > 0 {
		left := *q
		left.trip = q.trip.Without(aside...)
		seen = &left
	}
	kept := alikeFits(fits)
	main := choose(kept, p, seen.meanM)
	scatter := main.scatter()

	r.Motion, r.Live, r.Blinks, r.ScatterS = main.course.motion, main.live, main.blinks, scatter
	family, others := ofRing(kept, main)
	all := []match.Quantity{match.TerminalsPerFloor, match.TerminalsPerS, match.FirstTerminalM, match.Widths, match.SpeedMS, match.StartS, match.DelayS}
	r.Unknowns = seen.unknownsOf(joining(family, main.live), main, scatter, all)
	r.Joinings = seen.joinings(family, main, scatter)
	for len(others) > 0 {
		first := choose(others, p, seen.meanM)
		same, rest := ofRing(others, first)
		r.Others = append(r.Others, match.Other{
			Unknowns: seen.unknownsOf(same, first, scatter, []match.Quantity{match.TerminalsPerFloor, match.TerminalsPerS, match.SpeedMS}),
			Joinings: seen.joinings(same, first, scatter),
		})
		others = rest
	}
	r.Pairs = seen.pairs(main, scatter, r)
	for i, u := range r.Unknowns {
		tied := slices.ContainsFunc(r.Pairs, func(p match.Pair) bool { return p.A == u.Quantity || p.B == u.Quantity })
		r.Unknowns[i].Told = u.Told && !tied
	}
	switch {
	case !r.Good():
		r.Verdict = match.None
	case !r.SpeedKnown:
		r.Verdict = match.Set
	case len(r.Others) > 0:
		r.Verdict = match.Several
	}
	ring := newBeside(r, q, seen, main)
	r.Edges = ring.observed()
	r.Selector = seen.selector(p, main)
	q.pace.step()
	r.File = compare(p, q, motions)
	lay(r, ring)
	return r
}

// explain fits all lamps or, where one ring cannot explain them all, as many as
// it can; it returns the fits and the floors put aside.
func (q *question) explain(motions []course) (fits []*fit, aside []int) {
	fits = q.fits(motions)
	whole := len(fits) > 0 && fits[0].good()
	if whole && fits[0].scatter() < clumsyS && !q.suspicious(fits[0], doubtfulS) {
		return fits, nil
	}
	// Put one lamp aside after another: each time the one without which the
	// rest fits best. It counts if every lamp put aside is then truly out of step.
	left := *q
	for len(left.trip.Lamps) > leastForOthers && len(aside) < min(len(q.trip.Lamps)/3, mostAside) {
		q.pace.foresee(len(left.trip.Lamps))
		best, who := left.bestWithout(motions)
		if best == nil {
			break
		}
		aside = append(aside, who)
		left.trip = left.trip.Without(who)
		if best[0].good() && !left.suspicious(best[0], oddS) && q.contradict(&left, best[0], aside) {
			slices.Sort(aside)
			return best, aside
		}
	}
	if whole {
		return fits, nil
	}
	return nil, nil
}

// bestWithout fits the trip without each lamp in turn and returns the fits of
// the lamps that are best without one, and which that is; nil where none can be
// spared.
func (q *question) bestWithout(motions []course) (best []*fit, who int) {
	for _, l := range q.trip.Lamps {
		try := *q
		try.trip = q.trip.Without(l.Floor)
		if !try.enough() {
			q.pace.step()
			continue
		}
		if f := try.fits(motions); len(f) > 0 && (best == nil || f[0].badness(usualScatterS) < best[0].badness(usualScatterS)) {
			best, who = f, l.Floor
		}
	}
	return best, who
}

// enough reports whether the lamps left can still show a ring.
func (q *question) enough() bool {
	whole := 0
	for _, l := range q.trip.Lamps {
		whole += min(len(l.On), len(l.Off))
	}
	return whole > 0 && q.trip.Edges() > match.LeastEdges && len(q.trip.Lamps) >= 2
}

// suspicious reports whether some edge is out by more than a limit, and too
// far for the others.
func (q *question) suspicious(f *fit, limitS float64) bool {
	m := newModel(q, f.shape, usualScatterS, f.x[pitchM])
	for _, e := range m.edges {
		if d := math.Abs(e.TimeS - m.timeOf(e, f.x, nil)); d > limitS && d > 2.5*f.scatter() {
			return true
		}
	}
	return false
}

// contradict reports whether the lamps of all the floors put aside are indeed
// out of step with the ring that explains the others.
func (q *question) contradict(left *question, f *fit, aside []int) bool {
	m := newModel(left, f.shape, usualScatterS, f.x[pitchM])
	limit := max(oddS, f.scatter()*distuv.StudentsT{Sigma: 1, Nu: f.freedom()}.Quantile(1-oddChance))
	for _, l := range q.trip.Lamps {
		if !slices.Contains(aside, l.Floor) {
			continue
		}
		odd := false
		for _, e := range m.edgesOf(l, f.x) {
			odd = odd || math.Abs(e.TimeS-m.timeOf(e, f.x, nil)) > limit
		}
		if !odd {
			return false
		}
	}
	return true
}

// lowestOf returns the lowest of the terminals that are nearest to a landing.
func (m *model) lowestOf(floor int, x []float64) int {
	return int(math.Ceil((m.heights[floor]-x[lowestM])/x[pitchM] - float64(m.live)/2 - 1e-9))
}

// edgesOf places the edges of a lamp that the shape does not have, at the
// terminals nearest to its landing.
func (m *model) edgesOf(l match.SeenLamp, x []float64) []placedEdge {
	lowest := m.lowestOf(l.Floor, x)
	var out []placedEdge
	for n, e := range l.On {
		out = append(out, m.place(e, lowest, m.runOf(l, n, len(l.On), true)))
	}
	for n, e := range l.Off {
		out = append(out, m.place(e, lowest, m.runOf(l, n, len(l.Off), false)))
	}
	return out
}

// alikeFits keeps the fits that are no worse than the best for any reason a
// hand's scatter would not explain.
func alikeFits(fits []*fit) []*fit {
	scatter := fits[0].scatter()
	var out []*fit
	for _, f := range fits {
		if f.badness(scatter) <= fits[0].badness(scatter)+alike && f.hinges <= mostHinges+fits[0].hinges {
			out = append(out, f)
		}
	}
	return out
}

// ofRing parts the fits of one fit's ring from the rest.
func ofRing(fits []*fit, one *fit) (same, rest []*fit) {
	for _, f := range fits {
		if sameRing(f, one) {
			same = append(same, f)
		} else {
			rest = append(rest, f)
		}
	}
	return same, rest
}

// choose picks the fit to speak of first: the best, or where the data leave the
// choice the one nearest to the building file, and a car that was driven.
func choose(fits []*fit, p *building.Plan, meanM float64) *fit {
	s := &p.Selector
	strange := func(f *fit) float64 {
		n := min(1, math.Abs(f.x[widths]-s.TerminalWidth-s.BrushWidth)) // below any of the others
		add := func(yes bool, weight float64) {
			if yes {
				n += weight
			}
		}
		add(math.Abs(math.Log(meanM/f.x[pitchM]/s.TerminalsPerFloor)) > sameShare, 16)
		add(f.live != s.LiveTerminals, 8)
		add(!f.blinks && f.x[widths] > 2, 4)
		add(f.course.motion != match.Driven, 2)
		return n
	}
	best := fits[0]
	scatter := fits[0].scatter()
	for _, f := range fits[1:] {
		if f.badness(scatter) > fits[0].badness(scatter)+even {
			continue
		}
		if strange(f) < strange(best)-1e-3 { // else the better fit, which comes first
			best = f
		}
	}
	return best
}

// unknownsOf returns the intervals of some quantities, over all the fits of one
// ring.
func (q *question) unknownsOf(family []*fit, main *fit, scatter float64, which []match.Quantity) []match.Unknown {
	var out []match.Unknown
	for _, quantity := range which {
		if quantity == match.StartS && main.course.motion == match.Steady && q.obs.Depart == nil {
			continue // where a car is passing by, nothing starts
		}
		var sum match.Unknown
		for i, f := range family {
			m := newModel(q, f.shape, scatter, f.x[pitchM])
			of := firstTerminal(m.below(f.x))
			if quantity != match.FirstTerminalM {
				of = m.of(quantity)
			}
			u := m.unknown(f, quantity, of)
			if i == 0 {
				sum = u
			}
			sum.Low, sum.High = min(sum.Low, u.Low), max(sum.High, u.High)
			sum.Told = sum.Told && u.Told
			if f == main {
				sum.Value = u.Value
			}
		}
		if !q.speedKnown() && (quantity == match.TerminalsPerFloor || quantity == match.SpeedMS || quantity == match.FirstTerminalM) {
			sum.Told = false
		}
		out = append(out, sum)
	}
	return out
}

// joining returns the fits with so many joined terminals.
func joining(fits []*fit, live int) []*fit {
	var out []*fit
	for _, f := range fits {
		if f.live == live {
			out = append(out, f)
		}
	}
	return out
}

// joinings returns the numbers of joined terminals among fits of one ring, that
// of main first.
func (q *question) joinings(fits []*fit, main *fit, scatter float64) []match.Joining {
	out := []match.Joining{{Live: main.live}}
	for live := mostLive; live > 0; live-- {
		if live != main.live && len(joining(fits, live)) > 0 {
			out = append(out, match.Joining{Live: live})
		}
	}
	for i := range out {
		same := joining(fits, out[i].Live)
		best := same[0]
		if i == 0 {
			best = main
		}
		out[i].Widths = q.unknownsOf(same, best, scatter, []match.Quantity{match.Widths})[0]
	}
	return out
}

// pairs returns the pairs of unknowns that the data show together only: given
// the one, the other is known far better than without. Two that have intervals
// of their own, both from the data, are none, however they go together: a speed
// measured to some hundredths bounds itself and the terminals a floor.
func (q *question) pairs(f *fit, scatter float64, r *match.Result) []match.Pair {
	m := newModel(q, f.shape, scatter, f.x[pitchM])
	cov, ok := m.spread(f)
	if !ok {
		return nil
	}
	of := [unknowns]match.Quantity{startS: match.StartS, speedMS: match.SpeedMS, pitchM: match.TerminalsPerFloor, lowestM: match.FirstTerminalM, widths: match.Widths, delayS: match.DelayS}
	const tied = 0.97
	room := m.room(f.x)
	// Of what is bounded the data say far more than is believed beforehand.
	bounded := func(i int) bool { return r.Of(of[i]).Told && cov.At(i, i) < room[i]*room[i]/4 }
	var out []match.Pair
	for a := range lagS { // which is nobody's question
		for b := a + 1; b < lagS; b++ {
			if math.Abs(cov.At(a, b)) > tied*math.Sqrt(cov.At(a, a)*cov.At(b, b)) && !(bounded(a) && bounded(b)) {
				out = append(out, match.Pair{A: of[a], B: of[b]})
			}
		}
	}
	return out
}

// selector is the plan's with the fitted ring in it, to be tried on the bench.
func (q *question) selector(p *building.Plan, f *fit) building.Selector {
	s := p.Selector
	m := newModel(q, f.shape, usualScatterS, f.x[pitchM])
	first := f.x[lowestM] - m.below(f.x)*f.x[pitchM]
	s.TerminalsPerFloor, s.LiveTerminals, s.FirstTerminalM, s.Joins = q.meanM/f.x[pitchM], f.live, &first, nil
	// What is fitted is the sum; the terminal keeps its width where it can.
	s.TerminalWidth = min(s.TerminalWidth, max(f.x[widths]-0.05, 0.1))
	s.BrushWidth = f.x[widths] - s.TerminalWidth
	return s
}
