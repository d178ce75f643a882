package fitting

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/match"
)

// odd is an observation in which one lamp contradicts the others, so that a
// search goes through all it can do.
func odd(t *testing.T) *match.Observation {
	t.Helper()
	p := shipped(t, "kestrel-court")
	r := rand.New(rand.NewPCG(5, 5))
	w := drawn(p, r)
	w.marks, w.scatterS = true, 0.03
	o := w.see(p, r)
	for i := range o.Edges {
		if o.Edges[i].Floor == 4 {
			o.Edges[i].TimeS += 2 * pitch(p, &w) / w.speedMS
		}
	}
	o.Sort()
	require.Empty(t, o.Check(names(p)))
	return o
}

func TestSearchTellsHowFarItIs(t *testing.T) {
	p := shipped(t, "kestrel-court")
	o := odd(t)
	turns, last, most := 0, 0, 0
	got, err := Search(context.Background(), p, o, func(done, of int) {
		turns++
		require.LessOrEqual(t, last, done)
		require.LessOrEqual(t, most, of)
		require.LessOrEqual(t, done, of)
		last, most = done, of
	})
	require.NoError(t, err)
	assert.Equal(t, last, most, "what was foreseen is what was done")
	assert.Greater(t, most, 2, "a lamp had to be put aside")
	assert.Greater(t, turns, 1000, "in small pieces")
	want := Match(p, o)
	assert.Equal(t, want.Says(), got.Says())
	assert.Equal(t, want.Unexplained, got.Unexplained)
}

// Wherever it is broken off, a search ends soon, with the reason and nothing else.
func TestSearchCanBeBrokenOff(t *testing.T) {
	p := shipped(t, "kestrel-court")
	o := odd(t)
	all := 0
	_, err := Search(context.Background(), p, o, func(int, int) { all++ })
	require.NoError(t, err)
	for k := 0; k < all; k += 1 + all/40 {
		ctx, cancel := context.WithCancel(context.Background())
		turns := 0
		r, err := Search(ctx, p, o, func(int, int) {
			if turns++; turns == k+1 {
				cancel()
			}
		})
		cancel()
		assert.Nil(t, r)
		assert.ErrorIs(t, err, context.Canceled)
		assert.LessOrEqual(t, turns, k+1+200, "%d of %d", k, all)
	}
}
