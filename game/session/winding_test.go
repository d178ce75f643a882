package session

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A rig is the screen of hand-winding in somebody's hands.
type rig struct {
	t   *testing.T
	s   *Session
	now WindingNow
}

func newRig(t *testing.T, s *Session, begin map[string]any) *rig {
	t.Helper()
	room, err := ask[WindingRoom](t, s, "winding", "begin", begin)
	require.NoError(t, err)
	return &rig{t, s, room.Now}
}

// do asks, then lets time pass until nothing moves; it returns the refusal.
func (r *rig) do(what string, args any) string {
	r.t.Helper()
	now, err := ask[WindingNow](r.t, r.s, "winding", what, args)
	require.NoError(r.t, err)
	why := now.Refusal
	for range 2000 {
		if !now.Busy {
			break
		}
		now, err = ask[WindingNow](r.t, r.s, "winding", "tick", map[string]any{"seconds": 0.1})
		require.NoError(r.t, err)
	}
	r.now = now
	return why
}

func (r *rig) step(name string) string {
	return r.do("step", map[string]any{"step": name, "by": "A"})
}

func TestWindingFromBetweenFloors(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	before := s.Machine().Hash()
	r := newRig(t, s, map[string]any{"floor": "2", "offMM": 160, "loadKG": 0, "width": 640})
	assert.InDelta(t, 160, r.now.OffMM, 0.5)

	// Out of its order nothing is taken, and the reason is given.
	assert.NotEmpty(t, r.step("hands"))
	assert.NotEmpty(t, r.do("ease", map[string]any{"way": "up"}))
	assert.NotEmpty(t, r.do("call", map[string]any{"floor": "4"}))
	assert.Equal(t, "people", r.now.Next)

	for _, step := range []string{"people", "told", "isolated", "locked-off", "proved-dead", "doors-shut", "hands"} {
		require.Empty(t, r.step(step), step)
	}
	assert.Contains(t, r.now.Switches[3].Direction, "below")
	// The empty car rises when nobody turns the wheel.
	require.Empty(t, r.do("ease", map[string]any{"way": "none"}))
	assert.Greater(t, r.now.OffMM, 160.0)
	assert.Contains(t, r.step("level"), "mm", "too far from the landing for anybody to leave")
	for range 200 {
		left := -r.now.OffMM / r.now.PerTurn
		if math.Abs(left) < 0.05 {
			break
		}
		require.Empty(t, r.do("ease", map[string]any{"way": "down", "turns": -left}))
	}
	assert.InDelta(t, 0, r.now.OffMM, 3)
	assert.Contains(t, r.now.Switches[3].Direction, "between", "thrown with no power")
	assert.Contains(t, r.now.Switches[2].Direction, "above")
	assert.Contains(t, r.now.Switches[4].Direction, "below")
	for _, step := range []string{"level", "brake-set", "wheel-clear", "doors-again"} {
		require.Empty(t, r.step(step), step)
	}
	assert.NotEmpty(t, r.do("step", map[string]any{"step": "lock-removed", "by": "B"}), "somebody else's lock")
	require.Empty(t, r.step("lock-removed"))
	require.Empty(t, r.step("power-on"))
	assert.Equal(t, "done", r.now.Next)
	require.Empty(t, r.do("call", map[string]any{"floor": "4"}))
	assert.Equal(t, "4", r.now.Floor, "it waited for a call, and knew the way")
	assert.InDelta(t, 0, r.now.OffMM, 15)
	assert.Equal(t, before, s.Machine().Hash(), "the lift on the stage is left alone")
	assert.Empty(t, words.Missing())
}

// Who lets go of the brake sooner moves the car less.
func TestWindingLetGo(t *testing.T) {
	moved := func(let bool) float64 {
		s := open(t)
		r := newRig(t, s, map[string]any{"floor": "2", "offMM": 500, "loadKG": 0, "width": 640})
		for _, step := range []string{"people", "told", "isolated", "locked-off", "proved-dead", "doors-shut", "hands"} {
			require.Empty(t, r.step(step))
		}
		_, err := ask[WindingNow](t, s, "winding", "ease", map[string]any{"way": "down"})
		require.NoError(t, err)
		_, err = ask[WindingNow](t, s, "winding", "tick", map[string]any{"seconds": 0.4})
		require.NoError(t, err)
		if let {
			assert.Empty(t, r.do("let", struct{}{}))
		} else {
			assert.Empty(t, r.do("tick", map[string]any{"seconds": 0.01}))
		}
		return 500 - r.now.OffMM
	}
	short, full := moved(true), moved(false)
	assert.Positive(t, short)
	assert.Less(t, short, 0.8*full)
	// A quarter of a turn, π·0.55 m / 41 a turn.
	assert.InDelta(t, 1000*math.Pi*0.55/41/4, full, 1)
}

func TestWindingRefuses(t *testing.T) {
	s := open(t)
	_, err := ask[any](t, s, "winding", "tick", map[string]any{"seconds": 1})
	assert.Equal(t, "winding.not-begun", Phrase(err).ID)
	for want, q := range map[string]map[string]any{
		"drive.no-floor":   {"floor": "cellar"},
		"winding.no-place": {"floor": "G", "offMM": -100},
		"drive.bad-load":   {"floor": "G", "loadKG": -5},
	} {
		_, err := ask[any](t, s, "winding", "begin", q)
		assert.Equal(t, want, Phrase(err).ID)
	}
}
