package fitting

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/match"
	"wheelroom/physics/phrase"
)

func shipped(t testing.TB, id string) *building.Plan {
	t.Helper()
	for _, b := range assets.Buildings() {
		if b.ID == id {
			p, problems := building.Read(id, b.Text)
			require.Empty(t, problems)
			return &p
		}
	}
	t.Fatalf("no building %s", id)
	return nil
}

func words(t testing.TB) *phrase.Catalogue {
	t.Helper()
	c, err := phrase.ReadCatalogue(assets.Words("en")...)
	require.NoError(t, err)
	return c
}

func names(p *building.Plan) (out []string) {
	for _, f := range p.Floors {
		out = append(out, f.Name)
	}
	return out
}

// A truth is a ring and a trip that are seen by somebody.
type truth struct {
	perFloor, firstM, widths float64
	live                     int
	speedMS, startS          float64
	from, to                 int
	delayOn, delayOff        float64 // of the hand
	scatterS                 float64
	marks                    bool    // departure and arrival are noted,
	tapped                   bool    // and scatter like the lamps
	driven                   bool    // as the plan's machine runs, else at one speed
	loadKG                   float64 // where driven
}

// course returns when the car has gone a distance, and how long the trip lasts:
// at one speed, or as the plan's machine runs with some load.
func (w *truth) course(p *building.Plan) (timeAt func(dM float64) float64, wholeS float64) {
	from, to := p.Floors[w.from].HeightM, p.Floors[w.to].HeightM
	if !w.driven {
		return func(d float64) float64 { return d / w.speedMS }, math.Abs(to-from) / w.speedMS
	}
	rec := drive.Try(p, drive.Trip{FromM: from, ToM: to, LoadKG: w.loadKG})
	return func(d float64) float64 {
		for i, y := range rec.CarM {
			if gone := math.Abs(y - from); gone >= d {
				before := math.Abs(rec.CarM[i-1] - from)
				return (float64(i)-(gone-d)/(gone-before))*rec.SampleS - rec.Marks.MoveS
			}
		}
		return math.Inf(1)
	}, rec.Marks.RestS - rec.Marks.MoveS
}

// see walks the trip and notes what the lamps do: written independently of the
// package, from the terminals up.
func (w *truth) see(p *building.Plan, r *rand.Rand) *match.Observation {
	pitch := p.TravelM() / float64(len(p.Floors)-1) / w.perFloor
	type edge struct {
		d     float64
		floor int
		on    bool
	}
	dir := 1.0
	if w.to < w.from {
		dir = -1
	}
	dist := math.Abs(p.Floors[w.to].HeightM - p.Floors[w.from].HeightM)
	var edges []edge
	for f, floor := range p.Floors {
		// The joined terminals, by sorting all by their distance.
		var all []int
		for i := 0; float64(i)*pitch < p.TravelM()+10*pitch; i++ {
			all = append(all, i)
		}
		away := func(i int) float64 { return math.Abs(w.firstM + float64(i)*pitch - floor.HeightM) }
		sort.SliceStable(all, func(a, b int) bool { return away(all[a])+1e-9 < away(all[b]) })
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, i := range all[:w.live] {
			y := w.firstM + float64(i)*pitch
			lo, hi = min(lo, y-w.widths*pitch/2), max(hi, y+w.widths*pitch/2)
		}
		enter, leave := dir*(lo-p.Floors[w.from].HeightM), dir*(hi-p.Floors[w.from].HeightM)
		if dir < 0 {
			enter, leave = leave, enter
		}
		if f == w.from {
			enter = -1
		}
		if leave > 0 && enter < dist {
			edges = append(edges, edge{enter, f, true})
			if leave < dist && f != w.to {
				edges = append(edges, edge{leave, f, false})
			}
		}
	}
	at, whole := w.course(p)
	noise := func() float64 { return w.scatterS * r.NormFloat64() }
	o := &match.Observation{}
	for _, e := range edges {
		t := w.startS - 1 // lit before it moves
		if e.d >= 0 {
			t = w.startS + at(e.d) + noise()
		}
		switch {
		case e.d < 0:
		case e.on:
			t += w.delayOn
		default:
			t += w.delayOff
		}
		o.Edges = append(o.Edges, match.Edge{TimeS: t, Floor: e.floor, On: e.on})
	}
	sort.SliceStable(o.Edges, func(a, b int) bool { return o.Edges[a].TimeS < o.Edges[b].TimeS })
	for i := range o.Edges {
		o.Edges[i].Row = i + 2
	}
	if w.marks {
		o.Depart = &match.Mark{Row: 1, TimeS: w.startS, Floor: w.from}
		o.Arrive = &match.Mark{Row: len(o.Edges) + 2, TimeS: w.startS + whole, Floor: w.to}
		if w.tapped {
			o.Depart.TimeS += noise()
			o.Arrive.TimeS += noise()
		}
	}
	return o
}
