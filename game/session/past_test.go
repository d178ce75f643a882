package session

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/lessons/tutor"
	"wheelroom/physics/lift"
)

// ridden returns a session whose lift has served two calls.
func ridden(t *testing.T) *Session {
	t.Helper()
	s := open(t)
	require.NoError(t, s.Call("3"))
	require.NoError(t, s.Advance(2))
	require.NoError(t, s.Call("1"))
	require.NoError(t, s.Advance(58))
	return s
}

func TestLookingBackBringsTheSameStateAndChangesNothing(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Call("4"))
	hashes := map[float64]uint64{}
	for range 40 {
		require.NoError(t, s.Advance(0.7))
		hashes[s.Clock().TimeS] = s.Machine().Hash()
	}
	end := s.Machine().Hash()
	for at, want := range hashes {
		require.NoError(t, s.LookAt(at))
		assert.Equal(t, want, s.Machine().Hash(), "at %g s", at)
	}
	require.NoError(t, s.LookAt(11))
	c := s.Clock()
	assert.True(t, c.Looking)
	assert.InDelta(t, 11, c.TimeS, lift.GridS)
	assert.InDelta(t, 28, c.EndS, lift.GridS)
	s.Return()
	assert.Equal(t, end, s.Machine().Hash())
	assert.False(t, s.Clock().Looking)
	require.NoError(t, s.LookAt(1e9))
	assert.Equal(t, end, s.Machine().Hash(), "there is nothing beyond the end")
}

// Every step back undoes one step forward, over the whole run.
func TestStepsBackAreStepsForwardTheOtherWay(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Call("1"))
	forth := []uint64{s.Machine().Hash()}
	said := []string{""}
	for s.Snapshot().Car.Stop != "1" {
		require.NoError(t, s.Step())
		forth = append(forth, s.Machine().Hash())
		said = append(said, s.Clock().Said)
	}
	for i := len(forth) - 2; i > 0; i-- {
		require.NoError(t, s.Back())
		require.Equal(t, forth[i], s.Machine().Hash(), "step %d back", i)
		assert.Equal(t, said[i], s.Clock().Said)
	}
	require.NoError(t, s.Back())
	assert.Equal(t, "time.start", s.Clock().Said)
	assert.Zero(t, s.Clock().TimeS)
	assert.False(t, s.Clock().CanBack)
	for i := 1; i < len(forth); i++ {
		require.NoError(t, s.Step())
		require.Equal(t, forth[i], s.Machine().Hash(), "step %d forward", i)
	}
	assert.False(t, s.Clock().Looking, "the last step is the end")
}

func TestNothingIsSaidWhileSliding(t *testing.T) {
	s := ridden(t)
	for i := range 100 {
		require.NoError(t, s.LookAt(float64(i)*0.55))
		require.Empty(t, s.Clock().Said)
	}
	before := s.Clock().SaidCount
	require.NoError(t, s.LookAtEvent(s.Entries(0)[3].Event))
	assert.Equal(t, before+1, s.Clock().SaidCount, "an event jumped to is said")
	assert.Equal(t, s.Entries(0)[3].Text, s.Clock().Said)
}

// Running on from a moment looked back at shows what has been, with all that
// was done then, and comes to the same end.
func TestRunningOnFromThePastComesToTheSameEnd(t *testing.T) {
	s := ridden(t)
	end, endS := s.Machine().Hash(), s.Clock().EndS
	require.NoError(t, s.LookAt(1))
	require.NoError(t, s.Speed(16))
	require.NoError(t, s.Run())
	for s.Clock().Looking {
		require.True(t, s.Tick(1.0/60))
	}
	assert.True(t, s.Clock().Running, "and it runs on")
	require.NoError(t, s.LookAt(endS-lift.GridS))
	require.NoError(t, s.Advance(lift.GridS))
	assert.Equal(t, end, s.Machine().Hash())
}

// Two speeds, and leaps, tell the same events at the same instants in the same
// order.
func TestSpeedsChangeTheOrderOfNothing(t *testing.T) {
	ride := func(speed float64) []lift.Event {
		s := open(t)
		require.NoError(t, s.Speed(speed))
		for _, call := range []string{"3", "1", "5"} {
			require.NoError(t, s.Call(call))
			require.NoError(t, s.Run())
			for target := s.Clock().TimeS + 9; s.Clock().TimeS < target-1e-9; {
				s.Tick(1.0 / 64)
			}
			s.Pause()
		}
		return s.Machine().Events()
	}
	slow := ride(0.25)
	require.Greater(t, len(slow), 60)
	for _, speed := range []float64{1, 4, 16} {
		assert.Equal(t, slow, ride(speed), "at %g×", speed)
	}
}

func TestACallFromThePastGoesOnFromThere(t *testing.T) {
	s := ridden(t)
	first, endS := s.Machine().Hash(), s.Clock().EndS
	require.NoError(t, s.LookAt(1))
	assert.True(t, s.Clock().CanCall)
	assert.False(t, s.Clock().CanUndo, "looking forgets nothing")
	require.NoError(t, s.Call("5"))
	c := s.Clock()
	assert.Equal(t, "time.pressed-from[floor=5 time=1.0]", c.Said)
	assert.False(t, c.Looking)
	assert.True(t, c.CanUndo)
	assert.InDelta(t, 1, c.EndS, lift.GridS)
	require.NoError(t, s.Advance(40))
	stops := []string{}
	for _, stop := range s.Strip().Stops {
		stops = append(stops, stop.Floor)
	}
	assert.Equal(t, []string{"G", "3", "5"}, stops, "the call to floor 1 was still to come and is gone")

	require.NoError(t, s.Undo())
	assert.True(t, s.Clock().Looking, "back to where the call was pressed")
	assert.InDelta(t, 1, s.Clock().TimeS, lift.GridS)
	s.Return()
	assert.Equal(t, first, s.Machine().Hash())
	assert.Equal(t, endS, s.Clock().EndS)
	require.NoError(t, s.Undo())
	assert.NotEqual(t, first, s.Machine().Hash(), "undone as well")
	require.NoError(t, s.Open("tidemill-house"))
	assert.False(t, s.Clock().CanUndo)
	assert.Error(t, s.Undo())
}

func TestStartingAgainCanBeUndone(t *testing.T) {
	s := ridden(t)
	hash := s.Machine().Hash()
	require.NoError(t, s.Reset())
	require.NoError(t, s.Undo())
	assert.Equal(t, hash, s.Machine().Hash())
}

func TestARecordKeepsWhereOneLooks(t *testing.T) {
	s := ridden(t)
	random := rand.New(rand.NewPCG(5, 5))
	for range 10 {
		require.NoError(t, s.LookAt(random.Float64()*60))
		if random.IntN(2) == 0 {
			require.NoError(t, s.Back())
		}
		other := open(t)
		require.NoError(t, other.Restore(s.Record()))
		require.Equal(t, s.Machine().Hash(), other.Machine().Hash())
		assert.Equal(t, s.Clock().EndS, other.Clock().EndS)
	}
}

// In a lesson one may look back over what has run, and at nothing more: before
// the commit the frozen frame is the end of everything.
func TestALessonCannotBePeekedInto(t *testing.T) {
	s := asked(t)
	frozen, frozenS, events := s.Machine().Hash(), s.Clock().TimeS, len(s.Machine().Events())
	require.Positive(t, frozenS)
	// Whatever one tries, nothing later than the frozen frame is seen.
	for name, do := range map[string]func() error{
		"look far":    func() error { return s.LookAt(1e6) },
		"look at":     func() error { return s.LookAtEvent(events + 5) },
		"step":        s.Step,
		"run":         s.Run,
		"back, step":  func() error { _ = s.Back(); _ = s.Step(); return s.Step() },
		"back, run":   func() error { _ = s.LookAt(0.1); _ = s.Run(); s.Tick(600); return nil },
		"back, leap":  func() error { _ = s.LookAt(0.1); return s.Advance(600) },
		"back, call":  func() error { _ = s.LookAt(0.1); return s.Call("4") },
		"back, undo":  func() error { _ = s.LookAt(0.1); return s.Undo() },
		"back, do":    func() error { return s.Do(lift.Input{Part: "button.4"}) },
		"bad moment":  func() error { return s.LookAtEvent(-1) },
		"run, return": func() error { _ = s.LookAt(0.1); s.Return(); return s.Run() },
	} {
		_ = do()
		c := s.Clock()
		require.LessOrEqual(t, c.TimeS, frozenS, name)
		require.LessOrEqual(t, c.EndS, frozenS, name)
		require.LessOrEqual(t, s.Strip().EndS, frozenS, name)
		for _, e := range s.Entries(0) {
			require.Less(t, e.Event, events, name)
		}
		require.Equal(t, tutor.Asked, s.Lesson().State, name)
	}
	s.Return()
	assert.Equal(t, frozen, s.Machine().Hash())
	require.NoError(t, s.LookAt(frozenS/2))
	assert.True(t, s.Clock().CanRun, "what has run may be shown again")
	require.NoError(t, s.LessonDo("choose", "a"))
	require.NoError(t, s.LessonDo("commit", ""))
	require.NoError(t, s.LessonDo("continue", ""))
	assert.False(t, s.Clock().Looking, "the asked run begins at the frozen frame")
	require.NoError(t, s.Advance(0.5))
	assert.Greater(t, s.Clock().TimeS, frozenS)
}

func TestInputsOfOtherKindsGoOnFromThePastToo(t *testing.T) {
	s := ridden(t)
	require.NoError(t, s.LookAt(3))
	require.Error(t, s.Do(lift.Input{Kind: lift.Switch, Part: "sun", State: "open"}))
	assert.True(t, s.Clock().Looking, "what is refused forgets nothing")
	require.NoError(t, s.Do(lift.Input{Kind: lift.Switch, Part: "stop-switch", State: "open"}))
	assert.False(t, s.Clock().Looking)
	require.NoError(t, s.Advance(1))
	assert.Zero(t, s.Snapshot().Relays["safety"])
}

func TestTheStripTellsTheRun(t *testing.T) {
	s := ridden(t)
	strip := s.Strip()
	require.Len(t, strip.Stops, 3)
	assert.Equal(t, []string{"G", "1", "3"}, []string{strip.Stops[0].Floor, strip.Stops[1].Floor, strip.Stops[2].Floor})
	require.Len(t, strip.Calls, 2)
	for _, c := range strip.Calls {
		assert.Greater(t, c.ToS, c.FromS, "both are answered")
	}
	assert.Equal(t, strip.EndS, strip.Stops[2].ToS, "and there it rests")
	last := -1.0
	for _, p := range strip.Path {
		require.Greater(t, p[0], last-1e-12)
		require.InDelta(t, strip.TopM/2, p[1], strip.TopM/2+0.2)
		last = p[0]
	}
}

func TestEntriesNameTheirCauses(t *testing.T) {
	s := ridden(t)
	all := s.Entries(0)
	require.Greater(t, len(all), 50)
	caused := 0
	for _, e := range all {
		require.Less(t, e.Cause, e.Event)
		if e.Cause >= 0 {
			caused++
		}
	}
	assert.Greater(t, caused, len(all)/2)
	assert.Equal(t, all[10:], s.Entries(all[10].Event), "the list can be asked for from any event on")
}
