package bench

import (
	"flag"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/assets/words/long"
	"wheelroom/game/figure"
	rings "wheelroom/physics/bench"
	"wheelroom/physics/building"
	"wheelroom/physics/lamp"
	"wheelroom/physics/match"
	"wheelroom/physics/match/fitting"
	"wheelroom/physics/phrase"
	"wheelroom/physics/selector"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

func words(t testing.TB) *phrase.Catalogue { return wordsIn(t, "en") }

func wordsIn(t testing.TB, tag string) *phrase.Catalogue {
	t.Helper()
	c, err := phrase.ReadCatalogue(long.Of(tag)...)
	require.NoError(t, err)
	return c
}

// plans are the shipped buildings, and the smallest and the largest house.
func plans(t testing.TB) []*building.Plan {
	var out []*building.Plan
	for _, b := range assets.Buildings() {
		p, problems := building.Read(b.ID, b.Text)
		require.Empty(t, problems)
		out = append(out, &p)
	}
	two, many := building.Evenly("two", 2, 3), building.Evenly("many", 32, 3)
	return append(out, &two, &many)
}

func named(t testing.TB, name string) *building.Plan {
	t.Helper()
	for _, p := range plans(t) {
		if p.Name == name {
			return p
		}
	}
	t.Fatalf("no building %s", name)
	return nil
}

// observed is a ride over the whole height, tapped without a slip but for one
// lamp that is late where the house has room for it.
func observed(p *building.Plan) *match.Observation {
	ring, _ := selector.NewRing(p)
	top := len(p.Floors) - 1
	ride, _ := rings.Take(p, ring, 0, top)
	o := &match.Observation{Depart: &match.Mark{Row: 1, TimeS: 2}, Arrive: &match.Mark{Row: 999, TimeS: ride.ArriveS + 2, Floor: top}}
	for f, changes := range ride.Lamps {
		for i, at := range changes {
			e := match.Edge{Row: len(o.Edges) + 2, TimeS: at + 2, Floor: f, On: i%2 == 0}
			if f == 3 && top > 5 {
				e.TimeS += 1.5
			}
			o.Edges = append(o.Edges, e)
		}
	}
	o.Sort()
	return o
}

func names(p *building.Plan) (out []string) {
	for _, f := range p.Floors {
		out = append(out, f.Name)
	}
	return out
}

// No text touches another or a line, in any drawing of any building at any
// usual width and in any language, and all words are there.
func TestNothingTouches(t *testing.T) {
	for _, tag := range long.Languages() {
		nothingTouches(t, wordsIn(t, tag))
	}
}

func nothingTouches(t *testing.T, c *phrase.Catalogue) {
	t.Helper()
	// Another floor's lamp between two.
	hand := named(t, "Tidemill House")
	hand.Name, hand.Selector.Joins = "hand", []building.Join{{Terminal: 5, Floor: "3"}}
	for _, p := range append(plans(t), hand) {
		r := rings.Lay(p)
		bright := make([]float64, len(p.Floors))
		bright[0], bright[len(bright)-1] = 1, 0.5
		for _, width := range []float64{340, 700, 1200} {
			clear := func(name string, f *figure.Figure) {
				assert.GreaterOrEqual(t, f.Width, width, "%s of %s", name, p.Name)
				for _, clash := range f.Clashes(0.3) {
					t.Errorf("%s, %s of %s at %v: %v", c.Language(), name, p.Name, width, clash)
				}
				for i := range f.Items {
					b := f.Bounds(&f.Items[i])
					require.True(t, b.X0 >= -1 && b.Y0 >= -1 && b.X1 <= f.Width+1 && b.Y1 <= f.Height+1,
						"%s, %s of %s at %v: %v outside", c.Language(), name, p.Name, width, f.Items[i])
				}
			}
			look := Look{Width: width, Words: c.Text, CarM: 0.4, Chosen: 1}
			clear("strip", Strip(r, look))
			if width >= 700 || len(p.Floors) < 20 {
				clear("ring", Ring(r, look))
			}
			if width >= 700 {
				clear("sheet", Sheet(r, width, c.Text))
			}
			clear("panels", Panels([]Panel{{c.Text(phrase.Of("bench.seen")), bright}, {c.Text(phrase.Of("bench.fitted")), bright}}, names(p), width, c.Text))
			if o := observed(p); len(o.Check(names(p))) == 0 && len(p.Floors) < 20 && p != hand {
				clear("traces", Traces(fitting.Match(p, o), width, c.Text))
			}
		}
	}
	assert.Empty(t, c.Missing())
}

// What is drawn can be pointed at.
func TestPartsCanBePointedAt(t *testing.T) {
	p := named(t, "Tidemill House")
	r := rings.Lay(p)
	look := Look{Width: 700, Words: words(t).Text, Chosen: -1}
	for _, f := range []*figure.Figure{Ring(r, look), Strip(r, look)} {
		for i := range r.Terminals {
			_, ok := f.PartBounds("terminal." + strconv.Itoa(i))
			assert.True(t, ok, "terminal %d", i)
		}
		for _, name := range names(p) {
			_, ok := f.PartBounds("lamp." + name)
			assert.True(t, ok, name)
		}
		_, ok := f.PartBounds("brush")
		assert.True(t, ok)
	}
}

// A strip is to scale: each lamp's stretch is as long as it is lit.
func TestStripIsToScale(t *testing.T) {
	p := named(t, "Tidemill House")
	r := rings.Lay(p)
	f := Strip(r, Look{Width: 1000, Words: words(t).Text, Chosen: -1})
	var scale float64
	for _, l := range r.Lamps {
		widest := 0.0
		for i := range f.Items {
			it := &f.Items[i]
			if it.Part == "lamp."+l.Floor && it.Shape == figure.Box {
				frame := f.Frame(it)
				widest = max(widest, frame.X1-frame.X0)
			}
		}
		if scale == 0 {
			scale = widest / l.LitM
		}
		assert.InDelta(t, l.LitM*scale, widest, 1e-6, l.Floor)
	}
	// Neighbouring terminals lie a pitch apart.
	a, _ := f.PartBounds("terminal.3")
	b, _ := f.PartBounds("terminal.4")
	assert.InDelta(t, r.Ring.PitchM()*scale, (b.X0+b.X1-a.X0-a.X1)/2, 1e-6)
}

// What is marked between the lamps is where none is lit, or two neighbours are.
func TestStripMarksWhatLiesBetweenLamps(t *testing.T) {
	p := named(t, "Tidemill House")
	p.Selector.Joins = []building.Join{{Terminal: 5, Floor: "3"}}
	r := rings.Lay(p)
	f := Strip(r, Look{Width: 1000, Words: words(t).Text, Chosen: -1})
	a, _ := f.PartBounds("terminal.3")
	b, _ := f.PartBounds("terminal.4")
	scale := (b.X0 + b.X1 - a.X0 - a.X1) / 2 / r.Ring.PitchM()
	at := func(x float64) float64 { return r.Terminals[3].HeightM + (x-(a.X0+a.X1)/2)/scale }
	var got [][2]float64
	low := 0.0 // the lowest mark of a lamp
	for _, floor := range p.Floors {
		lamp, _ := f.PartBounds("lamp." + floor.Name)
		low = max(low, lamp.Y1)
	}
	for i := range f.Items {
		if it := &f.Items[i]; it.Shape == figure.Box && f.Frame(it).Y0 > low {
			frame := f.Frame(it)
			got = append(got, [2]float64{at(frame.X0), at(frame.X1)})
		}
	}
	// By hand: touches reach 0.69 m about terminals 1.2 m apart, the first at −0.6 m.
	want := [][2]float64{{1.29, 2.31}, {5.91, 6.09}, {8.49, 9.51}, {11.91, 12.09}, {14.49, 15.51}}
	require.Len(t, got, len(want))
	for i := range want {
		assert.InDelta(t, want[i][0], got[i][0], 1e-6)
		assert.InDelta(t, want[i][1], got[i][1], 1e-6)
	}
}

func TestTracesSayWhichLampFitsNoRing(t *testing.T) {
	c := words(t)
	p := named(t, "Kestrel Court")
	o := observed(p)
	result := fitting.Match(p, o)
	require.Equal(t, []int{3}, result.Unexplained)
	f := Traces(result, 900, c.Text)
	said := 0
	for _, it := range f.Items {
		if it.Text == c.Text(phrase.Of("bench.no-ring")) {
			said++
			assert.Equal(t, "lamp."+p.Floors[3].Name, it.Part)
		}
	}
	assert.Equal(t, 1, said)
}

// A panel shows what its filaments show.
func TestPanelFollowsTheFilaments(t *testing.T) {
	p := named(t, "Kestrel Court")
	result := fitting.Match(p, observed(p))
	for _, e := range result.Edges {
		if !e.Used || !e.On {
			continue
		}
		just := result.Brightness(true, lamp.Usual, e.ModelS+1e-6)
		later := result.Brightness(true, lamp.Usual, e.ModelS+lamp.Usual.RiseS)
		assert.InDelta(t, 0, just[e.Floor], 1e-3)
		assert.InDelta(t, 0.9, later[e.Floor], 1e-3)
		assert.InDelta(t, 0.9, result.Brightness(false, lamp.Usual, e.TimeS+lamp.Usual.RiseS)[e.Floor], 1e-3)
	}
}

func TestGolden(t *testing.T) {
	c := words(t)
	p := named(t, "Lantern Row")
	r := rings.Lay(p)
	look := Look{Width: 560, Words: c.Text, Chosen: 2}
	for name, f := range map[string]*figure.Figure{"ring": Ring(r, look), "strip": Strip(r, look)} {
		got := SVG(f, &figure.Paper, name+"-", "a title")
		file := "testdata/" + name + ".svg"
		if *update {
			require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
		}
		want, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.Equal(t, strings.Split(string(want), "\n"), strings.Split(got, "\n"), "%s: look at it, then -update", name)
	}
}
