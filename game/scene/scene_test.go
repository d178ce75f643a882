package scene

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/assets/words/long"
	"wheelroom/game/figure"
	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// catalogue reads the words of a language.
func catalogue(t testing.TB, tag string) *phrase.Catalogue {
	t.Helper()
	c, err := phrase.ReadCatalogue(long.Of(tag)...)
	require.NoError(t, err)
	return c
}

func english(t testing.TB) func(phrase.Phrase) string { return catalogue(t, "en").Text }

// tongues are the languages there are, and one whose texts are longer than those
// of most.
func tongues(t testing.TB) []*phrase.Catalogue {
	var all []*phrase.Catalogue
	for _, tag := range long.Languages() {
		all = append(all, catalogue(t, tag))
	}
	return all
}

// plans are the shipped buildings and the smallest and largest there can be.
func plans(t testing.TB) []building.Plan {
	t.Helper()
	var out []building.Plan
	for _, b := range assets.Buildings() {
		p, _ := building.Read(b.ID, b.Text)
		require.NotEmpty(t, p.Floors, b.ID)
		out = append(out, p)
	}
	return append(out, even(2), even(12), even(32))
}

func even(n int) building.Plan {
	p := building.Evenly(fmt.Sprintf("%d floors", n), n, 3.2)
	p.Selector.SpanDeg = building.SpanFor(p.TravelM())
	return p
}

// A ride is a machine that answers a call at either end, and what was seen.
type ride struct {
	m   *lift.Machine
	v   lift.View
	run *Record
}

func newRide(t testing.TB, p *building.Plan, start int) *ride {
	t.Helper()
	m, err := lift.New(p, lift.Options{Start: start})
	require.NoError(t, err)
	r := &ride{m: m, run: NewRecord(len(m.Wiring().Coils), len(p.Floors))}
	r.look()
	return r
}

func (r *ride) look() {
	r.m.Look(&r.v)
	r.run.Look(&r.v)
}

func (r *ride) advance(seconds float64) {
	for end := r.m.TimeS() + seconds; r.m.TimeS() < end-1e-9 && r.m.Stopped() == ""; {
		r.m.Advance(0.05)
		r.look()
	}
}

// whole is what stands still and what moves in one figure.
func whole(s *Scene, r *ride) *figure.Figure {
	f := &figure.Figure{}
	f.Reset(s.o.Width, s.o.Height)
	f.Append(s.Still())
	f.Append(s.Moving(&r.v, r.run))
	return f
}

// No label touches another or a line, at any size the page can give.
func TestLabelsTouchNothing(t *testing.T) {
	tongues := tongues(t)
	sizes := []struct {
		name    string
		w, h    float64
		picture Picture
		lecture bool
	}{
		{"laptop", 948, 590, All, false},
		{"large", 1560, 900, All, false},
		{"largest", 2560, 1300, All, false},
		{"wide", 1400, 500, All, false},
		{"upright", 768, 1024, All, false},
		{"projector", 1920, 1080, All, true},
		{"shaft on a phone", 360, 560, Shaft, false},
		{"wheel on a phone", 360, 560, Wheel, false},
		{"circuit on a phone", 360, 640, Circuit, false},
		{"chart on a phone", 360, 400, Chart, false},
		{"circuit", 948, 590, Circuit, false},
		{"large circuit", 1560, 900, Circuit, false},
		{"wheel on a projector", 1920, 1080, Wheel, true},
		{"shaft on a projector", 1920, 1080, Shaft, true},
		{"circuit on a projector", 1920, 1080, Circuit, true},
		{"shaft and wheel", 1190, 980, Mechanism, true},
		{"shaft and wheel, small", 790, 650, Mechanism, true},
		{"shaft and wheel, upright", 1080, 960, Mechanism, true},
		{"shaft and wheel, flat", 1600, 640, Mechanism, false},
	}
	for _, p := range plans(t) {
		r := newRide(t, &p, 0)
		n := len(p.Floors)
		for _, at := range []struct {
			name    string
			press   int
			seconds float64
		}{{"at rest", -1, 0}, {"starting", n - 1, 1}, {"under way", min(1, n-2), 5.2}, {"further", -1, 9}} {
			if at.press >= 0 {
				r.m.Press(at.press)
			}
			r.advance(at.seconds)
			for _, size := range sizes {
				for _, tongue := range tongues {
					s := New(&p, r.m.Wiring(), Options{Width: size.w, Height: size.h, Picture: size.picture, Lecture: size.lecture, Words: tongue.Text})
					for i, c := range whole(s, r).Clashes(0.4) {
						if i < 3 {
							t.Errorf("%s, %s, %s, %s: %v", tongue.Language(), p.Name, size.name, at.name, c)
						}
					}
				}
			}
		}
	}
}

// Every scheme is drawn, whatever its branches, at any moment of a run.
func TestEverySchemeIsDrawn(t *testing.T) {
	tongues := tongues(t)
	for _, scheme := range control.Schemes() {
		for _, n := range []int{2, 3, 6, 12, 20} {
			p := even(n)
			p.Control.Scheme = scheme
			r := newRide(t, &p, 0)
			for f := range n {
				if calls := r.m.Wiring().Diagram.CallsAt(f); f%3 != 1 {
					why := r.m.Do(lift.Input{Kind: lift.Press, Part: lift.Part(calls[f%len(calls)].Button)})
					require.Empty(t, why.ID)
				}
			}
			for range 3 {
				r.advance(3.3)
				for _, o := range []Options{
					{Width: 948, Height: 590}, {Width: 1920, Height: 1080, Lecture: true},
					{Width: 1560, Height: 900, Picture: Circuit}, {Width: 360, Height: 640, Picture: Circuit}, {Width: 360, Height: 600, Picture: Shaft},
				} {
					for _, tongue := range tongues {
						o.Words = tongue.Text
						s := New(&p, r.m.Wiring(), o)
						for i, clash := range whole(s, r).Clashes(0.4) {
							if i < 3 {
								t.Errorf("%s, %s, %d floors, %v %.0f wide: %v", tongue.Language(), scheme, n, o.Picture, o.Width, clash)
							}
						}
					}
				}
			}
		}
	}
	for _, tongue := range tongues {
		assert.Empty(t, tongue.Missing(), tongue.Language())
	}
}

// Every label lies inside the picture.
func TestLabelsLieInside(t *testing.T) {
	tongues := tongues(t)
	for _, p := range plans(t) {
		r := newRide(t, &p, 0)
		r.m.Press(len(p.Floors) - 1)
		r.advance(4)
		for _, o := range []Options{
			{Width: 948, Height: 590}, {Width: 1920, Height: 1080, Lecture: true}, {Width: 360, Height: 640, Picture: Circuit},
			{Width: 360, Height: 640, Picture: Wheel}, {Width: 360, Height: 640, Picture: Shaft}, {Width: 360, Height: 300, Picture: Chart},
		} {
			for _, tongue := range tongues {
				o.Words = tongue.Text
				f := whole(New(&p, r.m.Wiring(), o), r)
				for i := range f.Items {
					if it := &f.Items[i]; it.Shape == figure.Text {
						b := f.Bounds(it)
						assert.True(t, b.X0 >= 0 && b.Y0 >= 0 && b.X1 <= o.Width && b.Y1 <= o.Height,
							"%s, %s, %v %.0f wide: %q at %.0f, %.0f", tongue.Language(), p.Name, o.Picture, o.Width, it.Text, b.X0, b.Y0)
					}
				}
			}
		}
	}
}

// On a projector no text is under 3.5 % of the picture's height, dead wires
// are at least 4 px of 1080 and live ones twice that.
func TestLecture(t *testing.T) {
	say := english(t)
	for _, p := range plans(t) {
		r := newRide(t, &p, 0)
		r.m.Press(len(p.Floors) - 1)
		r.advance(3)
		for _, picture := range []Picture{All, Shaft, Wheel, Circuit, Chart, Mechanism} {
			s := New(&p, r.m.Wiring(), Options{Width: 1920, Height: 1080, Lecture: true, Picture: picture, Words: say})
			f := whole(s, r)
			for i := range f.Items {
				if it := &f.Items[i]; it.Shape == figure.Text {
					assert.GreaterOrEqual(t, it.Size, 0.035*1080, "%s, %v: %q", p.Name, picture, it.Text)
				}
			}
			assert.GreaterOrEqual(t, s.ink.dead, 4.0)
		}
	}
}

func TestLiveWiresAreTwiceAsThick(t *testing.T) {
	for _, lecture := range []bool{false, true} {
		for _, u := range []float64{0.6, 1, 2.5} {
			c := &circuitPicture{s: &Scene{ink: newInks(&Options{Height: 1080, Lecture: lecture}, u)}}
			for _, w := range []way{neither, upWay, downWay} {
				assert.GreaterOrEqual(t, c.wire(w, true).Width, 2*c.wire(w, false).Width)
			}
			assert.Equal(t, figure.Solid, c.wire(upWay, true).Dash)
			assert.Equal(t, figure.Dashed, c.wire(downWay, true).Dash)
		}
	}
}

func TestMovingAllocatesNothing(t *testing.T) {
	say := english(t)
	for _, p := range []building.Plan{even(6), even(32)} {
		r := newRide(t, &p, 0)
		r.m.Press(len(p.Floors) - 1)
		s := New(&p, r.m.Wiring(), Options{Width: 948, Height: 590, Words: say, Chosen: "direction.2"})
		r.advance(30)
		s.Moving(&r.v, r.run)
		// The figure's storage may still grow to the fullest moment it has seen.
		grown := testing.AllocsPerRun(20, func() {
			r.v.TimeS += 0.016
			r.v.CarM -= 0.01
			r.v.WheelRad -= 0.003
			r.run.Look(&r.v)
			s.Moving(&r.v, r.run)
		})
		assert.Zero(t, grown, p.Name)
	}
}

// Every part that is shown can be pointed at somewhere, and the place asked
// for is where it is.
func TestEveryPartCanBePointedAt(t *testing.T) {
	say := english(t)
	for _, p := range plans(t) {
		r := newRide(t, &p, 0)
		for _, o := range []Options{{Width: 948, Height: 590}, {Width: 1560, Height: 900, Picture: Circuit}, {Width: 360, Height: 640, Picture: Wheel}} {
			o.Words = say
			s := New(&p, r.m.Wiring(), o)
			s.Moving(&r.v, r.run)
			seen := map[string]bool{}
			for i := range s.targets.list {
				b := s.targets.list[i].box
				for _, q := range []float64{0.08, 0.3, 0.5, 0.7, 0.92} {
					for _, z := range []float64{0.08, 0.3, 0.5, 0.7, 0.92} {
						seen[s.At(lerp(b.x0, b.x1, q), lerp(b.y0, b.y1, z))] = true
					}
				}
			}
			for _, part := range s.Parts() {
				x0, y0, x1, y1, ok := s.Box(part)
				if !ok {
					continue
				}
				assert.True(t, x1 > x0 && y1 > y0, part)
				assert.True(t, seen[part], "%s, %v: %s", p.Name, o.Picture, part)
			}
		}
	}
}

func TestNothingUnderAnEmptyPlace(t *testing.T) {
	p := even(6)
	r := newRide(t, &p, 0)
	s := New(&p, r.m.Wiring(), Options{Width: 948, Height: 590, Words: english(t)})
	s.Moving(&r.v, r.run)
	assert.Empty(t, s.At(-50, -50))
	assert.Empty(t, s.At(190, 8)) // the corner between shaft and wheel
	_, _, _, _, ok := s.Box("no such part")
	assert.False(t, ok)
}

// Each part has a name and a sentence among the words.
func TestEveryPartHasWords(t *testing.T) {
	c := catalogue(t, "en")
	for _, p := range plans(t) {
		r := newRide(t, &p, 0)
		for _, o := range []Options{{Width: 948, Height: 590}, {Width: 1560, Height: 900, Picture: Circuit}} {
			o.Words = c.Text
			for _, part := range New(&p, r.m.Wiring(), o).Parts() {
				kind, which, dotted := strings.Cut(part, ".")
				if dotted && kind == "relay" {
					kind += "-" + which
				}
				assert.True(t, c.Has("part."+kind), part)
				assert.True(t, c.Has("part."+kind+"-does"), part)
			}
		}
	}
	assert.Empty(t, c.Missing())
}

// The wide circuit leaves no branch out, and names the safety line's contacts.
func TestTheCircuitAloneIsWhole(t *testing.T) {
	for _, p := range plans(t) {
		r := newRide(t, &p, 0)
		s := New(&p, r.m.Wiring(), Options{Width: 1560, Height: 900, Picture: Circuit, Words: english(t)})
		for _, rg := range s.circuit.raise() {
			if rg.name != "up-line" && rg.name != "down-line" {
				assert.True(t, s.circuit.set[rg.name], "%s: %s", p.Name, rg.name)
			}
		}
		// The coils that watch the lines hang on them, beside the rows.
		assert.Len(t, s.circuit.strip, 2, p.Name)
		for _, b := range s.circuit.strip {
			assert.NotZero(t, b.line, b.part)
		}
		for _, part := range []string{"stop-switch", "governor", "safety-gear", "overload", "car-door", "lock", "final-limit-top"} {
			_, _, _, _, ok := s.Box(part)
			assert.True(t, ok, part)
		}
	}
}

// Wherever the car is, no roller sinks into its disc or ramp, none hovers, and
// a roller is lifted when its contact is made.
func TestRollersRideTheRamps(t *testing.T) {
	for _, p := range plans(t) {
		r := newRide(t, &p, 0)
		w := New(&p, r.m.Wiring(), Options{Width: 900, Height: 900, Picture: Wheel}).rotor
		for lane, track := range lanes {
			ramp, edge, rho := &w.ramps[lane], laneRadius(lane), rollerR*w.small
			for i := range 4000 {
				rel := lerp(ramp.from-0.2, ramp.to+0.2, float64(i)/3999)
				high := edge + w.rollerHeight(lane, rel)
				nearest := high - edge
				for j := range ramp.angle {
					d := ramp.angle[j] - rel
					q := edge + ramp.lift[j]*liftH
					nearest = min(nearest, math.Hypot(q*math.Sin(d), high-q*math.Cos(d)))
				}
				require.InDelta(t, rho, nearest, 0.02, "%s, track %v at %.4f", p.Name, track, rel)
			}
		}
		for f := range p.Floors {
			y := p.Floors[f].HeightM
			rel := w.station(f) - (w.lowest + w.s.wheel.Angle(y))
			assert.Greater(t, w.rollerHeight(1, rel), rollerR*w.small+0.9*liftH, "level with %s", p.Floors[f].Name)
		}
	}
}

// Scale: a ramp is at least 4 mm long at the rim as drawn, none touches the
// roller of a neighbour, and the note says when it is not true to scale.
func TestRampsAreLongEnoughToSee(t *testing.T) {
	for _, p := range plans(t) {
		r := newRide(t, &p, 0)
		w := New(&p, r.m.Wiring(), Options{Width: 900, Height: 900, Picture: Wheel}).rotor
		for lane := range lanes {
			ramp := &w.ramps[lane]
			mm := (ramp.to - ramp.from) * 300
			assert.GreaterOrEqual(t, mm, 4.0, p.Name)
			assert.Less(t, ramp.to-ramp.from, w.gap, p.Name)
			assert.Equal(t, w.enlarged, w.enlarged || ramp.stretch > 1)
		}
	}
}

// The rows of the circuit stand level with the landings' buttons.
func TestRowsAreLevelWithLandings(t *testing.T) {
	for _, p := range plans(t) {
		r := newRide(t, &p, 0)
		r.m.Press(len(p.Floors) - 1)
		r.advance(6)
		s := New(&p, r.m.Wiring(), Options{Width: 948, Height: 590, Words: english(t)})
		s.Moving(&r.v, r.run)
		rows := 0
		for _, f := range p.Floors {
			_, y0, _, y1, ok := s.Box("button." + f.Name)
			_, z0, _, z1, shown := s.Box("direction." + f.Name)
			if i := s.circuit.rows.spots.direction[p.Floor(f.Name)]; ok && shown {
				b := s.targets.list[i].box
				z0, z1 = b.y0, b.y1
				assert.InDelta(t, (y0+y1)/2, (z0+z1)/2, 0.01, f.Name)
				rows++
			}
		}
		assert.LessOrEqual(t, rows, maxRows)
		assert.GreaterOrEqual(t, rows, min(len(p.Floors), 9))
	}
}
