package fitting

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"wheelroom/physics/match"
)

// confidence of the intervals given.
const confidence = 0.97

// of returns a quantity as a function of the unknowns.
func (m *model) of(q match.Quantity) func(x, slope []float64) float64 {
	coordinate := func(i int) func(x, slope []float64) float64 {
		return func(x, slope []float64) float64 {
			if slope != nil {
				slope[i] = 1
			}
			return x[i]
		}
	}
	switch q {
	case match.TerminalsPerFloor:
		return func(x, slope []float64) float64 {
			if slope != nil {
				slope[pitchM] = -m.meanM / (x[pitchM] * x[pitchM])
			}
			return m.meanM / x[pitchM]
		}
	case match.TerminalsPerS:
		return func(x, slope []float64) float64 {
			if slope != nil {
				slope[speedMS] = 1 / x[pitchM]
				slope[pitchM] = -x[speedMS] / (x[pitchM] * x[pitchM])
			}
			return x[speedMS] / x[pitchM]
		}
	case match.Widths:
		return coordinate(widths)
	case match.SpeedMS:
		return coordinate(speedMS)
	case match.StartS:
		return coordinate(startS)
	case match.DelayS:
		return coordinate(delayS)
	}
	panic("match: " + q.String() + " needs the place of the lowest landing's terminals")
}

// firstTerminal returns where terminal 0 stands, if the lowest landing's
// terminals are so many below those of the lowest lamp seen.
func firstTerminal(below float64) func(x, slope []float64) float64 {
	return func(x, slope []float64) float64 {
		if slope != nil {
			slope[lowestM], slope[pitchM] = 1, -below
		}
		return x[lowestM] - below*x[pitchM]
	}
}

// below returns how many terminals below those of the lowest lamp seen the
// lowest landing's begin, by the rule of the nearest.
func (m *model) below(x []float64) float64 {
	return -math.Ceil(-x[lowestM]/x[pitchM] - float64(m.live)/2 - 1e-9)
}

// unknown finds the interval of a quantity by its profile: the quantity is
// pinned further and further from its best value, all else fitted anew, until
// the sum of squares has grown by what Student's distribution allows.
func (m *model) unknown(f *fit, q match.Quantity, of func(x, slope []float64) float64) match.Unknown {
	u := match.Unknown{Quantity: q, Value: of(f.x, nil), Told: true}
	if m.pace.over() {
		u.Low, u.High = u.Value, u.Value
		return u
	}
	allowed := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: f.freedom()}.Quantile((1 + confidence) / 2)
	allowed *= allowed
	best := f.badness(m.scatterS)
	guess := m.deviation(f, of)
	for _, side := range [...]float64{-1, 1} {
		at, free := m.profile(f, of, u.Value, side*guess, best, allowed)
		if side < 0 {
			u.Low = at
		} else {
			u.High = at
		}
		u.Told = u.Told && !free
	}
	// The hinges give a little.
	for _, b := range m.bounds() {
		if b.at == speedMS && q == match.SpeedMS || b.at == widths && q == match.Widths {
			u.Low, u.High = max(u.Low, min(b.lo, u.Value)), min(u.High, max(b.hi, u.Value))
		}
	}
	return u
}

// deviation guesses the standard deviation of a quantity from the slopes at
// the best fit.
func (m *model) deviation(f *fit, of func(x, slope []float64) float64) float64 {
	slope := make([]float64, unknowns)
	of(f.x, slope)
	sum := 0.0
	if cov, ok := m.spread(f); ok {
		v := mat.NewVecDense(unknowns, slope)
		sum = mat.Inner(v, cov, v)
	}
	// Never so small that nothing would be seen, nor beyond what can be.
	least, most := 0.0, 0.0
	for i, s := range m.steps(f.x) {
		least = max(least, 1e-3*math.Abs(slope[i])*s)
		most = max(most, 5*math.Abs(slope[i])*s)
	}
	return min(max(math.Sqrt(sum), least), most)
}

// spread is the covariance of the unknowns at the best fit, each with a weak
// belief in the room it has, so that what the data do not tell stays finite.
func (m *model) spread(f *fit) (*mat.SymDense, bool) {
	rows, _ := m.size()
	r, j := make([]float64, rows), mat.NewDense(rows, unknowns, nil)
	m.fill(f.x, r, j)
	room := m.room(f.x)
	normal := mat.NewSymDense(unknowns, nil)
	for a := range unknowns {
		for b := a; b < unknowns; b++ {
			sum := 0.0
			for i := range m.marks {
				sum += j.At(i, a) * j.At(i, b) * room[a] * room[b]
			}
			if a == b {
				sum++
			}
			normal.SetSym(a, b, sum)
		}
	}
	var c mat.Cholesky
	out := mat.NewSymDense(unknowns, nil)
	if !c.Factorize(normal) || c.InverseTo(out) != nil {
		return nil, false
	}
	for a := range unknowns {
		for b := a; b < unknowns; b++ {
			out.SetSym(a, b, out.At(a, b)*room[a]*room[b])
		}
	}
	return out, true
}

// profile walks from the best value by steps, the first of them given, to where
// the sum of squares has grown by allowed, and returns the value there. free
// says that bounds held it rather than the data.
func (m *model) profile(f *fit, of func(x, slope []float64) float64, value, step, best, allowed float64) (at float64, free bool) {
	scratch := newSquares(m, m.steps(f.x))
	x := append([]float64(nil), f.x...)
	grown := func(v float64) float64 {
		m.pace.turn()
		m.pin = &pin{of: of, value: v, slack: math.Abs(step) * 1e-4}
		defer func() { m.pin = nil }()
		return scratch.minimise(x) - best
	}
	lo, hi := 0.0, 1.0
	glo, ghi := 0.0, 0.0
	for range 12 {
		if ghi = grown(value + hi*step); ghi >= allowed {
			break
		}
		lo, glo = hi, max(ghi, 0)
		hi *= 2
	}
	if ghi < allowed {
		return value + hi*step, true
	}
	// The root of the growth is nearly straight.
	for range 12 {
		a, b, c := math.Sqrt(glo), math.Sqrt(ghi), math.Sqrt(allowed)
		mid := lo + (hi-lo)*min(max((c-a)/(b-a), 0.1), 0.9)
		g := grown(value + mid*step)
		if g < allowed {
			lo, glo = mid, max(g, 0)
		} else {
			hi, ghi = mid, g
		}
		if math.Abs(g-allowed) < 0.01*allowed || hi-lo < 1e-3*hi {
			break
		}
	}
	at = value + (lo+hi)/2*step
	if grown(at) > 2*allowed {
		// A wall: beyond it everything is strained, so look at this side of it.
		copy(x, f.x)
		grown(value + lo*step)
	}
	m.fill(x, scratch.r, nil)
	// Held by the bounds of an unknown, not by what was seen. The lag stands
	// last; it only widens where the ring may stand.
	rows := len(scratch.r)
	held := sumOfSquares(scratch.r[rows-len(m.bounds()) : rows-1])
	return at, held > allowed/3
}

// room is how far each unknown can reasonably be out.
func (m *model) room(x []float64) []float64 {
	return []float64{1, 0.3 * x[speedMS], 0.3 * x[pitchM], 0.5 * x[pitchM], 0.5, usualDelayS, usualLagS}
}
