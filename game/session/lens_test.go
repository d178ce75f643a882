package session

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Whatever is done to it, the lens shows nothing but the picture, the place
// one zooms at stays where it is, and what is pointed at is found there.
func TestTheLensStaysInThePicture(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 7))
	s := open(t)
	s.Size(900, 600)
	for range 400 {
		before := s.Lens()
		x, y := rng.Float64()*900, rng.Float64()*600
		if rng.IntN(3) == 0 {
			s.Pan(rng.NormFloat64()*200, rng.NormFloat64()*200)
			assert.Equal(t, before.Scale, s.Lens().Scale)
		} else {
			require.NoError(t, s.Zoom(0.5+rng.Float64()*1.3, x, y))
			if l := s.Lens(); l.Scale >= before.Scale {
				assert.InDelta(t, before.X+x/before.Scale, l.X+x/l.Scale, 1e-9)
				assert.InDelta(t, before.Y+y/before.Scale, l.Y+y/l.Scale, 1e-9)
			}
		}
		l := s.Lens()
		assert.True(t, l.Scale >= 1 && l.Scale <= LargestScale, l)
		assert.True(t, l.X >= 0 && l.Y >= 0 && l.X+900/l.Scale <= 900+1e-9 && l.Y+600/l.Scale <= 600+1e-9, l)
		assert.InDelta(t, 900, s.Still().Width, 1e-6)

		// A part is found at the middle of its box wherever the lens is.
		b, err := s.Box("brush")
		require.NoError(t, err)
		assert.Equal(t, "brush", s.At((b.X0+b.X1)/2, (b.Y0+b.Y1)/2))
	}
	s.Whole()
	assert.Equal(t, Lens{Scale: 1}, s.Lens())
	assert.Error(t, s.Zoom(0, 1, 1))
}

// Going from part to part the picture follows, and another picture begins
// whole.
func TestTheLensFollowsTheChosenPart(t *testing.T) {
	s := open(t)
	s.Size(900, 600)
	require.NoError(t, s.Zoom(4, 0, 0))
	for _, part := range s.Parts() {
		before, err := s.Box(part.ID)
		if err != nil || before.X1-before.X0 > 900 || before.Y1-before.Y0 > 600 {
			continue
		}
		s.Bring(part.ID)
		b, err := s.Box(part.ID)
		require.NoError(t, err)
		const little = 1e-6
		assert.True(t, b.X0 >= -little && b.Y0 >= -little && b.X1 <= 900+little && b.Y1 <= 600+little, "%s: %v", part.ID, b)
	}
	require.NoError(t, s.View("wheel"))
	assert.Equal(t, 1.0, s.Lens().Scale)
}

// Seen through the lens nothing is stretched: lines and letters grow with it.
func TestTheLensEnlargesWhatIsDrawn(t *testing.T) {
	s := open(t)
	s.Size(900, 600)
	whole := len(s.Moving().Items)
	require.NoError(t, s.Choose("brush"))
	b, err := s.Box("brush")
	require.NoError(t, err)
	require.NoError(t, s.Zoom(3, (b.X0+b.X1)/2, (b.Y0+b.Y1)/2))
	near := s.Moving()
	assert.Less(t, len(near.Items), whole, "what is out of sight is left out")
	c, err := s.Box("brush")
	require.NoError(t, err)
	assert.InDelta(t, 3*(b.X1-b.X0), c.X1-c.X0, 1e-6)
}
