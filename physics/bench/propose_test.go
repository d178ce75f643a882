package bench

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
)

// adviceKinds are plans of every kind of answer.
func adviceKinds(t testing.TB) []*building.Plan {
	even := func(n int, perFloor float64, live int) *building.Plan {
		p := building.Evenly("even", n, 3)
		p.Selector.TerminalsPerFloor, p.Selector.LiveTerminals = perFloor, live
		return &p
	}
	wide := even(4, 3, 2)
	wide.Selector.BrushWidth = 1.44
	full := even(32, 2.8, 2)
	full.Selector.SpanDeg = 350
	return []*building.Plan{shipped(t, "tidemill-house"), shipped(t, "kestrel-court"), shipped(t, "copper-yard"),
		shipped(t, "lantern-row"), shipped(t, "signal-house"), even(4, 1.9, 2), even(3, 2.6, 2), even(12, 2.5, 2), wide, full, clash()}
}

// clash is a house of two low storeys, each of which has room for a blank
// terminal at some phases, but never both at once, with a high one between.
func clash() *building.Plan {
	p := building.Defaults()
	p.Name = "clash"
	for _, f := range []building.Floor{{Name: "G", HeightM: 0}, {Name: "1", HeightM: 2.3}, {Name: "2", HeightM: 8.6}, {Name: "3", HeightM: 10.9}} {
		p.Floors = append(p.Floors, f)
	}
	p.Selector.TerminalsPerFloor = p.TravelM() / 3 // pitch 1 m
	return &p
}

// possible says by brute force whether any of many phases parts all lamps.
func possible(p *building.Plan) bool {
	pitch := p.TravelM() / float64(len(p.Floors)-1) / p.Selector.TerminalsPerFloor
	for k := range 2000 {
		q := *p
		first := -(float64(p.Selector.LiveTerminals-1)/2 + (float64(k)+0.5)/2000) * pitch
		q.Selector.FirstTerminalM, q.Selector.Joins = &first, nil
		whole := true
		for _, b := range Lay(&q).Boundaries {
			whole = whole && b.BlankTerminals > 0
		}
		if whole {
			return true
		}
	}
	return false
}

func TestWhatIsSaidToBeImpossibleIs(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 0))
	plans := adviceKinds(t)
	for range 12 {
		p := building.Defaults()
		y := 0.0
		for i := range 2 + r.IntN(6) {
			p.Floors = append(p.Floors, building.Floor{Name: string(rune('A' + i)), HeightM: y})
			y += 2.2 + math.Round(200*r.Float64())/100
		}
		p.Selector.SpanDeg, p.Selector.TerminalsPerFloor = 200, 2+1.3*r.Float64()
		plans = append(plans, &p)
	}
	yes, no := 0, 0
	for _, p := range plans {
		a := Propose(p)
		require.NotEmpty(t, a.Argument)
		assert.Equal(t, possible(p), a.Possible, "%v", p.Selector)
		if a.Possible {
			yes++
		} else {
			no++
			assert.Equal(t, "bench.shown", a.Argument[0].ID)
			assert.Greater(t, len(a.Argument), 1)
		}
	}
	assert.Greater(t, yes, 4)
	assert.Greater(t, no, 4)
}

func TestProposalsDoWhatTheySay(t *testing.T) {
	count := 0
	for _, p := range adviceKinds(t) {
		for _, proposal := range Propose(p).Proposals {
			count++
			q := *p
			q.Selector = proposal.Selector
			// Through the file, as a person would take it over.
			again, problems := building.Read("x", building.Write(q))
			require.Empty(t, problems)
			report := Lay(&again)
			for _, found := range report.Problems {
				assert.False(t, found.Grave, found.Say.String())
			}
			require.Len(t, report.Boundaries, len(p.Floors)-1)
			for _, b := range report.Boundaries {
				assert.GreaterOrEqual(t, b.DarkM, proposal.DarkM-1e-9)
				assert.Greater(t, b.DarkS, 0.05)
				assert.Zero(t, b.OverlapM)
			}
		}
	}
	assert.Greater(t, count, 15)
}

func TestArguments(t *testing.T) {
	for _, c := range []struct {
		name string
		plan *building.Plan
		want string
	}{
		// By hand: a pitch is 1.2 m. Any one or two storeys can be rounded up to
		// the 3 pitches each needs; the three from 1 to 4 are 9.6 m, 8 pitches
		// exactly, where 9 are needed.
		{"counting", shipped(t, "tidemill-house"),
			"bench.shown[per-floor=2.8]\nbench.shown-travel[below=1 above=4 pitches=8.00 live=2 need=9 count=3 each=3 gives=8]"},
		{"a low storey", adviceKinds(t)[5],
			"bench.shown[per-floor=1.9]\nbench.shown-storey[below=1 above=2 pitches=1.90 live=2 need=3 storey=3.000]"},
		// By hand, pitch 1 m: 0 to 2.3 m has a blank where the phase is over 0.2
		// to 0.5; 8.6 to 10.9 m where it is over -0.4 to -0.1. A first terminal at
		// −0.5 m less the phase.
		{"phases that exclude each other", clash(),
			"bench.shown[per-floor=3.633]\n" +
				"bench.shown-phase[below=G above=1 from=-0.700 to=0.000]\n" +
				"bench.shown-phase[below=2 above=3 from=-1.000 to=-0.700]\n" +
				"bench.shown-no-other"},
	} {
		a := Propose(c.plan)
		assert.False(t, a.Possible, c.name)
		assert.Equal(t, c.want, said(a.Argument), c.name)
	}
	a := Propose(shipped(t, "copper-yard"))
	assert.True(t, a.Possible)
	assert.Equal(t, "bench.already", a.Argument[0].ID)
	assert.Empty(t, a.Proposals)
}
