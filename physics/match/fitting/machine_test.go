package fitting

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/bench"
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
	"wheelroom/physics/match"
	"wheelroom/physics/selector"
)

// watch rides the whole machine, circuit and all, and notes what its lamps do.
func watch(t *testing.T, p *building.Plan, from, to int) *match.Observation {
	t.Helper()
	m, err := lift.New(p, lift.Options{Start: from})
	require.NoError(t, err)
	m.Press(to)
	o := &match.Observation{}
	var v lift.View
	before := make([]bool, len(p.Floors))
	for m.TimeS() < 90 && o.Arrive == nil {
		m.Look(&v)
		for f, lit := range v.Lamps {
			if lit != before[f] {
				o.Edges = append(o.Edges, match.Edge{Row: len(o.Edges) + 2, TimeS: v.TimeS, Floor: f, On: lit})
				before[f] = lit
			}
		}
		switch {
		case v.Moving && o.Depart == nil:
			o.Depart = &match.Mark{Row: 1, TimeS: v.TimeS, Floor: from}
		case o.Depart != nil && v.AtFloor == to:
			o.Arrive = &match.Mark{Row: 99, TimeS: v.TimeS, Floor: to}
		}
		m.Step(1)
	}
	require.NotNil(t, o.Arrive)
	return o
}

// A ride taken without the circuit shows a passenger the lamps of the whole
// machine, to a tenth of a second, and the match finds the machine's own ring in
// them.
func TestTheMachinesOwnLamps(t *testing.T) {
	for _, c := range []struct {
		id       string
		from, to int
	}{{"tidemill-house", 0, 5}, {"kestrel-court", 9, 0}, {"signal-house", 0, 13}} {
		p := shipped(t, c.id)
		o := watch(t, p, c.from, c.to)
		ring, _ := selector.NewRing(p)
		ride, ok := bench.Take(p, ring, c.from, c.to)
		require.True(t, ok)
		assert.InDelta(t, o.Arrive.TimeS-o.Depart.TimeS, ride.ArriveS, 0.1)
		seen := map[int][]float64{}
		for _, e := range o.Edges {
			seen[e.Floor] = append(seen[e.Floor], e.TimeS-o.Depart.TimeS)
		}
		for f := range p.Floors {
			require.Len(t, ride.Lamps[f], len(seen[f]), "%s, floor %d", c.id, f)
			for i, at := range ride.Lamps[f] {
				if at > 0 {
					assert.InDelta(t, seen[f][i], at, 0.1, "%s, floor %d", c.id, f)
				}
			}
		}

		result := matched(t, p, o)
		assert.Equal(t, match.One, result.Verdict, c.id)
		assert.Equal(t, match.Driven, result.Motion)
		assert.Equal(t, p.Selector.LiveTerminals, result.Live)
		assert.InDelta(t, p.Selector.TerminalsPerFloor, result.Of(match.TerminalsPerFloor).Value, 0.01, c.id)
		first := ring.Terminals()[0].HeightM
		assert.InDelta(t, 0, math.Remainder(result.Of(match.FirstTerminalM).Value-first, ring.PitchM()), 0.1, c.id)
		assert.Less(t, result.File.RootS, 0.05, "the file's own ring explains its own lamps")
		assert.Zero(t, result.File.Missing)
		assert.Empty(t, result.Unexplained)
	}
}
