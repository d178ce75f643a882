package session

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/lift"
)

// WCAG 2.2, 2.3.1: no more than three flashes in any period of one second. A
// flash is a pair of opposing changes; here of any single mark, however small.
const flashesMost = 3

// marksOf are the marks of a view that are on or off.
func marksOf(v *lift.View) []bool {
	var all []bool
	for _, l := range [][]bool{v.Pressed, v.Calls, v.Lamps, v.Rim, v.AdvanceUp, v.AdvanceDown, v.Terminal, v.Relays, v.Contacts, v.Switches} {
		all = append(all, l...)
	}
	for _, d := range v.Direction {
		all = append(all, d == lift.Above, d == lift.Below)
	}
	for _, a := range v.Amperes {
		all = append(all, live(a))
	}
	return all
}

// flicker runs a session for some seconds of the viewer's clock and returns
// the most flashes of any mark in any second: as drawn, and as the machine did.
func flicker(t *testing.T, s *Session, seconds float64) (drawn, truly int) {
	t.Helper()
	const tick = 1.0 / 60
	count := func(view *lift.View) func(now float64) int {
		var last []bool
		var changes [][]float64
		return func(now float64) int {
			most := 0
			marks := marksOf(view)
			if last == nil {
				last, changes = marks, make([][]float64, len(marks))
			}
			for i, on := range marks {
				if on != last[i] {
					last[i] = on
					changes[i] = append(changes[i], now)
				}
				for len(changes[i]) > 0 && changes[i][0] < now-1 {
					changes[i] = changes[i][1:]
				}
				most = max(most, len(changes[i])/2)
			}
			return most
		}
	}
	a, b := count(s.calm.shown()), count(&s.view)
	for now := 0.0; now < seconds; now += tick {
		s.Tick(tick)
		drawn, truly = max(drawn, a(now)), max(truly, b(now))
	}
	return drawn, truly
}

// express puts a building's lift on its way to the highest floor at 16×, which
// passes a vane and five contacts a floor: more than the eye should be given.
func express(t *testing.T, building string) *Session {
	t.Helper()
	s := open(t)
	require.NoError(t, s.Open(building))
	floors := s.Building().Floors
	require.NoError(t, s.Call(floors[len(floors)-1].Name))
	require.NoError(t, s.Speed(16))
	require.NoError(t, s.Run())
	return s
}

func TestNothingFlashesAtAnySpeed(t *testing.T) {
	seen := 0
	for _, b := range open(t).o.Buildings {
		s := express(t, b.ID)
		drawn, truly := flicker(t, s, 4)
		assert.LessOrEqual(t, drawn, flashesMost, b.ID)
		seen = max(seen, truly)
		for _, f := range s.Building().Floors {
			require.NoError(t, s.Call(f.Name))
		}
		require.NoError(t, s.Run())
		drawn, _ = flicker(t, s, 4)
		assert.LessOrEqual(t, drawn, flashesMost, "%s, every floor", b.ID)
	}
	assert.Greater(t, seen, flashesMost, "the machine itself is too fast for the eye, or nothing is tested")
}

// A chattering relay, made by hand: ten times a second at its own speed.
func TestChatterIsHeld(t *testing.T) {
	var c calm
	v := lift.View{Relays: make([]bool, 2)}
	var changes []float64
	was := false
	for i := range 600 {
		c.clockS = float64(i) / 60
		v.Relays[0] = i/3%2 == 1
		c.see(&v, true)
		if on := c.shown().Relays[0]; on != was {
			was = on
			changes = append(changes, c.clockS)
		}
	}
	require.Greater(t, len(changes), 20, "it is still seen to chatter")
	for i := 2*flashesMost + 1; i < len(changes); i++ {
		assert.Greater(t, changes[i]-changes[i-2*flashesMost], 1.0-1e-9)
	}
	v.Relays[0] = !c.shown().Relays[0]
	c.see(&v, false)
	assert.Equal(t, v.Relays[0], c.shown().Relays[0], "standing time shows what is")
}

func TestAPausedPictureIsExact(t *testing.T) {
	s := express(t, "kestrel-court")
	held := func() bool { return !assert.ObjectsAreEqual(marksOf(&s.view), marksOf(s.calm.shown())) }
	for range 500 {
		if s.Tick(1.0 / 60); held() {
			break
		}
	}
	require.True(t, held(), "something is held back")
	s.Pause()
	assert.False(t, held())
}
