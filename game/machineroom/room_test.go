package machineroom

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/assets/words/long"
	"wheelroom/game/figure"
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/study"
	"wheelroom/physics/study/winding"
)

func words(t *testing.T, tag string) *phrase.Catalogue {
	t.Helper()
	c, err := phrase.ReadCatalogue(long.Of(tag)...)
	require.NoError(t, err)
	return c
}

func shipped(t *testing.T) []building.Plan {
	t.Helper()
	var all []building.Plan
	for _, b := range assets.Buildings() {
		p, problems := building.Read(b.ID, b.Text)
		require.Empty(t, problems)
		all = append(all, p)
	}
	return all
}

func room(t *testing.T, width float64) *Room { return roomIn(t, "en", width) }

func roomIn(t *testing.T, tag string, width float64) *Room {
	return &Room{Words: words(t, tag), Palette: &figure.Paper, Width: width, ID: "t-"}
}

func missing(r *Room) []string { return r.Words.(*phrase.Catalogue).Missing() }

// A oneDrive is all there is of one machine.
type oneDrive struct {
	trip   TripScreen
	loads  LoadsScreen
	wheels WheelsScreen
	cures  CuresScreen
}

// screens prepares everything of a plan and a trip.
func screens(t *testing.T, r *Room, p *building.Plan, trip study.Trip, a, b study.Choice) (oneDrive, CompareScreen, *study.Run) {
	t.Helper()
	report, err := study.Look(p, trip, 0)
	require.NoError(t, err)
	_, fit := study.With(p, study.Choice{HandwheelKGM2: p.Machine.HandwheelKGM2})
	c, err := study.Compare(p, trip, a, b)
	require.NoError(t, err)
	return oneDrive{r.Trip(report.Run, fit, report.HeatW), r.Loads(&report.Sweep), r.Wheels(p, report.Weighed), r.Cures(report.Cures)}, r.Compare(&c), report.Run
}

// touched fails where a label of a drawing touches another mark.
func touched(t *testing.T, r *Room) {
	r.drawn = func(id string, f *figure.Figure) {
		for _, c := range f.Clashes(0.5) {
			assert.Fail(t, "a label is touched", "%s, %s at %v: %v", r.Words.(*phrase.Catalogue).Language(), id, r.Width, c)
		}
		for i := range f.Items {
			if it := &f.Items[i]; it.Shape == figure.Text {
				b := f.Bounds(it)
				assert.True(t, b.X0 >= 0 && b.X1 <= f.Width && b.Y0 >= 0 && b.Y1 <= f.Height, "%s, %s at %v: %q leaves the picture: %v", r.Words.(*phrase.Catalogue).Language(), id, r.Width, it.Text, b)
			}
		}
	}
}

func TestScreensOfEveryBuilding(t *testing.T) {
	for _, p := range shipped(t) {
		screensOf(t, "en", &p)
	}
}

// The screens hold with the words of any language.
func TestScreensInEveryLanguage(t *testing.T) {
	for _, tag := range long.Languages() {
		screensOf(t, tag, &shipped(t)[0])
	}
}

func screensOf(t *testing.T, tag string, p *building.Plan) {
	t.Helper()
	for _, width := range []float64{360, 640, 1600} {
		r := roomIn(t, tag, width)
		touched(t, r)
		trip := study.Trip{From: 2, To: 0, LoadKG: 0.8 * p.Lift.RatedLoadKG}
		d, c, run := screens(t, r, p, trip, study.Choice{HandwheelKGM2: 0.2, Fit: true}, study.Choice{HandwheelKGM2: p.Machine.HandwheelKGM2})
		events := run.Machine.Events()
		start, stop := r.Sequence(events, run.StartOf(), "start"), r.Sequence(events, run.StopOf(), "stop")
		var v lift.View
		run.Machine.Look(&v)
		w := r.Winding(p, 0, &v, &winding.Procedure{})
		for _, screen := range []any{d.trip, d.loads, d.wheels, d.cures, c, start, stop, w} {
			text, err := json.Marshal(screen)
			require.NoError(t, err)
			assert.NotContains(t, string(text), "⟦")
			assert.NotContains(t, string(text), "NaN")
		}
		for _, pic := range []Picture{d.trip.Journey, d.loads.Picture, d.wheels.Picture, c.Time, c.Light.Torque, c.Heavy.Torque, start.Picture, stop.Picture, w.Effort, w.Runaway} {
			assert.True(t, strings.HasPrefix(pic.SVG, "<svg"), pic.Title)
			assert.NotEmpty(t, pic.Desc)
		}
		assert.Empty(t, missing(r), p.Name)
	}
}

// A machine that cannot, and wheels that do not fit, are still shown.
func TestScreensOfMisfits(t *testing.T) {
	for _, spoil := range []func(p *building.Plan){
		func(p *building.Plan) { p.Machine.HandwheelKGM2 = 4 },
		func(p *building.Plan) { p.Motor.SlowBreakdownNM = 20 },
		func(p *building.Plan) { p.Motor.FastBreakdownNM = 30 },
		func(p *building.Plan) { p.Brake.TorqueNM = 10 },
		func(p *building.Plan) { p.Machine.GearEfficiency = 0.45 },
		func(p *building.Plan) { p.Machine.HandwheelKGM2 = 0 },
		func(p *building.Plan) { p.Selector.AdvanceUpM, p.Selector.AdvanceDownM = 0.5, 0.9 },
	} {
		p := shipped(t)[0]
		spoil(&p)
		r := room(t, 800)
		touched(t, r)
		trip := study.Trip{From: 1, To: 3, LoadKG: p.Lift.RatedLoadKG}
		d, c, _ := screens(t, r, &p, trip, study.Choice{HandwheelKGM2: 6}, study.Choice{HandwheelKGM2: 6, Fit: true})
		m, err := lift.New(&p, lift.Options{Start: 4})
		require.NoError(t, err)
		var v lift.View
		m.Look(&v)
		w := r.Winding(&p, p.Lift.RatedLoadKG, &v, &winding.Procedure{})
		for _, screen := range []any{d.trip, d.loads, d.wheels, d.cures, c, w} {
			text, err := json.Marshal(screen)
			require.NoError(t, err)
			assert.NotContains(t, string(text), "⟦")
		}
		assert.Empty(t, missing(r))
	}
}

// The point that a page moves lies on the curve it belongs to.
func TestPathsFollowTheRun(t *testing.T) {
	p := shipped(t)[0]
	r := room(t, 800)
	trip := study.Trip{From: 1, To: 3, LoadKG: 150}
	_, c, _ := screens(t, r, &p, trip, study.Choice{HandwheelKGM2: 0.3, Fit: true}, study.Choice{HandwheelKGM2: 1.2, Fit: true})
	for _, side := range []WheelSide{c.Light, c.Heavy} {
		f := side.Torque.Frames[0]
		require.NotEmpty(t, side.Path)
		for _, q := range side.Path {
			assert.True(t, q[0] >= f.X0-0.1 && q[0] <= f.X1+0.1 && q[1] >= f.Y0-0.1 && q[1] <= f.Y1+0.1, "%v in %+v", q, f)
		}
		// It begins and ends at standstill, without torque at the end.
		zero := f.At(0, 0)
		last := side.Path[len(side.Path)-1]
		assert.InDelta(t, zero.X, side.Path[0][0], 0.1)
		assert.InDelta(t, zero.X, last[0], 0.1)
		assert.InDelta(t, zero.Y, last[1], 0.1)
	}
	assert.Greater(t, len(c.Heavy.Path), len(c.Light.Path))
	assert.Len(t, c.Heavy.Now, len(c.Heavy.Path))
	assert.IsNonDecreasing(t, atOf(c.Clock.Keys))
	assert.Len(t, c.Clock.Keys, 12)
}

func atOf(keys []Key) (at []float64) {
	for _, k := range keys {
		at = append(at, k.AtS)
	}
	return at
}

// Every event of every scheme has words.
func TestEveryLinkHasWords(t *testing.T) {
	r := room(t, 800)
	for _, scheme := range building.Schemes {
		p := shipped(t)[0]
		p.Control.Scheme = scheme
		m, err := lift.New(&p, lift.Options{Start: 1})
		require.NoError(t, err)
		for f := range p.Floors {
			m.Press(f)
			m.Advance(9)
		}
		m.Advance(60)
		for _, do := range []lift.Input{{Kind: lift.Switch, Part: "stop-switch", State: "open"}, {Kind: lift.Switch, Part: "stop-switch"},
			{Kind: lift.Isolate, Part: "isolator", State: "open"}, {Kind: lift.Wind, Part: "handwheel", Value: 9}, {Kind: lift.EaseBrake, Part: "brake-lever", State: "open"}} {
			do.TimeS = m.TimeS()
			m.Do(do)
			m.Advance(1)
		}
		for _, e := range m.Events() {
			r.say(Link(e.Part, e.State))
		}
		require.NotEmpty(t, m.Events())
	}
	assert.Empty(t, missing(r))
}

// The cautions of the screen name what must not be left out.
func TestCautions(t *testing.T) {
	r := room(t, 800)
	all := strings.Join(r.all(winding.Cautions()), " ")
	for _, word := range []string{"teaching model", "qualifies nobody", "authorised", "lock off", "Never alone", "springs", "Wheel, sheave and ropes",
		"Release keys", "Car top and pit", "other", "safety contact", "asbestos", "mercury", "when power returns", "climbs out", "local code", "press the alarm"} {
		assert.Contains(t, all, word)
	}
	var p winding.Procedure
	for _, l := range p.Lines() {
		assert.NotEmpty(t, r.say(l.Say))
		assert.NotEmpty(t, r.say(l.Why))
	}
	for _, id := range []string{"no-such-step", "over", "taken", "first", "car-moving", "not-dead", "doors-open", "whose-lock", "not-your-lock", "not-level", "brake-open"} {
		assert.True(t, words(t, "en").Has("winding."+id), id)
	}
	for _, id := range []string{"input.not-isolated", "input.brake-eased", "input.hand-on-wheel", "input.hand", "part.isolator", "part.brake-lever"} {
		assert.True(t, words(t, "en").Has(id), id)
	}
	assert.Empty(t, missing(r))
}

func ExampleLink() {
	fmt.Println(Link("relay.stop", "1"), Link("relay.brake", "0"), Link("stop", "3"))
	// Output: link.relay-on[relay=part.relay-stop] link.brake-off link.stop-at[floor=3]
}
