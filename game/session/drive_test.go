package session

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/machineroom"
	"wheelroom/physics/study"
)

func driveAsk(s map[string]any) map[string]any {
	q := map[string]any{"from": "1", "to": "3", "loadKG": 150, "handwheel": 1.2, "light": 0.3, "heavy": 1.2, "fit": true, "width": 640}
	for k, v := range s {
		q[k] = v
	}
	return q
}

func TestDriveTripAndItsFiles(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	before := s.Machine().Hash()
	form, err := ask[DriveForm](t, s, "drive", "form", struct{}{})
	require.NoError(t, err)
	assert.True(t, form.Fresh)
	assert.NotEqual(t, form.From, form.To)
	form, err = ask[DriveForm](t, s, "drive", "form", struct{}{})
	require.NoError(t, err)
	assert.False(t, form.Fresh, "what the reader has chosen stays")

	trip, err := ask[DriveTrip](t, s, "drive", "trip", driveAsk(nil))
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(trip.Journey.SVG, "<svg"))
	require.GreaterOrEqual(t, len(trip.Sequences), 2)
	for _, which := range []string{"start", "stop"} {
		q, err := ask[machineroom.SequenceScreen](t, s, "drive", "sequence", driveAsk(map[string]any{"which": which}))
		require.NoError(t, err)
		assert.Greater(t, len(q.Links), 8)
		assert.Positive(t, q.Links[1].X)
	}
	for which, column := range map[string]string{"trip": "speed_m_s", "compare": "heavy_speed_m_s", "figures": "figure"} {
		text, err := ask[string](t, s, "drive", "table", driveAsk(map[string]any{"which": which}))
		require.NoError(t, err)
		rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
		require.NoError(t, err)
		assert.Contains(t, rows[0], column)
		assert.Greater(t, len(rows), 20)
	}
	assert.Equal(t, before, s.Machine().Hash(), "the lift on the stage is left alone")
	assert.Empty(t, words.Missing())
}

// A sweep asked for piece by piece is the one made at once.
func TestDrivePieces(t *testing.T) {
	s := open(t)
	var last Progress[machineroom.LoadsScreen]
	for part := range study.Shares {
		p, err := ask[Progress[machineroom.LoadsScreen]](t, s, "drive", "loads", driveAsk(map[string]any{"part": part}))
		require.NoError(t, err)
		assert.Equal(t, part+1, p.Done)
		assert.Equal(t, part+1 == len(study.Shares), p.Whole)
		last = p
	}
	plan, _ := study.With(s.Machine().Plan(), study.Choice{HandwheelKGM2: 1.2, Fit: true})
	whole, err := study.Over(&plan, 1, 3, study.Shares)
	require.NoError(t, err)
	desk := s.desks.drive.sweep
	assert.Equal(t, whole.LeastM, desk.LeastM)
	assert.Equal(t, whole.MostM, desk.MostM)
	require.Len(t, last.Screen.Table.Rows, len(study.Shares))
	again, err := ask[Progress[machineroom.LoadsScreen]](t, s, "drive", "loads", driveAsk(map[string]any{"part": 0}))
	require.NoError(t, err)
	assert.True(t, again.Whole, "what was measured is kept")
	_, err = ask[Progress[machineroom.LoadsScreen]](t, s, "drive", "loads", driveAsk(map[string]any{"part": 3, "loadKG": 151}))
	assert.Equal(t, "drive.piece-missed", Phrase(err).ID)

	for part := range study.Handwheels {
		p, err := ask[Progress[machineroom.WheelsScreen]](t, s, "drive", "wheels", driveAsk(map[string]any{"part": part}))
		require.NoError(t, err)
		assert.Equal(t, part+1, p.Done)
		assert.Len(t, p.Screen.Table.Rows, part+1)
	}
}

func TestDriveRefuses(t *testing.T) {
	s := open(t)
	for want, q := range map[string]map[string]any{
		"drive.no-floor":      {"to": "cellar"},
		"drive.no-way":        {"to": "1"},
		"drive.bad-load":      {"loadKG": -1},
		"drive.bad-handwheel": {"handwheel": 7},
	} {
		_, err := ask[any](t, s, "drive", "trip", driveAsk(q))
		assert.Equal(t, want, Phrase(err).ID)
	}
	_, err := ask[any](t, s, "drive", "sequence", driveAsk(map[string]any{"which": "stop-99"}))
	assert.Equal(t, "drive.no-sequence", Phrase(err).ID)
}

// The reader's own lift shows its starts and stops as well.
func TestDriveSequencesOfTheLift(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	require.NoError(t, s.Call("2"))
	require.NoError(t, s.Advance(40))
	trip, err := ask[DriveTrip](t, s, "drive", "trip", driveAsk(nil))
	require.NoError(t, err)
	require.Len(t, trip.Sequences, 4)
	own, err := ask[machineroom.SequenceScreen](t, s, "drive", "sequence", driveAsk(map[string]any{"which": trip.Sequences[3].ID}))
	require.NoError(t, err)
	assert.Contains(t, own.Links[len(own.Links)-1].Text, "open")
	assert.Empty(t, words.Missing())
}
