package plot

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
	"wheelroom/physics/phrase"
)

func TestTicks(t *testing.T) {
	for _, k := range []struct {
		lo, hi float64
		most   int
		want   []float64
		ends   [2]float64
	}{
		{0, 1.06, 6, []float64{0, 0.5, 1}, [2]float64{0, 1.25}},
		{0, 8.5, 10, []float64{0, 1, 2, 3, 4, 5, 6, 7, 8}, [2]float64{0, 8.5}},
		{-26, 26, 4, []float64{-20, 0, 20}, [2]float64{-30, 30}},
		{0, 0.003, 4, []float64{0, 0.001, 0.002, 0.003}, [2]float64{0, 0.003}},
		{0, 900, 2, []float64{0}, [2]float64{0, 1000}},
		{5, 5, 3, []float64{4, 5, 6}, [2]float64{4, 6}},
	} {
		s := newScale(k.lo, k.hi, k.most)
		if k.most > 2 {
			assert.InDeltaSlice(t, k.want, s.ticks(), 1e-9, "%v to %v", k.lo, k.hi)
		}
		assert.InDelta(t, k.ends[0], s.lo, 1e-9)
		assert.InDelta(t, k.ends[1], s.hi, 1e-9)
	}
}

// Any range is covered, by no more ticks than asked for and a step that its
// decimals can write.
func TestScalesOfAnyRange(t *testing.T) {
	random := rand.New(rand.NewSource(3))
	for range 3000 {
		lo := (random.Float64() - 0.5) * math.Pow(10, float64(random.Intn(9)-4))
		hi := lo + random.Float64()*math.Pow(10, float64(random.Intn(9)-4))
		most := 3 + random.Intn(10)
		s := newScale(lo, hi, most)
		require.True(t, s.lo <= lo+1e-6*s.step && s.hi >= hi-1e-6*s.step, "%v to %v: %+v", lo, hi, s)
		require.LessOrEqual(t, len(s.ticks()), most+1, "%v to %v: %+v", lo, hi, s)
		require.NotEmpty(t, s.ticks())
		rounded := math.Round(s.step*math.Pow(10, float64(s.decimals))) / math.Pow(10, float64(s.decimals))
		require.InEpsilon(t, s.step, rounded, 1e-9, "%+v", s)
	}
}

func TestPlainNumbers(t *testing.T) {
	assert.Equal(t, "−1.5", plain(phrase.Num(-1.5, 1)))
	assert.Equal(t, "0", plain(phrase.Num(-0.2, 0)))
}

func sine(n int) Curve {
	c := Curve{Name: "sine", Pen: Pen{Role: figure.Ink}}
	for i := range n {
		x := float64(i) / float64(n-1) * 6
		c.X, c.Y = append(c.X, x), append(c.Y, math.Sin(x))
	}
	return c
}

// A curve never leaves its frame, and is cut just where it would.
func TestCurvesAreCutAtTheFrame(t *testing.T) {
	c := sine(400)
	c.Y[200] = math.NaN()
	s := Sheet{Width: 600, X: Axis{Label: "x", Lo: 1, Hi: 5}, Panels: []Panel{{Y: Axis{Label: "y", Lo: -0.5, Hi: 0.5}, Curves: []Curve{c}}}}
	f, frames := s.Draw()
	fr := frames[0]
	pieces := 0
	for i := range f.Items {
		it := &f.Items[i]
		if it.Shape != figure.Line || it.N < 3 {
			continue
		}
		pieces++
		for _, p := range f.Of(it) {
			require.True(t, p.X >= fr.X0-1e-6 && p.X <= fr.X1+1e-6 && p.Y >= fr.Y0-1e-6 && p.Y <= fr.Y1+1e-6, "%v outside %+v", p, fr)
		}
		// Where it is cut from above or below it ends on the edge.
		for _, end := range []figure.Point{f.Of(it)[0], f.Of(it)[it.N-1]} {
			onEdge := math.Min(math.Abs(end.Y-fr.Y0), math.Abs(end.Y-fr.Y1)) < 1e-6
			atGap := math.Abs(end.X-fr.At(c.X[199], 0).X) < 3 || math.Abs(end.X-fr.At(c.X[201], 0).X) < 3
			assert.True(t, onEdge || atGap, "%v", end)
		}
	}
	assert.Equal(t, 2, pieces, "through the middle of the falling flank, parted at the gap")
}

func TestFramesMeasure(t *testing.T) {
	s := Sheet{Width: 800, X: Axis{Label: "x"}, Panels: []Panel{{Y: Axis{Label: "y"}, Curves: []Curve{sine(50)}}, {Y: Axis{Label: "z"}, Curves: []Curve{sine(50)}}}}
	f, frames := s.Draw()
	require.Len(t, frames, 2)
	for _, fr := range frames {
		low, high := fr.At(fr.Left, fr.Lower), fr.At(fr.Right, fr.Upper)
		assert.InDeltaSlice(t, []float64{fr.X0, fr.Y1, fr.X1, fr.Y0}, []float64{low.X, low.Y, high.X, high.Y}, 1e-9)
	}
	assert.Equal(t, frames[0].X0, frames[1].X0, "one axis for all panels")
	assert.Equal(t, 800.0, f.Width)
	assert.Greater(t, f.Height, frames[1].Y1)
}

// A curve is told by the style of its line and its word: every name stands in
// the legend once.
func TestLegend(t *testing.T) {
	light, heavy := sine(50), sine(50)
	light.Name, heavy.Name, heavy.Pen.Heavy = "light", "heavy", true
	s := Sheet{Width: 400, X: Axis{Label: "x"}, Panels: []Panel{
		{Y: Axis{Label: "y"}, Curves: []Curve{light, heavy}, Marks: []Mark{{Name: "vane", X: 1, Y: 0.5, Sign: Diamond, Role: figure.Ink}},
			Bands: []Band{{Name: "below", From: -1, Role: figure.Fault}}},
		{Y: Axis{Label: "z"}, Curves: []Curve{light, heavy}, Marks: []Mark{{Name: "vane", X: 1, Y: 0.5, Sign: Diamond, Role: figure.Ink}}}}}
	f, _ := s.Draw()
	count := map[string]int{}
	for i := range f.Items {
		count[f.Items[i].Text]++
	}
	for _, name := range []string{"light", "heavy", "vane", "below"} {
		assert.Equal(t, 1, count[name], name)
	}
	assert.Empty(t, f.Clashes(0.5))
}

// Texts of marks and guides touch nothing, wherever the data puts them.
func TestLabelsTouchNothing(t *testing.T) {
	random := rand.New(rand.NewSource(7))
	for range 60 {
		p := Panel{Y: Axis{Label: "value, m/s"}, Curves: []Curve{sine(80)}}
		for range 6 {
			p.Marks = append(p.Marks, Mark{Text: "12.3", X: 6 * random.Float64(), Y: 2*random.Float64() - 1, Role: figure.Ink, Over: random.Intn(2) == 0})
		}
		for range 3 {
			p.Guides = append(p.Guides, Guide{At: 2*random.Float64() - 1, Text: "a line with words", Role: figure.Muted},
				Guide{At: 6 * random.Float64(), Text: "another", Role: figure.Muted, Vertical: true})
		}
		s := Sheet{Width: 340 + 900*random.Float64(), X: Axis{Label: "time, s"}, Panels: []Panel{p}}
		f, _ := s.Draw()
		require.Empty(t, f.Clashes(0.3))
	}
}
