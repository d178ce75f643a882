package figure

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Through a window every mark is where it was, measured from the window's
// corner and enlarged; a mark that is left out reaches nowhere into it.
func TestAWindowShowsWhatReachesIntoIt(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 14))
	ink := Style{Stroke: Paint{Role: Ink}, Width: 3, Round: true}
	var g, f Figure
	g.Reset(400, 300)
	at := func() (float64, float64) { return rng.Float64() * 400, rng.Float64() * 300 }
	for range 60 {
		x, y := at()
		p, q := at()
		g.Line(ink, x, y, p, q)
		g.Circle(ink, p, y, 4+rng.Float64()*30)
		g.Arc(ink, x, q, 20, 0, 2)
		g.Box(ink, x, y, p, q, 3)
		g.Text(Paint{Role: Ink}, Face{Size: 14, Align: Align(rng.IntN(3))}, p, q, "label")
	}
	for range 40 {
		x, y := at()
		through := Rect{x, y, x + 60, y + 45}
		const scale = 2.5
		f.Window(&g, through, scale)
		assert.InDelta(t, 150, f.Width, 1e-9)
		assert.InDelta(t, 112.5, f.Height, 1e-9)
		next := 0
		for i := range g.Items {
			old := g.Bounds(&g.Items[i])
			want := Rect{(old.X0 - x) * scale, (old.Y0 - y) * scale, (old.X1 - x) * scale, (old.Y1 - y) * scale}
			if next < len(f.Items) {
				if got := f.Bounds(&f.Items[next]); close4(got, want) {
					next++
					continue
				}
			}
			require.False(t, old.Overlaps(through), "mark %d is left out", i)
		}
		assert.Equal(t, len(f.Items), next)
	}
}

func close4(a, b Rect) bool {
	const little = 1e-6
	near := func(u, v float64) bool { return u-v < little && v-u < little }
	return near(a.X0, b.X0) && near(a.Y0, b.Y0) && near(a.X1, b.X1) && near(a.Y1, b.Y1)
}

// A window that is filled again allocates nothing.
func TestAWindowKeepsItsStorage(t *testing.T) {
	var g, f Figure
	g.Reset(100, 100)
	for i := range 50 {
		g.Line(Style{Stroke: Paint{Role: Ink}, Width: 1}, float64(i), 0, 50, 50)
	}
	f.Window(&g, Rect{0, 0, 100, 100}, 1)
	assert.Zero(t, testing.AllocsPerRun(20, func() { f.Window(&g, Rect{20, 20, 90, 90}, 2) }))
}
