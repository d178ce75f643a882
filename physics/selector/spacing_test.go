package selector

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
)

// darkWord spells the boundaries of a ring from the lowest up: x where a dark
// interval parts two lamps, . where one follows the other.
func darkWord(r *Ring) string {
	var b strings.Builder
	for _, boundary := range r.Boundaries() {
		if boundary.DarkM > 0 {
			b.WriteByte('x')
		} else {
			b.WriteByte('.')
		}
	}
	return b.String()
}

func sameNecklace(a, b string) bool { return len(a) == len(b) && strings.Contains(a+a, b) }

// spaced returns a plan of n boundaries on equal storeys of 3 m with so many
// terminals a floor.
func spaced(boundaries int, perFloor float64, live int) *building.Plan {
	p := evenly(boundaries+1, 3)
	p.Selector.TerminalsPerFloor = perFloor
	p.Selector.LiveTerminals = live
	return p
}

func TestTwoPointEightTerminalsAFloor(t *testing.T) {
	p := spaced(10, 2.8, 2)
	first := -0.1 * 3 / 2.8 // the first landing a tenth of a pitch above terminal 0
	p.Selector.FirstTerminalM = &first
	ring := ringOf(t, p)
	// floor(2.8 k); about 2.8 terminals a floor: common practice, no source.
	assert.Equal(t, []int{0, 2, 5, 8, 11, 14, 16, 19, 22, 25, 28}, starts(ring))
	word := darkWord(ring)
	// Of every five boundaries four have room for a blank terminal, E(4,5)
	// (Toussaint 2005, BRIDGES).
	assert.Equal(t, ".xxxx.xxxx", word)
	for i := 0; i+5 <= len(word); i++ {
		assert.True(t, sameNecklace(word[i:i+5], "xxxx."), word[i:i+5])
	}
	// The default phase has the same necklace.
	plain := darkWord(ringOf(t, spaced(5, 2.8, 2)))
	assert.True(t, sameNecklace(plain, "xxxx."), plain)
}

func TestDarkIntervalsAreEuclideanNecklaces(t *testing.T) {
	// Toussaint 2005, BRIDGES: The Euclidean algorithm generates traditional
	// musical rhythms; compared up to rotation.
	for _, c := range []struct {
		k, n int
		want string
	}{
		{3, 8, "x..x..x."},
		{5, 8, "x.xx.xx."},
		{2, 5, "x.x.."},
		{3, 7, "x.x.x.."},
		{7, 12, "x.xx.x.xx.x."},
		{4, 5, "xxxx."},
	} {
		for live := 1; live <= 3; live++ {
			p := spaced(c.n, float64(live)+float64(c.k)/float64(c.n), live)
			word := darkWord(ringOf(t, p))
			assert.True(t, sameNecklace(word, c.want), "E(%d,%d), %d live: %s, want %s up to rotation",
				c.k, c.n, live, word, c.want)
		}
	}
	assert.False(t, sameNecklace("xx.x.x..", "x..x..x."), "the comparison tells necklaces apart")
}

func TestShareOfDarkBoundariesIsTheExcess(t *testing.T) {
	// On equal floors, m <= p <= m+1, the share of boundaries with a dark
	// interval is p - m: exactly so over whole periods.
	for _, c := range []struct{ k, n, live int }{
		{0, 1, 2}, {1, 1, 2}, {4, 5, 2}, {1, 4, 2}, {1, 3, 1}, {5, 6, 3}, {7, 10, 2},
	} {
		boundaries := c.n * (30 / c.n)
		p := spaced(boundaries, float64(c.live)+float64(c.k)/float64(c.n), c.live)
		word := darkWord(ringOf(t, p))
		assert.Equal(t, boundaries*c.k/c.n, strings.Count(word, "x"), "%+v: %s", c, word)
	}
}

func TestDarkIntervalsAreEvenlySpread(t *testing.T) {
	// Any two stretches of equally many boundaries have numbers of dark
	// intervals that differ by at most one (balanced words).
	r := random()
	for range rounds {
		live := 1 + r.IntN(3)
		excess := r.Float64()
		p := spaced(31, float64(live)+excess, live)
		first := -(float64(live-1)/2 + r.Float64()) * 3 / (float64(live) + excess)
		p.Selector.FirstTerminalM = &first
		word := darkWord(ringOf(t, p))
		require.Len(t, word, 31)
		for n := 1; n <= len(word); n++ {
			least, most := n, 0
			for i := 0; i+n <= len(word); i++ {
				x := strings.Count(word[i:i+n], "x")
				least, most = min(least, x), max(most, x)
				require.Less(t, math.Abs(float64(x)-float64(n)*excess), 1.0, "%s from %d, %d long", word, i, n)
			}
			require.LessOrEqual(t, most-least, 1, "%s, %d long", word, n)
		}
	}
}
