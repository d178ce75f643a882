package selector

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRingOfUnequalStoreys(t *testing.T) {
	ring := ringOf(t, unequal())
	assert.InDelta(t, 1.2, ring.PitchM(), 1e-12)
	// By hand: the pitch is 1.2 m, terminal 0 at -0.6 m. The landings at 4.2 m
	// and 13.8 m stand on a terminal, with neighbours equally near.
	joined := []int{0, 0, Blank, 1, 1, Blank, 2, 2, Blank, 3, 3, 4, 4, Blank, 5, 5}
	require.Len(t, ring.Terminals(), len(joined))
	for i, terminal := range ring.Terminals() {
		y := -0.6 + 1.2*float64(i)
		assert.InDelta(t, y, terminal.HeightM, 1e-9, "terminal %d", i)
		assert.InDelta(t, y*270/16.8*math.Pi/180, terminal.AngleRad, 1e-9, "terminal %d", i)
		assert.Equal(t, joined[i], terminal.Floor, "terminal %d", i)
	}
	// Dark for (1 + 1 - 1.15) pitch, or lit together for (1.15 - 1) pitch.
	want := []Boundary{
		{Below: 0, Above: 1, BlankTerminals: 1, DarkM: 1.02},
		{Below: 1, Above: 2, BlankTerminals: 1, DarkM: 1.02},
		{Below: 2, Above: 3, BlankTerminals: 1, DarkM: 1.02},
		{Below: 3, Above: 4, OverlapM: 0.18},
		{Below: 4, Above: 5, BlankTerminals: 1, DarkM: 1.02},
	}
	got := ring.Boundaries()
	require.Len(t, got, len(want))
	for i := range want {
		assert.Equal(t, want[i].BlankTerminals, got[i].BlankTerminals)
		assert.InDelta(t, want[i].DarkM, got[i].DarkM, 1e-9, "boundary %d", i)
		assert.InDelta(t, want[i].OverlapM, got[i].OverlapM, 1e-9, "boundary %d", i)
	}
	// Both terminals of a floor make one span of 2.15 pitch.
	for f := range 6 {
		require.Len(t, ring.Lit(f), 1)
		assert.InDelta(t, 2.15*1.2, ring.LitM(f), 1e-9)
	}
	touch := ring.Touch(3)
	assert.InDelta(t, 3.0-0.575*1.2, touch.UpMake, 1e-9)
	assert.InDelta(t, 3.0+0.575*1.2, touch.UpBreak, 1e-9)
	assert.Equal(t, touch.UpMake, touch.DownBreak, "copper on copper has no hysteresis")
	assert.Equal(t, touch.UpBreak, touch.DownMake)
}

func TestTieGoesToTheLowerTerminal(t *testing.T) {
	for _, c := range []struct {
		name  string
		place float64
		live  int
		want  int
	}{
		{"on a terminal, one", 4, 1, 4},
		{"half way, one", 4.5, 1, 4},
		{"a hair above half way counts as a tie", 4.5 + 0.9e-9, 1, 4},
		{"more than a hair above half way", 4.5 + 1.1e-9, 1, 5},
		{"a hair below half way", 4.5 - 1.1e-9, 1, 4},
		{"on a terminal, two: its neighbours tie", 4, 2, 3},
		{"a hair above a terminal, two", 4 + 0.9e-9, 2, 3},
		{"more than a hair above a terminal, two", 4 + 1.1e-9, 2, 4},
		{"between two", 4.3, 2, 4},
		{"half way, three", 4.5, 3, 3},
		{"none below the first", -2, 2, 0},
	} {
		assert.Equal(t, c.want, nearest(c.place, c.live), c.name)
	}
}

func TestFirstTerminalMovesTheRing(t *testing.T) {
	p := unequal()
	first := -1.0
	p.Selector.FirstTerminalM = &first
	ring := ringOf(t, p)
	assert.InDelta(t, -1.0, ring.Terminals()[0].HeightM, 1e-12)
	assert.InDelta(t, 0.2, ring.Terminals()[1].HeightM, 1e-12)
	// Joined to the lowest landing: -1.0 and 0.2 are as near as 0.2 and 1.4 are not.
	assert.Equal(t, 0, ring.Terminals()[0].Floor)
	assert.Equal(t, 0, ring.Terminals()[1].Floor)
	assert.Equal(t, Blank, ring.Terminals()[2].Floor)

	deep := -3.0
	p.Selector.FirstTerminalM = &deep
	ring = ringOf(t, p)
	assert.Equal(t, Blank, ring.Terminals()[0].Floor, "a terminal below the lowest landing's own stays blank")
}

func TestEveryLandingLightsItsOwnLampWithoutBlinking(t *testing.T) {
	r := random()
	for range rounds {
		p := anyPlan(r)
		ring := ringOf(t, p)
		for f, floor := range p.Floors {
			require.Len(t, ring.Lit(f), 1, "%v: a lamp never blinks within its floor", p.Selector)
			require.True(t, ring.Feeds(f, floor.HeightM), "%v: landing %d lights its lamp", p.Selector, f)
			require.InDelta(t, (float64(p.Selector.LiveTerminals-1)+p.Selector.TerminalWidth+p.Selector.BrushWidth)*ring.PitchM(),
				ring.LitM(f), 1e-9)
		}
	}
}

func TestDarkIntervalAndOverlapFollowTheBlankTerminals(t *testing.T) {
	r := random()
	dark, following := 0, 0
	for range rounds {
		p := anyPlan(r)
		ring := ringOf(t, p)
		sum := p.Selector.TerminalWidth + p.Selector.BrushWidth
		boundaries := ring.Boundaries()
		require.Len(t, boundaries, len(p.Floors)-1)
		first := starts(ring)
		for f, b := range boundaries {
			require.Equal(t, f, b.Below)
			require.Equal(t, f+1, b.Above)
			require.Equal(t, first[f+1]-first[f]-p.Selector.LiveTerminals, b.BlankTerminals)
			if b.BlankTerminals == 0 {
				following++
				require.Zero(t, b.DarkM)
				require.InDelta(t, (sum-1)*ring.PitchM(), b.OverlapM, 1e-9)
				continue
			}
			dark++
			require.Zero(t, b.OverlapM)
			require.Greater(t, b.DarkM, 0.0, "one blank terminal is enough")
			require.InDelta(t, (float64(b.BlankTerminals)+1-sum)*ring.PitchM(), b.DarkM, 1e-9)
		}
	}
	assert.Positive(t, dark)
	assert.Positive(t, following)
}

func TestLampBlinksWhenBrushAndTerminalAreNarrow(t *testing.T) {
	p := unequal()
	p.Selector.TerminalWidth, p.Selector.BrushWidth = 0.4, 0.5
	ring, problems := NewRing(p)
	require.Len(t, ring.Lit(0), 2, "two terminals, and a gap between their touches")
	assert.InDelta(t, 0.1*1.2, ring.Lit(0)[1].UpMake-ring.Lit(0)[0].UpBreak, 1e-9)
	require.Len(t, problems, 1)
	assert.Equal(t, "ring.lamp-blinks[sum=0.90 cure=0.61]", problems[0].Say.String())

	p.Selector.BrushWidth = 0.6 // sum 1: the touches meet
	ring, _ = NewRing(p)
	assert.Len(t, ring.Lit(0), 1)
}

func TestTwoFloorRing(t *testing.T) {
	ring := ringOf(t, evenly(2, 3))
	require.Len(t, ring.Boundaries(), 1)
	assert.Equal(t, []int{0, 0, Blank, 1, 1}, floorsOf(ring)) // 2.8 rounds to 3
}

func floorsOf(r *Ring) []int {
	var out []int
	for _, t := range r.Terminals() {
		out = append(out, t.Floor)
	}
	return out
}
