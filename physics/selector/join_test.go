package selector

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
)

func TestJoinsMadeByHand(t *testing.T) {
	p := unequal()
	laid := ringOf(t, p)
	assert.Nil(t, laid.Joins(), "a ring as laid out")

	// The blank terminal below the landing of 1 goes to 1, the lower one of 5 is left blank.
	p.Selector.Joins = []building.Join{{Terminal: 2, Floor: "1"}, {Terminal: 14, Floor: building.Blank}}
	ring := ringOf(t, p)
	assert.Equal(t, []int{0, 0, 1, 1, 1, Blank, 2, 2, Blank, 3, 3, 4, 4, Blank, Blank, 5}, floorsOf(ring))
	assert.Equal(t, p.Selector.Joins, ring.Joins())
	assert.Equal(t, floorsOf(laid.Join(2, 1).Join(14, Blank)), floorsOf(ring), "the same as moved on the ring itself")
	assert.InDelta(t, 3.15*1.2, ring.LitM(1), 1e-9)
	b := ring.Boundaries()
	assert.InDelta(t, 0.18, b[0].OverlapM, 1e-9, "no blank terminal is left between 0 and 1")
	assert.Equal(t, 2, b[4].BlankTerminals)

	assert.Empty(t, ring.Join(2, Blank).Join(14, 5).Joins(), "moved back")
}

func TestAJoinLeavesABlankWithinAFloor(t *testing.T) {
	p := unequal()
	p.Selector.Joins = []building.Join{{Terminal: 2, Floor: "0"}, {Terminal: 1, Floor: building.Blank}}
	ring := ringOf(t, p)
	require.Len(t, ring.Lit(0), 2, "the lamp goes out on the blank terminal and comes back")
	assert.InDelta(t, 0.85*1.2, ring.Lit(0)[1].UpMake-ring.Lit(0)[0].UpBreak, 1e-9)
}

func TestWhatIsWrongWithJoins(t *testing.T) {
	for _, c := range []struct {
		name  string
		joins []building.Join
		key   string
		want  string
	}{
		{"no such terminal", []building.Join{{Terminal: 2, Floor: "1"}, {Terminal: 16, Floor: "5"}},
			"selector.joins[1].terminal", "ring.no-such-terminal[terminal=16 last=15]"},
		{"a floor is left out", []building.Join{{Terminal: 6, Floor: building.Blank}, {Terminal: 7, Floor: "1"}},
			"selector.joins", "ring.joins-leave-out[floor=2]"},
	} {
		p := unequal()
		p.Selector.Joins = c.joins
		_, problems := NewRing(p)
		require.Len(t, problems, 1, c.name)
		assert.True(t, problems[0].Grave, c.name)
		assert.Equal(t, c.key, problems[0].Key, c.name)
		assert.Equal(t, c.want, problems[0].Say.String(), c.name)
	}
}

func TestAJoinSettlesATerminalWantedTwice(t *testing.T) {
	p := unequal()
	p.Selector.TerminalsPerFloor = 1.5 // terminals 3, 6 and 7, by hand
	wanted := func() (out []int) {
		_, problems := NewRing(p)
		for _, found := range problems {
			if found.Say.ID == "ring.terminal-wanted-twice" {
				out = append(out, found.Say.Slots[0].Value.(int))
			}
		}
		return out
	}
	twice := wanted()
	require.Equal(t, []int{3, 6, 7}, twice)
	ring, _ := NewRing(p)
	for _, i := range twice {
		p.Selector.Joins = append(p.Selector.Joins, building.Join{Terminal: i, Floor: p.Floors[ring.Terminals()[i].Floor].Name})
	}
	assert.Empty(t, wanted(), "the hand has said whose it is")
}
