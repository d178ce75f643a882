package session

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
	"wheelroom/lessons/tutor"
)

// question asks the lessons' screen.
func question(t *testing.T, s *Session, what string, args any) (any, error) {
	t.Helper()
	text, err := json.Marshal(args)
	require.NoError(t, err)
	return s.Screen(&figure.Paper, "lessons", what, text)
}

// some is a whole answer to a question that chooses or reads a number.
func some(p *tutor.Panel) string {
	if len(p.Options) > 0 {
		return p.Options[0].ID
	}
	return "1"
}

// answerAll answers every item from the open one on, and keeps the progress.
func answerAll(t *testing.T, s *Session, kept, today string) string {
	t.Helper()
	for s.Lesson().State != tutor.Done {
		require.NoError(t, s.Advance(120))
		if s.Lesson().State == tutor.Asked {
			require.NoError(t, s.LessonDo("choose", some(s.Lesson())))
			require.NoError(t, s.LessonDo("commit", ""))
		}
		for s.Lesson().CanContinue {
			require.NoError(t, s.LessonDo("continue", ""))
			require.NoError(t, s.Advance(200))
		}
		if s.Lesson().State == tutor.Observe {
			require.NoError(t, s.LessonDo("observe", s.Lesson().Chosen))
		}
		next, err := question(t, s, "note", learning{kept, today})
		require.NoError(t, err)
		kept = next.(string)
		require.NoError(t, s.LessonDo("next", ""))
	}
	return kept
}

// state is what the list says of the first lesson.
func state(t *testing.T, s *Session, kept, today string) Learned {
	t.Helper()
	list, err := question(t, s, "list", learning{kept, today})
	require.NoError(t, err)
	return list.([]Group)[0].Lessons[0]
}

func TestWhatALearnerDoesIsNotedAndComesBackForReview(t *testing.T) {
	s := open(t)
	id := s.Lessons()[0].ID
	require.NoError(t, s.LessonDo("open", id))
	assert.Zero(t, state(t, s, "", "2026-02-01").Answered)
	kept := answerAll(t, s, "", "2026-02-01")
	done := state(t, s, kept, "2026-02-01")
	assert.Equal(t, "2026-02-01", done.Finished)
	assert.Positive(t, done.Answered)
	assert.False(t, done.Due)
	assert.True(t, state(t, s, kept, "2026-02-02").Due)
	if s.Lessons()[0].Reviews > 0 {
		require.NoError(t, s.LessonDo("open", id+"/review"))
		kept = answerAll(t, s, kept, "2026-02-02")
		again := state(t, s, kept, "2026-02-02")
		assert.False(t, again.Due)
		assert.Equal(t, "2026-02-04", again.Next)
		assert.Equal(t, done.Answered, again.Answered, "reviews are not counted with the items")
	}
	back, err := question(t, s, "read", map[string]string{"text": kept})
	require.NoError(t, err)
	assert.Equal(t, kept, back)
}

func TestProgressThatIsNoneIsRefused(t *testing.T) {
	s := open(t)
	for what, args := range map[string]any{
		"list": learning{"{", "2026-02-01"},
		"note": learning{"", "today"},
		"read": map[string]string{"text": "{}"},
	} {
		_, err := question(t, s, what, args)
		require.Error(t, err, what)
	}
}

// What is pressed in the picture answers a question for a part; resting on a
// part answers nothing.
func TestAPartIsPointedAtInThePicture(t *testing.T) {
	s := open(t)
	require.NoError(t, s.LessonDo("open", "one-call/3"))
	require.NoError(t, s.Advance(60))
	require.NoError(t, s.Choose("relay.stop"))
	assert.Empty(t, s.Lesson().Chosen)
	require.NoError(t, s.Press())
	assert.Equal(t, "relay.stop", s.Lesson().Chosen)
	require.NoError(t, s.Choose("call.3"))
	require.NoError(t, s.Press())
	assert.Equal(t, "call.3", s.Lesson().Chosen)
	require.NoError(t, s.Choose("brush"))
	require.NoError(t, s.Press())
	assert.Equal(t, "call.3", s.Lesson().Chosen, "what is no answer changes none")
	assert.Equal(t, "lesson.pointed-elsewhere", s.Clock().Said)
}
