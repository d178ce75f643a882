package plot

import (
	"math/rand"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
)

func strip(width float64, events ...Event) *Strip {
	return &Strip{Width: width, Events: events, Clock: "ms", What: "what", Plane: "after its cause",
		After: func(ms float64) string { return "+" + strconv.FormatFloat(ms, 'f', 0, 64) + " ms" }}
}

// laid returns the places of a strip's rows.
func laid(s *Strip) *stripDrawing {
	d := &stripDrawing{strip: s, ink: newInks(s.Width), number: plain}
	d.lay()
	return d
}

func TestStripKeepsScaleAndOrder(t *testing.T) {
	s := strip(1000, Event{Text: "a", Cause: -1}, Event{Text: "b", AtS: 0.1, Cause: 0}, Event{Text: "c", AtS: 0.3, Cause: 1})
	d := laid(s)
	assert.Empty(t, d.breaks)
	assert.InDelta(t, 2*(d.rows[1].x-d.rows[0].x), d.rows[2].x-d.rows[1].x, 1e-6, "twice the time, twice the length")
	assert.InDelta(t, d.right, d.rows[2].x, 1e-6, "the plane is used")

	// A long wait is broken, what is short keeps its scale.
	s = strip(700, Event{Text: "a", Cause: -1}, Event{Text: "b", AtS: 0.02, Cause: 0}, Event{Text: "c", AtS: 5, Cause: -1}, Event{Text: "d", AtS: 5.04, Cause: 2})
	d = laid(s)
	assert.Len(t, d.breaks, 1)
	assert.InDelta(t, 2*(d.rows[1].x-d.rows[0].x), d.rows[3].x-d.rows[2].x, 1e-6)
}

func TestStripOfOneInstant(t *testing.T) {
	s := strip(700, Event{Text: "a", Cause: -1}, Event{Text: "b", Cause: 0}, Event{Text: "c", Cause: 0}, Event{Text: "d", Cause: 2})
	d := laid(s)
	// Of two effects of one cause neither may hide under the other's arrow; a
	// single one stands straight under its cause.
	assert.Greater(t, d.rows[1].x, d.rows[0].x)
	assert.Greater(t, d.rows[2].x, d.rows[1].x)
	assert.Equal(t, d.rows[2].x, d.rows[3].x)
	assert.NotPanics(t, func() { strip(400).Draw() })
	assert.NotPanics(t, func() { strip(400, Event{Text: "alone", Cause: -1}).Draw() })
}

// Whatever happens after whatever, rows go right and down, arrows are long
// enough to be seen, and no label touches another mark.
func TestStripsOfAnything(t *testing.T) {
	random := rand.New(rand.NewSource(11))
	for range 120 {
		var events []Event
		at := 0.0
		for i := range 2 + random.Intn(24) {
			if i > 0 {
				at += []float64{0, 0, 1e-6, 0.01, 0.02, 0.2, 3}[random.Intn(7)] * random.Float64()
			}
			events = append(events, Event{Text: "event number " + strconv.Itoa(i), AtS: at, Cause: random.Intn(i+1) - 1})
		}
		s := strip(360+1200*random.Float64(), events...)
		d := laid(s)
		for i := 1; i < len(d.rows); i++ {
			require.Greater(t, d.rows[i].y, d.rows[i-1].y)
			gap := d.rows[i].x - d.rows[i-1].x
			require.True(t, gap >= d.shortest()-1e-6 || gap == 0 && d.only(i), "row %d: %v", i, gap)
		}
		f, places := s.Draw()
		assert.Len(t, places, len(s.Events))
		require.Empty(t, f.Clashes(0.2))
		for i := range f.Items {
			if f.Items[i].Shape == figure.Text {
				require.LessOrEqual(t, f.Bounds(&f.Items[i]).X1, f.Width)
			}
		}
	}
}
