package scene

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/game/figure"
)

// What a room is owed, from 3 floors to 32 and at the two usual sizes of a
// projector: no text under 3.5 % of the picture's height, dead wires of 4 px of
// 1080 and live ones of twice that. (Common practice for text on slides; no
// source for the widths of lines.)
func TestLectureAtEveryHeight(t *testing.T) {
	tongues := tongues(t)
	for n := 3; n <= 32; n++ {
		p := even(n)
		r := newRide(t, &p, 0)
		r.m.Press(n - 1)
		r.advance(3)
		for _, height := range []float64{1080, 720} {
			for _, picture := range []Picture{All, Shaft, Wheel, Circuit, Chart, Mechanism} {
				for _, tongue := range tongues {
					s := New(&p, r.m.Wiring(), Options{Width: height * 16 / 9, Height: height, Lecture: true, Picture: picture, Words: tongue.Text})
					f := whole(s, r)
					texts := 0
					for i := range f.Items {
						if it := &f.Items[i]; it.Shape == figure.Text {
							texts++
							assert.GreaterOrEqual(t, it.Size/height, 0.035, "%s, %d floors, %v: %q", tongue.Language(), n, picture, it.Text)
						}
					}
					assert.Greater(t, texts, 2, "%s, %d floors, %v", tongue.Language(), n, picture)
					assert.GreaterOrEqual(t, s.ink.dead*1080/height, 4-1e-9)
					assert.GreaterOrEqual(t, s.ink.live, 2*s.ink.dead)
				}
			}
		}
	}
}

// After half a minute the line of now stands far to the right, and its figures
// still stay inside the chart.
func TestNowStaysInTheChart(t *testing.T) {
	tongues := tongues(t)
	for _, lecture := range []bool{false, true} {
		p := even(6)
		r := newRide(t, &p, 0)
		r.m.Press(5)
		r.advance(30)
		for _, w := range []float64{1267, 1920} {
			for _, tongue := range tongues {
				s := New(&p, r.m.Wiring(), Options{Width: w, Height: w * 9 / 16, Lecture: lecture, Words: tongue.Text})
				var f figure.Figure
				f.Reset(w, w*9/16)
				s.chart.move(&f, &r.v, r.run)
				for i := range f.Items {
					assert.LessOrEqual(t, f.Bounds(&f.Items[i]).X1, s.chart.place.x1+0.5, "%s, %v, %v wide: %q", tongue.Language(), lecture, w, f.Items[i].Text)
				}
			}
		}
	}
}
