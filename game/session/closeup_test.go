package session

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The loupe shows what it follows in its middle, at rest and on the way, and
// whatever picture is on the stage.
func TestTheLoupeFollowsItsPart(t *testing.T) {
	s := open(t)
	require.NoError(t, s.View("circuit"))
	require.NoError(t, s.Call("4"))
	for range 6 {
		require.NoError(t, s.Advance(1.1))
		for _, part := range []string{"brush", "centre-ramp", "advance-up-ramp", "advance-down-ramp", "crossover"} {
			f, err := s.Loupe(part, 240)
			require.NoError(t, err)
			assert.InDelta(t, 240, f.Width, 1e-9)
			// The place noted for a part lies within what is drawn of it.
			b, shown := f.PartBounds(part)
			require.True(t, shown, part)
			assert.True(t, b.Holds(120, 120), "%s at %.0f %.0f %.0f %.0f", part, b.X0, b.Y0, b.X1, b.Y1)
		}
	}
	_, err := s.Loupe("car", 240)
	assert.Error(t, err)
	_, err = s.Loupe("brush", 0)
	assert.Error(t, err)
}

// Loupe and strip are of the building on the stage, and point out the part
// that is chosen there.
func TestCloseUpsAreOfTheMachineOnTheStage(t *testing.T) {
	s := open(t)
	texts := func() (list []string) {
		for _, it := range s.Rim(600).Items {
			if it.Text != "" {
				list = append(list, it.Text)
			}
		}
		return list
	}
	assert.Contains(t, texts(), "G")
	bare := len(s.Rim(600).Items)
	require.NoError(t, s.Choose("landing.3"))
	assert.Len(t, s.Rim(600).Items, bare+1, "a shade behind floor 3")
	require.NoError(t, s.Load([]byte("name: Two\nfloors: [{name: low, height_m: 0}, {name: high, height_m: 4}]\n")))
	assert.Contains(t, texts(), "high")
	assert.NotContains(t, texts(), "G")
}
