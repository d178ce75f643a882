package selector

import (
	"encoding/binary"
	"hash/fnv"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
)

var tracks = []Track{CentreTrack, AdvanceUpTrack, AdvanceDownTrack}

func (w *Wheel) contact(track Track, f int) Span {
	return [...]Span{w.Centre(f), w.AdvanceUp(f), w.AdvanceDown(f)}[track]
}

func plans() []*building.Plan {
	return []*building.Plan{evenly(3, 3.4), unequal(), evenly(10, 3), evenly(32, 2.8)}
}

func TestWheelAngle(t *testing.T) {
	w := NewWheel(unequal())
	assert.Zero(t, w.Angle(0))
	assert.InDelta(t, 270*math.Pi/180, w.Angle(16.8), 1e-12, "the span, clockwise, at the highest landing")
	assert.InDelta(t, 270*math.Pi/180/16.8, w.RadPerM(), 1e-12)
	assert.Negative(t, w.Angle(-0.1), "below the lowest landing it has turned the other way")
	// 270 degrees over 17 m: 0.016 degrees to the millimetre, recomputed.
	p := evenly(2, 17)
	p.Selector.SpanDeg = 270
	assert.InDelta(t, 0.016, NewWheel(p).Angle(0.001)*180/math.Pi, 0.0005)
}

func TestEveryStationMeetsTheCentreRampAtItsLanding(t *testing.T) {
	for _, p := range plans() {
		w := NewWheel(p)
		for f, floor := range p.Floors {
			assert.InDelta(t, w.StationRad(f), w.Angle(floor.HeightM), 1e-12)
			assert.True(t, w.Centre(f).Made(floor.HeightM))
			assert.Equal(t, 1.0, w.Roll(CentreTrack, f, floor.HeightM))
			if f > 0 {
				assert.Greater(t, w.StationRad(f), w.StationRad(f-1), "stations follow clockwise")
			}
			for g := range p.Floors {
				if g != f {
					assert.False(t, w.Centre(g).Made(floor.HeightM))
					assert.Zero(t, w.Roll(CentreTrack, g, floor.HeightM))
				}
			}
		}
		assert.Empty(t, w.Problems(), "%d floors", len(p.Floors))
	}
}

func TestContactsAreMadeWhereThePlanSays(t *testing.T) {
	p := unequal()
	p.Selector.AdvanceUpM, p.Selector.AdvanceDownM = 1.1, 1.3
	w := NewWheel(p)
	// The landing at 7.4 m; advance 1.1 up and 1.3 down, contact 50 mm, zone
	// 150 mm either side, hysteresis 6 mm.
	near := func(want, got Span, what string) {
		assert.InDelta(t, want.UpMake, got.UpMake, 1e-9, what)
		assert.InDelta(t, want.UpBreak, got.UpBreak, 1e-9, what)
		assert.InDelta(t, want.DownMake, got.DownMake, 1e-9, what)
		assert.InDelta(t, want.DownBreak, got.DownBreak, 1e-9, what)
	}
	near(Span{UpMake: 7.253, UpBreak: 7.553, DownMake: 7.547, DownBreak: 7.247}, w.Centre(2), "centre")
	near(Span{UpMake: 6.300, UpBreak: 6.350, DownMake: 6.344, DownBreak: 6.294}, w.AdvanceUp(2), "advance up")
	near(Span{DownMake: 8.700, DownBreak: 8.650, UpMake: 8.656, UpBreak: 8.706}, w.AdvanceDown(2), "advance down")
	lo, hi := w.Crossover(2)
	assert.InDelta(t, 7.3, lo, 1e-9)
	assert.InDelta(t, 7.5, hi, 1e-9)
	assert.Greater(t, lo, w.Centre(2).UpMake, "the crossover lies inside the centre zone")
	assert.Less(t, hi, w.Centre(2).DownMake)
}

func TestLeverAndContactAgree(t *testing.T) {
	for _, p := range plans() {
		w := NewWheel(p)
		makes, breaks := w.Thresholds()
		require.Greater(t, makes, breaks)
		f := len(p.Floors) / 2
		y0 := p.Floors[f].HeightM
		for _, track := range tracks {
			span := w.contact(track, f)
			// Walk over the ramp and back by tenths of a millimetre. The contact as
			// the lever works it, making at one lift and breaking at a lower one,
			// against the contact as the span says; a step in which an edge lies
			// may be judged either way by rounding.
			closed, made, turns := false, false, 0
			walk := func(from, to int, step int) {
				for i := from; i != to; i += step {
					y, next := y0+float64(i)/10000, y0+float64(i+step)/10000
					lift := w.Roll(track, f, next)
					if lift < 0 || lift > 1 {
						require.Fail(t, "lift out of range", "%v at %.4f: %v", track, next, lift)
					}
					made = span.Moved(made, y, next)
					before := closed
					closed = lift >= makes || closed && lift > breaks
					if closed != before {
						turns++
					}
					if closed != made && !edgeNear(span, next) {
						require.Fail(t, "lever and span differ", "%v at %.4f going %+d", track, next, step)
					}
				}
			}
			walk(-16000, 16000, 1)
			require.Equal(t, 2, turns, "%v makes and breaks once going up", track)
			walk(16000, -16000, -1)
			require.Equal(t, 4, turns, "%v makes and breaks once going down", track)
		}
	}
}

// edgeNear reports whether an edge lies within a tenth of a millimetre of y.
func edgeNear(s Span, y float64) bool {
	near := func(e float64) bool { return math.Abs(e-y) <= 1.01e-4 }
	return near(s.UpMake) || near(s.UpBreak) || near(s.DownMake) || near(s.DownBreak)
}

func TestLiftAtTheEdgesIsTheThreshold(t *testing.T) {
	w := NewWheel(unequal())
	makes, breaks := w.Thresholds()
	for _, track := range tracks {
		for f := range 6 {
			s := w.contact(track, f)
			assert.InDelta(t, makes, w.Roll(track, f, s.UpMake), 1e-9)
			assert.InDelta(t, makes, w.Roll(track, f, s.DownMake), 1e-9)
			assert.InDelta(t, breaks, w.Roll(track, f, s.UpBreak), 1e-9)
			assert.InDelta(t, breaks, w.Roll(track, f, s.DownBreak), 1e-9)
		}
	}
}

func TestProfileIsWhatTheRollerFeels(t *testing.T) {
	p := unequal()
	w := NewWheel(p)
	const f = 2
	for _, track := range tracks {
		points := w.Profile(track)
		require.NotEmpty(t, points)
		assert.Zero(t, points[0].Lift)
		assert.Zero(t, points[len(points)-1].Lift)
		assert.InDelta(t, w.RampM(track), points[len(points)-1].TravelM-points[0].TravelM, 1e-12)
		top := 0
		for i, point := range points {
			y := p.Floors[f].HeightM + point.TravelM
			assert.InDelta(t, point.Lift, w.Roll(track, f, y), 1e-9)
			// Turned with the wheel, the point of the ramp stands at the station.
			assert.InDelta(t, w.StationRad(f), w.Angle(y)+point.AngleRad, 1e-9)
			if i > 0 {
				assert.Greater(t, point.TravelM, points[i-1].TravelM)
			}
			if point.Lift == 1 {
				top++
			}
		}
		assert.Equal(t, 2, top, "%v has a dwell between two points", track)
	}
	// The advance-up ramp runs ahead of the car, clockwise; advance-down follows.
	for _, point := range w.Profile(AdvanceUpTrack) {
		assert.InDelta(t, 1.1*w.RadPerM(), point.AngleRad, 0.1*w.RadPerM())
	}
	for _, point := range w.Profile(AdvanceDownTrack) {
		assert.InDelta(t, -1.1*w.RadPerM(), point.AngleRad, 0.1*w.RadPerM())
	}
}

func TestRimMM(t *testing.T) {
	w := NewWheel(unequal())
	// 50 mm of car on a rim of 0.30 m at 270 degrees to 16.8 m: 4.21 mm.
	assert.InDelta(t, 4.2075, w.RimMM(0.05, NominalRadiusM), 1e-3)
	assert.Equal(t, w.RimMM(0.05, NominalRadiusM), w.RimMM(-0.05, NominalRadiusM))
	assert.Less(t, NewWheel(evenly(32, 2.8)).RimMM(0.05, NominalRadiusM), LeastDrawnMM, "a tall building's ramp is drawn enlarged")
}

func TestTrackPrintsItself(t *testing.T) {
	assert.Equal(t, "centre", CentreTrack.String())
	assert.Equal(t, "advance up", AdvanceUpTrack.String())
	assert.Equal(t, "advance down", AdvanceDownTrack.String())
}

// Every edge, bit for bit, on every target: the machine's switching instants
// rest on them. A changed sum means changed geometry; say why in the commit.
func TestGeometryIsPinned(t *testing.T) {
	sum := fnv.New64a()
	put := func(values ...float64) {
		for _, v := range values {
			require.NoError(t, binary.Write(sum, binary.LittleEndian, math.Float64bits(v)))
		}
	}
	putSpan := func(s Span) { put(s.UpMake, s.UpBreak, s.DownMake, s.DownBreak) }
	for _, p := range plans() {
		w, ring := NewWheel(p), ringOf(t, p)
		for f := range p.Floors {
			for _, track := range tracks {
				putSpan(w.contact(track, f))
				put(w.Roll(track, f, p.Floors[f].HeightM-1.09))
			}
			lo, hi := w.Crossover(f)
			put(lo, hi, w.StationRad(f))
			for _, s := range ring.Lit(f) {
				putSpan(s)
			}
		}
		for i, terminal := range ring.Terminals() {
			put(terminal.HeightM, terminal.AngleRad)
			putSpan(ring.Touch(i))
		}
	}
	assert.Equal(t, uint64(0x7c4c7ca150a104a6), sum.Sum64())
}
