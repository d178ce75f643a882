package session

import (
	"encoding/base64"
	"encoding/csv"
	"encoding/json"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets/fonts"
	"wheelroom/game/figure"
	"wheelroom/physics/phrase"
)

func takenFrom[T any](t *testing.T, s *Session, what string, args any) (answer T) {
	t.Helper()
	text, err := json.Marshal(args)
	require.NoError(t, err)
	value, err := s.Screen(&figure.Slate, "takeaway", what, text)
	require.NoError(t, err, what)
	text, err = json.Marshal(value)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &answer))
	return answer
}

func TestPicturesAreTakenAtTheMomentLookedAt(t *testing.T) {
	s := ridden(t)
	seen := map[string]bool{}
	for _, at := range []float64{3, 60} {
		require.NoError(t, s.LookAt(at))
		for _, p := range pictures {
			text := takenFrom[string](t, s, "picture", TakePicture{Picture: p.String(), Theme: "paper", Width: 600, Height: 500,
				Regular: base64.StdEncoding.EncodeToString(fonts.RegularWeb)})
			assert.True(t, strings.HasPrefix(text, "<svg"), p)
			assert.Contains(t, text, "<title")
			assert.NotContains(t, text, "<image", "vectors only")
			seen[text] = true
		}
	}
	assert.Len(t, seen, 10, "each picture differs with the moment")
}

func seconds3(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// The trace is that of the native command: every signal once, then changes.
func TestTheTraceEndsAtTheMomentLookedAt(t *testing.T) {
	s := ridden(t)
	require.NoError(t, s.LookAt(12.5))
	rows, err := csv.NewReader(strings.NewReader(takenFrom[string](t, s, "trace", map[string]string{"Format": "csv"}))).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, []string{"time_s", "signal", "value"}, rows[0])
	assert.Equal(t, "0.000", rows[1][0])
	assert.LessOrEqual(t, seconds3(t, rows[len(rows)-1][0]), 12.5)
	assert.Greater(t, len(rows), 100)
	assert.Contains(t, takenFrom[string](t, s, "trace", map[string]string{"Format": "vcd"}), "$enddefinitions")
	_, err = s.Screen(&figure.Paper, "takeaway", "trace", []byte(`{"Format":"xls"}`))
	assert.Error(t, err)
}

// The rows of the chart follow each other and cover the run.
func TestTheChartOfTheWholeRun(t *testing.T) {
	s := openWith(t, catalogue(t).Text)
	require.NoError(t, s.Call("3"))
	require.NoError(t, s.Advance(95))
	rows := takenFrom[[]string](t, s, "charts", map[string]float64{"Width": 680})
	require.GreaterOrEqual(t, len(rows), 2)
	assert.Contains(t, rows[0], ">0<", "the first begins at nothing")
	assert.NotContains(t, rows[1], ">0<")
	assert.Contains(t, rows[len(rows)-1], "95.0")
	require.NoError(t, s.LookAt(4))
	assert.Len(t, takenFrom[[]string](t, s, "charts", map[string]float64{"Width": 680}), 1)
}

func TestTablesTellTheMachine(t *testing.T) {
	s := ridden(t)
	require.NoError(t, s.LookAt(8))
	tables := takenFrom[TakeTables](t, s, "tables", struct{}{})
	assert.Equal(t, "G", tables.Stops[0][0])
	assert.Len(t, tables.Calls, 2, "as far as the moment looked at")
	plan := s.machine().Plan()
	assert.Len(t, tables.Terminals, len(s.machine().Ring().Terminals()))
	assert.Len(t, tables.Relays, len(s.machine().Wiring().Coils))
	for _, r := range tables.Relays {
		if r[0] == (phrase.Of("part.relay-direction")).String() {
			assert.Equal(t, []string{"K", s.figure(30, 0), s.figure(10, 0)}, r[1:4], "of the plan: %g s", plan.Control.DirectionOperateS)
		}
	}
}

// In a lesson nothing can be taken that has not run.
func TestNothingIsTakenThatALessonHides(t *testing.T) {
	s := asked(t)
	now := s.Clock().TimeS
	facts := takenFrom[TakeFacts](t, s, "facts", struct{}{})
	assert.Equal(t, now, facts.EndS)
	assert.Equal(t, "lesson="+s.Lesson().ID+"&item=2", facts.Link)
	rows, err := csv.NewReader(strings.NewReader(takenFrom[string](t, s, "trace", map[string]string{"Format": "csv"}))).ReadAll()
	require.NoError(t, err)
	for _, r := range rows[1:] {
		assert.LessOrEqual(t, seconds3(t, r[0]), now+0.0005)
	}
}
