package session

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

func catalogue(t *testing.T) *phrase.Catalogue {
	t.Helper()
	c, err := phrase.ReadCatalogue(assets.Words("en")...)
	require.NoError(t, err)
	return c
}

// Every part of every picture has a name, a state and a purpose, at rest and
// on the way.
func TestEveryPartHasWords(t *testing.T) {
	words := catalogue(t)
	for _, b := range append(assets.Buildings(), assets.Building{Text: []byte(twoButton)}) {
		s := openWith(t, words.Text)
		require.NoError(t, s.Load(b.Text))
		buttons := s.Buttons()
		require.NoError(t, s.Call(buttons[len(buttons)-1].Call))
		for range 8 {
			for _, picture := range pictures {
				require.NoError(t, s.View(picture.String()))
				for _, part := range s.Parts() {
					text := s.Describe(part.ID)
					assert.NotContains(t, text.State, words.Text(phrase.Of("state.here")), part.ID)
					assert.NotEmpty(t, part.Group, part.ID)
				}
			}
			require.NoError(t, s.Advance(2.7))
		}
	}
	assert.Empty(t, words.Missing())
}

// One status message a step, of fifteen words at most.
func TestSentencesAreShort(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	require.NoError(t, s.Call("5"))
	require.NoError(t, s.Call("2"))
	require.NoError(t, s.Advance(70))
	said := map[string]bool{}
	for _, e := range s.Machine().Events() {
		if weights[kindOf(e.Part)] == 0 {
			continue
		}
		sentence := words.Text(Sentence(e))
		assert.LessOrEqual(t, len(strings.Fields(sentence)), 15, sentence)
		said[sentence] = true
	}
	assert.Greater(t, len(said), 40)
	assert.Empty(t, words.Missing())
}

// What nothing has touched is not said to be open: its contact closes the
// safety line.
func TestASwitchAtRestIsNotOpen(t *testing.T) {
	s := openWith(t, catalogue(t).Text)
	assert.Equal(t, "Safety line: whole", s.Describe("safety-line").State)
	assert.Equal(t, "Lower slow-down switch: operated", s.Describe("slow-down-bottom").State, "the car stands at the lowest landing")
	for _, part := range resting[:len(resting)-1] {
		assert.Contains(t, s.Describe(part).State, ": not operated", part)
	}
	require.NoError(t, s.Do(lift.Input{Kind: lift.Switch, Part: "stop-switch", State: "open"}))
	require.NoError(t, s.Advance(0.1))
	assert.Equal(t, "Stop switch: operated", s.Describe("stop-switch").State)
	assert.NotEqual(t, "Safety line: whole", s.Describe("safety-line").State)
}
