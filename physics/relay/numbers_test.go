package relay

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

func TestJacobiAgainstLibrary(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for n := 1; n <= 14; n++ {
		b := mat.NewDense(n, n, nil)
		for i := range n {
			for j := range n {
				b.Set(i, j, r.NormFloat64())
			}
		}
		var m mat.SymDense
		m.SymOuterK(1, b)
		a, q := make([]float64, n*n), make([]float64, n*n)
		for i := range n {
			for j := range n {
				a[i*n+j] = m.At(i, j)
			}
		}
		jacobi(a, q, n)
		got := make([]float64, n)
		for i := range n {
			got[i] = a[i*n+i]
			// the column must be what its eigenvalue says
			for row := range n {
				sum := 0.0
				for j := range n {
					sum += m.At(row, j) * q[j*n+i]
				}
				assert.InDelta(t, got[i]*q[row*n+i], sum, 1e-12*mat.Norm(&m, 2))
			}
		}
		var eig mat.EigenSym
		require.True(t, eig.Factorize(&m, false))
		slices.Sort(got)
		for i, want := range eig.Values(nil) {
			assert.InDelta(t, want, got[i], 1e-12*mat.Norm(&m, 2))
		}
	}
}

// reach against a walk over a fine grid.
func TestReachAgainstWalk(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	met, missed := 0, 0
	for range 300 {
		n := 1 + r.IntN(5)
		amp, rate := make([]float64, n), make([]float64, n)
		base := r.NormFloat64()
		for k := range n {
			amp[k] = 3 * r.NormFloat64()
			rate[k] = 50 * math.Exp(5*r.Float64())
		}
		at := func(t float64) float64 {
			f := base
			for k, a := range amp {
				f += a * math.Exp(-rate[k]*t)
			}
			return f
		}
		from := 0.01 * r.Float64()
		level := at(from) + r.Float64()
		got := reach(base, slices.Clone(amp), slices.Clone(rate), level, from)
		const steps = 40000
		want := math.Inf(1)
		highest := math.Inf(-1)
		for i := range steps + 1 {
			x := from + 0.4*float64(i)/steps
			highest = math.Max(highest, at(x))
			if at(x) >= level {
				want = x
				break
			}
		}
		if math.IsInf(want, 1) {
			missed++
			// the walk may step over a summit; it cannot miss a plain
			if !math.IsInf(got, 1) {
				assert.InDelta(t, level, highest, 1e-5)
			}
			continue
		}
		met++
		require.InDelta(t, want, got, 0.4/steps)
		assert.InDelta(t, level, at(got), 1e-11*(1+math.Abs(level)))
	}
	assert.Greater(t, met, 50)
	assert.Greater(t, missed, 50)
}

// Star-mesh elimination must keep a leak of a nanosiemens beside a milliohm.
func TestMeshKeepsSmallConductances(t *testing.T) {
	c := New()
	plus, a, b := c.Node("plus"), c.Node("a"), c.Node("b")
	c.Source(plus, 0, 100, 1e-3)
	c.Resistor(plus, a, 1e9)
	c.Resistor(a, b, 1e-3)
	c.Resistor(b, 0, 3e9)
	s := seal(t, c)
	assert.InEpsilon(t, 75.0, s.Volts(a), 1e-11)
	assert.InEpsilon(t, 75.0/3e9, s.Amps(3), 1e-11)
}
