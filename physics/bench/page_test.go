package bench

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/lamp"
	"wheelroom/physics/selector"
)

func TestPages(t *testing.T) {
	c := words(t)
	p := shipped(t, "tidemill-house")
	text, err := json.Marshal(Lay(p).Page(c.Text))
	require.NoError(t, err)
	var got map[string]any
	require.NoError(t, json.Unmarshal(text, &got))
	first := got["boundaries"].([]any)[0].(map[string]any)
	assert.Equal(t, 1.02, first["dark_m"])
	assert.InDelta(t, 1.02/0.2634, first["dark_slow_s"], 1e-3)
	assert.Equal(t, "seen", first["sight"])
	assert.Equal(t, []any{"floor 4 follows floor 3 without a dark interval; both lamps are lit for 0.180 m"}, got["notes"])
	assert.Equal(t, []any{}, got["joins"])

	advice := Propose(p).Page(c.Text)
	assert.False(t, advice.Possible)
	assert.Len(t, advice.Argument, 2)
	require.NotEmpty(t, advice.Proposals)
	assert.Equal(t, 2.95, advice.Proposals[0].PerFloor)
	assert.Empty(t, c.Missing())
}

func TestMoveAJoin(t *testing.T) {
	p := shipped(t, "tidemill-house")
	q := Move(p, 2, 1)
	assert.Equal(t, []building.Join{{Terminal: 2, Floor: "1"}}, q.Selector.Joins)
	assert.Nil(t, p.Selector.Joins, "the plan itself is left alone")
	assert.Equal(t, []PageJoin{{2, "1"}}, Lay(q).Page(words(t).Text).Joins)
	again, problems := building.Read("x", building.Write(*q))
	require.Empty(t, problems)
	assert.Equal(t, Lay(q).Terminals, Lay(&again).Terminals)
	q = Move(q, 3, selector.Blank)
	assert.Equal(t, []building.Join{{Terminal: 2, Floor: "1"}, {Terminal: 3, Floor: building.Blank}}, q.Selector.Joins)
	q = Move(Move(q, 3, 1), 2, selector.Blank)
	assert.Empty(t, q.Selector.Joins, "moved back to where they are laid out")
}

func TestRide(t *testing.T) {
	p := shipped(t, "kestrel-court")
	ring, _ := selector.NewRing(p)
	for _, c := range []struct{ from, to int }{{0, 9}, {7, 2}, {3, 4}} {
		ride, ok := Take(p, ring, c.from, c.to)
		require.True(t, ok)
		assert.InDelta(t, p.Floors[c.from].HeightM, ride.HeightM(-1), 0.01)
		assert.InDelta(t, p.Floors[c.to].HeightM, ride.HeightM(ride.ArriveS+1), 0.02)
		for f := range p.Floors {
			// At every change the car stands at an edge of the lamp.
			for i, at := range ride.Lamps[f] {
				if at < 0 {
					assert.True(t, i == 0 && f == c.from, "only the first landing's lamp is lit before")
					continue
				}
				y, near := ride.HeightM(at), math.Inf(1)
				for _, s := range ring.Lit(f) {
					near = math.Min(near, math.Min(math.Abs(y-s.UpMake), math.Abs(y-s.UpBreak)))
				}
				assert.Less(t, near, 1e-6)
			}
			assert.Equal(t, ring.Feeds(f, ride.HeightM(5)), ride.Brightness(lamp.Lamp{RiseS: 1e-9, FallS: 1e-9}, f, 5) > 0.5)
		}
		page := ride.Page(p, lamp.Usual)
		assert.Equal(t, p.Floors[c.from].Name, page.From)
		assert.Len(t, page.Lamps, len(p.Floors))
		assert.Equal(t, -1.0, page.Lamps[c.from][0])
	}
	weak := *p
	weak.Motor.FastBreakdownNM, weak.Motor.SlowBreakdownNM, weak.Lift.LoadKG = 5, 5, 480
	_, ok := Take(&weak, ring, 0, 9)
	assert.False(t, ok, "a motor that does not move the car takes nobody anywhere")
}
