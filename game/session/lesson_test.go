package session

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/lessons/tutor"
	"wheelroom/physics/phrase"
)

// asked returns a session at the frozen frame of the first item that asks.
func asked(t *testing.T) *Session {
	t.Helper()
	s := open(t)
	require.NoError(t, s.LessonDo("open", s.Lessons()[0].ID+"/2"))
	require.NoError(t, s.Advance(120))
	require.Equal(t, tutor.Asked, s.Lesson().State)
	return s
}

func TestNothingMovesBeforeTheCommit(t *testing.T) {
	s := asked(t)
	hash := s.Machine().Hash()
	for name, do := range map[string]func() error{
		"run":     s.Run,
		"step":    s.Step,
		"advance": func() error { return s.Advance(1) },
		"call":    func() error { return s.Call("4") },
	} {
		err := do()
		require.Error(t, err, name)
		assert.NotEmpty(t, Phrase(err).ID)
	}
	s.Tick(5)
	assert.Equal(t, hash, s.Machine().Hash())
	c := s.Clock()
	assert.False(t, c.CanRun || c.CanStep || c.CanCall)
	assert.Nil(t, s.Lesson().Outcome)
}

func TestCommittedRunGoesToItsExplanation(t *testing.T) {
	s := asked(t)
	require.NoError(t, s.LessonDo("choose", "a"))
	require.NoError(t, s.LessonDo("commit", ""))
	for range 20 {
		if s.Lesson().State == tutor.Observe {
			break
		}
		require.NoError(t, s.LessonDo("continue", ""))
		require.True(t, s.Clock().Running)
		for s.Lesson().State == tutor.Running {
			s.Tick(1.0 / 60)
		}
		require.False(t, s.Clock().Running, "a segment ends by itself")
	}
	require.NoError(t, s.LessonDo("observe", "a"))
	assert.NotEmpty(t, s.Lesson().Explanation)
	require.NoError(t, s.LessonDo("close", ""))
	assert.Nil(t, s.Lesson())
}

// The reader's own machine waits while a lesson has the stage.
func TestLessonLeavesTheReadersMachineAlone(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Call("4"))
	require.NoError(t, s.Advance(6))
	hash := s.Machine().Hash()
	require.NoError(t, s.LessonDo("open", s.Lessons()[0].ID))
	require.NoError(t, s.Advance(2))
	assert.NotEqual(t, hash, s.Machine().Hash())
	require.NoError(t, s.LessonDo("close", ""))
	assert.Equal(t, hash, s.Machine().Hash())
}

func TestRecordBringsTheLessonBack(t *testing.T) {
	s := asked(t)
	require.NoError(t, s.LessonDo("choose", "b"))
	require.NoError(t, s.LessonDo("commit", ""))
	require.NoError(t, s.LessonDo("continue", ""))
	require.NoError(t, s.Advance(1.5))
	other := open(t)
	require.NoError(t, other.Restore(s.Record()))
	assert.Equal(t, s.Lesson(), other.Lesson())
	assert.Equal(t, s.Machine().Hash(), other.Machine().Hash())
}

func TestStartingAgainBeginsTheItemAgain(t *testing.T) {
	s := asked(t)
	require.NoError(t, s.Reset())
	assert.Equal(t, tutor.LeadIn, s.Lesson().State)
	assert.Equal(t, 2, s.Lesson().Item)
}

// What was said of one machine is not left standing beside another.
func TestNothingIsSaidOfTheMachineBefore(t *testing.T) {
	s := open(t)
	for _, c := range []struct {
		name string
		turn func() error
	}{
		{"a lesson", func() error { return s.LessonDo("open", s.Lessons()[0].ID) }},
		{"no lesson", func() error { return s.LessonDo("close", "") }},
		{"a building", func() error { return s.Load(s.text) }},
		{"the beginning", s.Reset},
	} {
		s.say(phrase.Of("stage.pressed", "floor", "1"))
		count := s.Clock().SaidCount
		require.NoError(t, c.turn(), c.name)
		assert.Empty(t, s.Clock().Said, c.name)
		assert.NotEqual(t, count, s.Clock().SaidCount, "%s: the page is to see it", c.name)
	}
}
