package fitting

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// A system is what least squares are taken of: at x it fills in the residuals
// and their slopes, row by row. Its size does not change.
type system interface {
	size() (residuals, unknowns int)
	fill(x, residuals []float64, slopes *mat.Dense)
}

// A squares minimises the sum of squared residuals by the method of Levenberg
// and Marquardt; it keeps its storage between searches.
type squares struct {
	sys        system
	scale      []float64 // a natural step of each unknown
	r, try     []float64
	j          *mat.Dense
	normal     *mat.SymDense
	damped     *mat.SymDense
	slope      *mat.VecDense
	move       *mat.VecDense
	triangle   mat.Cholesky
	next       []float64
	mostRounds int
}

func newSquares(sys system, scale []float64) *squares {
	m, n := sys.size()
	return &squares{sys: sys, scale: scale, r: make([]float64, m), try: make([]float64, m), j: mat.NewDense(m, n, nil),
		normal: mat.NewSymDense(n, nil), damped: mat.NewSymDense(n, nil), slope: mat.NewVecDense(n, nil),
		move: mat.NewVecDense(n, nil), next: make([]float64, n), mostRounds: 60}
}

// minimise moves x to the least sum of squares near it and returns that sum.
func (s *squares) minimise(x []float64) float64 {
	const (
		damping = 1e-3 // to begin with, and
		least   = 1e-9 // never under
		gain    = 1e-7 // a round that gains less is the last
	)
	s.sys.fill(x, s.r, s.j)
	sum := sumOfSquares(s.r)
	lambda := damping
	for range s.mostRounds {
		s.normalise()
		before, moved := sum, false
		for lambda < 1e12 && !moved {
			for i := range x {
				for k := i; k < len(x); k++ {
					s.damped.SetSym(i, k, s.normal.At(i, k))
				}
				s.damped.SetSym(i, i, s.normal.At(i, i)*(1+lambda)+lambda*1e-3+1e-12)
			}
			if !s.triangle.Factorize(s.damped) {
				lambda *= 10
				continue
			}
			if err := s.triangle.SolveVecTo(s.move, s.slope); err != nil {
				lambda *= 10
				continue
			}
			for i := range x {
				s.next[i] = x[i] - s.move.AtVec(i)*s.scale[i]
			}
			s.sys.fill(s.next, s.try, nil)
			if now := sumOfSquares(s.try); now < sum {
				copy(x, s.next)
				sum, moved = now, true
				lambda = max(lambda/10, least)
			} else {
				lambda *= 10
			}
		}
		if !moved || before-sum < gain*(1+sum) {
			break
		}
		s.sys.fill(x, s.r, s.j)
	}
	return sum
}

// normalise makes the normal equations of the last residuals, in natural steps.
func (s *squares) normalise() {
	m, n := s.j.Dims()
	raw := s.j.RawMatrix()
	for a := range n {
		g := 0.0
		for i := range m {
			g += raw.Data[i*raw.Stride+a] * s.r[i]
		}
		s.slope.SetVec(a, g*s.scale[a])
		for b := a; b < n; b++ {
			sum := 0.0
			for i := range m {
				row := raw.Data[i*raw.Stride:]
				sum += row[a] * row[b]
			}
			s.normal.SetSym(a, b, sum*s.scale[a]*s.scale[b])
		}
	}
}

func sumOfSquares(r []float64) float64 {
	sum := 0.0
	for _, v := range r {
		sum += v * v
	}
	return sum
}

// covariance returns the inverse of the normal equations at x, in the
// unknowns' own units; false where they are singular.
func (s *squares) covariance(x []float64) (*mat.SymDense, bool) {
	s.sys.fill(x, s.r, s.j)
	s.normalise()
	n := len(x)
	if !s.triangle.Factorize(s.normal) {
		return nil, false
	}
	out := mat.NewSymDense(n, nil)
	if err := s.triangle.InverseTo(out); err != nil {
		return nil, false
	}
	for i := range n {
		for k := i; k < n; k++ {
			out.SetSym(i, k, out.At(i, k)*s.scale[i]*s.scale[k])
		}
	}
	return out, !math.IsNaN(out.At(0, 0))
}
