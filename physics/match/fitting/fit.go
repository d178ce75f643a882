package fitting

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"wheelroom/physics/building"
	"wheelroom/physics/match"
)

// The unknowns of a fit, by their place.
const (
	startS  = iota // when the car sets off, or passes the first landing
	speedMS        // full speed
	pitchM         // from one terminal to the next
	lowestM        // the lowest terminal of the lowest lamp seen
	widths         // of brush and terminal together, pitches
	delayS         // a tap for on comes so much later than one for off
	lagS           // a tap for a lamp comes so much later than one for setting off and arriving
	unknowns
)

// What a hand can do, and what a building file allows.
const (
	usualScatterS = 0.06 // of a tap; 30 to 80 ms is common practice, no source
	usualDelayS   = 0.08 // between a tap for on and one for off: common practice, no source
	usualLagS     = 0.15 // the same, of lamps over what is felt of the car or noted otherwise
	leastPerFloor = 1.0
	mostPerFloor  = 8.0
	leastWidths   = 0.15
	mostWidths    = 2.95
	mostLive      = 8
)

// A shape is the whole numbers of a fit, and what is taken for granted.
type shape struct {
	course course
	live   int
	blinks bool  // each terminal lights the lamp by itself
	lowest []int // of each seen lamp: its lowest terminal, counted from that of the lowest lamp
}

// A question is what is known before anything is fitted.
type question struct {
	heights []float64 // of all landings
	meanM   float64   // floor height
	obs     *match.Observation
	trip    match.Trip
	fromM   float64 // where the trip begins
	wholeM  float64 // how far it goes
	way     float64 // +1 up, −1 down
	pace    *pace
}

func newQuestion(p *building.Plan, o *match.Observation) *question {
	q := &question{obs: o, trip: o.Trip(), meanM: p.TravelM() / float64(len(p.Floors)-1), way: 1, pace: &pace{}}
	for _, f := range p.Floors {
		q.heights = append(q.heights, f.HeightM)
	}
	t := &q.trip
	first, last := t.Lamps[0].Floor, t.Lamps[len(t.Lamps)-1].Floor
	if !t.Up {
		q.way = -1
		first, last = last, first
	}
	if t.From >= 0 {
		first = t.From
	}
	if t.To >= 0 && t.To != first {
		last = t.To
	}
	t.From, t.To = first, last
	q.fromM, q.wholeM = q.heights[first], math.Abs(q.heights[last]-q.heights[first])
	return q
}

// speedKnown reports whether the observer has tied seconds to metres: by both
// ends of the trip, or by a speed measured otherwise.
func (q *question) speedKnown() bool {
	return q.obs.SpeedMS > 0 || q.obs.Depart != nil && q.obs.Arrive != nil
}

// A model is the residuals of a shape, in standard deviations.
type model struct {
	*question
	shape
	scatterS float64
	slackM   float64      // of the hinges that keep the pitch
	pin      *pin         // nil: none
	marks    int          // rows of residuals before the hinges
	hard     [2]float64   // least and most widths
	edges    []placedEdge // in the order of the lamps
}

// A placedEdge is an edge and the terminal's edge that makes it: terminal
// number, and −1 or +1 for its lower or its upper side.
type placedEdge struct {
	match.Edge
	terminal float64
	side     float64
}

// A pin holds one quantity of the unknowns at a value.
type pin struct {
	of    func(x []float64, slope []float64) float64 // fills slope unless nil
	value float64
	slack float64
}

func newModel(q *question, s shape, scatterS, pitch float64) *model {
	m := &model{question: q, shape: s, scatterS: scatterS, slackM: 0.01 * pitch, hard: [2]float64{leastWidths, mostWidths}}
	switch {
	case s.blinks:
		m.hard[1] = 1
	case s.live > 1:
		m.hard[0] = 1
	}
	for i, l := range q.trip.Lamps {
		for _, on := range [...]bool{true, false} {
			list := l.Off
			if on {
				list = l.On
			}
			for n, e := range list {
				m.edges = append(m.edges, m.place(e, s.lowest[i], m.runOf(l, n, len(list), on)))
			}
		}
	}
	m.marks = len(m.edges)
	if q.obs.Depart != nil {
		m.marks++
	}
	if q.obs.Arrive != nil {
		m.marks++
	}
	if q.obs.SpeedMS > 0 {
		m.marks++
	}
	return m
}

// runOf returns which of a floor's terminals, counted in the direction of
// travel, makes the n-th of so many edges.
func (s *shape) runOf(l match.SeenLamp, n, of int, on bool) int {
	if !s.blinks {
		if on {
			return 0
		}
		return s.live - 1
	}
	if l.FromEnd {
		n += s.live - of
	}
	return min(max(n, 0), s.live-1)
}

// place finds the edge of the terminal that makes an edge of a lamp.
func (m *model) place(e match.Edge, lowest, run int) placedEdge {
	p := placedEdge{Edge: e, terminal: float64(lowest + run), side: 1}
	if m.way < 0 {
		p.terminal = float64(lowest + m.live - 1 - run)
	}
	if e.On == (m.way > 0) {
		p.side = -1
	}
	return p
}

// A bound is the least and the most an unknown can be, and how hard that is.
type bound struct {
	at            int
	lo, hi, slack float64
}

// bounds are the hinges that keep an unknown between two values.
func (m *model) bounds() [5]bound {
	return [5]bound{
		{speedMS, building.LeastSpeedMS, building.MostSpeedMS, 0.005},
		{pitchM, m.meanM / mostPerFloor, m.meanM / leastPerFloor, 0.005 * m.meanM},
		{widths, m.hard[0], m.hard[1], 0.005},
		{delayS, 0, 0, usualDelayS}, // a belief rather than a bound: hands are much the same
		{lagS, 0, 0, usualLagS},
	}
}

func (m *model) size() (int, int) {
	return m.marks + 1 + len(m.trip.Lamps) + len(m.bounds()), unknowns
}

// away returns where the model makes an edge, metres from the trip's first
// landing.
func (m *model) away(e placedEdge, x []float64) float64 {
	return m.way * (x[lowestM] + e.terminal*x[pitchM] + e.side*x[widths]*x[pitchM]/2 - m.fromM)
}

// timeOf returns when the model makes an edge, and the slopes by the unknowns.
func (m *model) timeOf(e placedEdge, x []float64, slope []float64) float64 {
	v := x[speedMS]
	away := m.away(e, x)
	t, byX, byWhole := m.course.at(away/v, m.wholeM/v)
	late := -0.5
	if e.On {
		late = 0.5
	}
	if slope != nil {
		perM := m.way * byX / v
		slope[startS] = 1
		slope[speedMS] = -(away*byX + m.wholeM*byWhole) / (v * v)
		slope[pitchM] = perM * (e.terminal + e.side*x[widths]/2)
		slope[lowestM] = perM
		slope[widths] = perM * e.side * x[pitchM] / 2
		slope[delayS], slope[lagS] = late, 1
	}
	return x[startS] + t + late*x[delayS] + x[lagS]
}

// wholeS is how long the trip lasts.
func (m *model) wholeS(x []float64) float64 {
	t, _, _ := m.course.at(m.wholeM/x[speedMS], m.wholeM/x[speedMS])
	return t
}

// fill implements system.
func (m *model) fill(x, r []float64, j *mat.Dense) {
	row := func(i int) []float64 {
		if j == nil {
			return nil
		}
		out := j.RawRowView(i)
		clear(out)
		return out
	}
	scale := func(s []float64, by float64) {
		for k := range s {
			s[k] *= by
		}
	}
	n := 0
	for _, e := range m.edges {
		s := row(n)
		r[n] = (m.timeOf(e, x, s) - e.TimeS) / m.scatterS
		scale(s, 1/m.scatterS)
		n++
	}
	if d := m.obs.Depart; d != nil {
		r[n] = (x[startS] - d.TimeS) / m.scatterS
		if s := row(n); s != nil {
			s[startS] = 1 / m.scatterS
		}
		n++
	}
	if a := m.obs.Arrive; a != nil {
		r[n] = (x[startS] + m.wholeS(x) - a.TimeS) / m.scatterS
		if s := row(n); s != nil {
			s[startS] = 1 / m.scatterS
			s[speedMS] = -m.wholeM / (x[speedMS] * x[speedMS]) / m.scatterS
		}
		n++
	}
	if m.obs.SpeedMS > 0 {
		slack := max(m.obs.SpeedErrorMS, 1e-4*m.obs.SpeedMS)
		r[n] = (x[speedMS] - m.obs.SpeedMS) / slack
		if s := row(n); s != nil {
			s[speedMS] = 1 / slack
		}
		n++
	}

	// From here on hinges: nothing while all is well.
	s := row(n)
	r[n] = 0
	if m.pin != nil {
		r[n] = (m.pin.of(x, s) - m.pin.value) / m.pin.slack
		scale(s, 1/m.pin.slack)
	}
	n++
	for i, l := range m.trip.Lamps {
		s, k := row(n), float64(m.lowest[i])
		r[n] = 0
		// The terminals joined for a landing are the nearest: their middle is
		// no more than half a pitch away.
		off := m.heights[l.Floor] - x[lowestM] - (k+float64(m.live-1)/2)*x[pitchM]
		if over := math.Abs(off) - x[pitchM]/2; over > 0 {
			side := math.Copysign(1, off)
			r[n] = over / m.slackM
			if s != nil {
				s[lowestM] = -side / m.slackM
				s[pitchM] = (-side*(k+float64(m.live-1)/2) - 0.5) / m.slackM
			}
		}
		n++
	}
	for _, b := range m.bounds() {
		s := row(n)
		r[n] = 0
		switch v := x[b.at]; {
		case v < b.lo:
			r[n] = (v - b.lo) / b.slack
		case v > b.hi:
			r[n] = (v - b.hi) / b.slack
		}
		if s != nil && r[n] != 0 {
			s[b.at] = 1 / b.slack
		}
		n++
	}
}

// steps are natural steps of the unknowns about x.
func (m *model) steps(x []float64) []float64 {
	return []float64{0.1, 0.02 * x[speedMS], 0.02 * x[pitchM], 0.1 * x[pitchM], 0.1, 0.05, 0.1}
}

// A fit is a model at its best.
type fit struct {
	shape
	x        []float64
	edgesSSE float64 // of edges and marks, s²
	hinges   float64 // what the hinges add, in standard deviations squared
	count    int     // edges and marks
	rank     int     // unknowns that can be told apart
}

// settle fits a model from x on.
func (m *model) settle(x []float64) *fit {
	sq := newSquares(m, m.steps(x))
	sq.minimise(x)
	m.fill(x, sq.r, sq.j)
	f := &fit{shape: m.shape, x: x, count: m.marks, rank: m.rank(sq.j, x)}
	f.edgesSSE = sumOfSquares(sq.r[:m.marks]) * m.scatterS * m.scatterS
	f.hinges = sumOfSquares(sq.r[m.marks:])
	return f
}

// rank counts the unknowns that edges and marks tell apart: directions in
// which half the room an unknown has would be seen.
func (m *model) rank(j *mat.Dense, x []float64) int {
	room := m.room(x)
	normal := mat.NewSymDense(unknowns, nil)
	for a := range unknowns {
		for b := a; b < unknowns; b++ {
			sum := 0.0
			for i := range m.marks {
				sum += j.At(i, a) * j.At(i, b)
			}
			normal.SetSym(a, b, sum*room[a]*room[b])
		}
	}
	var e mat.EigenSym
	if !e.Factorize(normal, false) {
		return unknowns
	}
	n := 0
	for _, v := range e.Values(nil) {
		if v > 1 {
			n++
		}
	}
	return n
}

// A hand's scatter is estimated from the residuals, together with what is
// known of hands: as much as two more edges would say.
const priorEdges = 2

// freedom is the degrees of freedom of the estimated scatter.
func (f *fit) freedom() float64 { return float64(max(f.count-f.rank, 0)) + priorEdges }

// scatter is the estimated scatter of a tap, seconds.
func (f *fit) scatter() float64 {
	return math.Sqrt((f.edgesSSE + priorEdges*usualScatterS*usualScatterS) / f.freedom())
}

// badness orders fits: the sum of squares at a given scatter.
func (f *fit) badness(scatterS float64) float64 { return f.edgesSSE/(scatterS*scatterS) + f.hinges }
