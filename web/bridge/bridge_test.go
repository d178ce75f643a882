package bridge_test

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/phrase"
	"wheelroom/web/bridge"
	"wheelroom/web/program"
)

// A reply is an answer as the page reads it.
type reply struct {
	Value  json.RawMessage
	Error  *string
	Errors []struct {
		Line, Column int
		Text         string
	}
}

func open(t *testing.T) func(name string, args ...any) reply {
	t.Helper()
	english := program.English()
	s, err := english.Session()
	require.NoError(t, err)
	b := bridge.New(s, english.Words.Text)
	return func(name string, args ...any) reply {
		var r reply
		require.NoError(t, json.Unmarshal([]byte(b.Ask(name, args...)), &r), name)
		return r
	}
}

func TestAnswersAreValuesOrWords(t *testing.T) {
	ask := open(t)
	for _, c := range []struct {
		name  string
		args  []any
		error string // "" for a value
	}{
		{"clock", nil, ""},
		{"snapshot", nil, ""},
		{"call", []any{"3"}, ""},
		{"call", []any{"9"}, "There is no floor 9 in this building."},
		{"call", nil, "call was asked with arguments of the wrong number or kind."},
		{"call", []any{3.0}, "call was asked with arguments of the wrong number or kind."},
		{"advance", []any{1.0}, ""},
		{"theme", []any{"slate"}, ""},
		{"theme", []any{"pink"}, "There is no theme called pink."},
		{"restore", []any{"{"}, "The record of the session cannot be read."},
		{"fly", nil, "The stage does not know what fly means."},
	} {
		r := ask(c.name, c.args...)
		if c.error == "" {
			assert.Nil(t, r.Error, c.name)
			continue
		}
		if assert.NotNil(t, r.Error, c.name) {
			assert.Equal(t, c.error, *r.Error)
		}
	}
}

func TestFileErrorsHaveTheirPlaces(t *testing.T) {
	r := open(t)("load", "name: X\nfloors:\n  - {name: G, height_m: 0}\nlift: {car_kilos: 3}\n")
	require.NotNil(t, r.Error)
	require.GreaterOrEqual(t, len(r.Errors), 2)
	for _, e := range r.Errors {
		assert.Positive(t, e.Line)
		assert.Positive(t, e.Column)
		assert.NotEmpty(t, e.Text)
	}
}

// A fault of the program is an answer, and the next question is answered too.
func TestFaultsAreAnswered(t *testing.T) {
	b := bridge.New(nil, phrase.Phrase.String)
	var r reply
	require.NoError(t, json.Unmarshal([]byte(b.Ask("clock")), &r))
	require.NotNil(t, r.Error)
	assert.Contains(t, *r.Error, "stage.broken")
}

func TestDrawsForAPageWithoutACanvas(t *testing.T) {
	ask := open(t)
	var paper, slate string
	require.NoError(t, json.Unmarshal(ask("svg").Value, &paper))
	assert.Contains(t, paper, "<svg")
	assert.NotContains(t, paper, "style=", "the content policy has no room for inline styles")
	ask("theme", "slate")
	require.NoError(t, json.Unmarshal(ask("svg").Value, &slate))
	assert.NotEqual(t, paper, slate)
}

func TestNamesAreWhatThePageUses(t *testing.T) {
	names := bridge.Names()
	for _, used := range []string{"clock", "snapshot", "building", "lessons", "lesson", "parts", "describe", "record", "restore",
		"run", "pause", "step", "reset", "speed", "advance", "tick", "motion", "call", "open", "load", "lessonDo",
		"choose", "press", "view", "theme", "size", "svg"} {
		assert.True(t, slices.Contains(names, used), used)
	}
}
