package session

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/control"
	"wheelroom/physics/proof"
)

// caseBetween opens a proof's case that begins between two landings, and lets
// it run.
func caseBetween(t *testing.T) *Session {
	t.Helper()
	s := open(t)
	calls := s.own().Wiring().Diagram.Calls
	s.desks.proof = &proving{work: work{state: finished}, plan: *s.plan, report: proof.Report{
		Wrong: &proof.Case{Floor: -1, FromM: 5.1, ToM: 6.2, Calls: []control.Call{calls[0], calls[4]}},
	}}
	_, err := ask[Proving](t, s, "circuit", "prove", map[string]any{"do": "open"})
	require.NoError(t, err)
	require.InDelta(t, 5.65, s.view.CarM, 1e-9, "half-way")
	require.NoError(t, s.Advance(6.78))
	require.NotZero(t, s.view.SpeedMS)
	return s
}

// A frame that was lost comes back to a run that began between two landings.
func TestARecordKeepsAStartBetweenLandings(t *testing.T) {
	s := caseBetween(t)
	text, err := json.Marshal(s.Record())
	require.NoError(t, err)
	var r Record
	require.NoError(t, json.Unmarshal(text, &r))
	other := open(t)
	require.NoError(t, other.Restore(r))
	assert.Equal(t, s.Machine().Hash(), other.Machine().Hash())
	assert.Equal(t, s.Snapshot(), other.Snapshot())

	// It also begins again, and goes on after a change of the building, there.
	for _, x := range []*Session{s, other} {
		_, err := ask[string](t, x, "circuit", "scheme", map[string]any{"name": "interlocked"})
		require.NoError(t, err)
		require.NoError(t, x.Reset())
		assert.InDelta(t, 5.65, x.view.CarM, 1e-9)
	}

	hash := other.Machine().Hash()
	for _, height := range []float64{-0.1, 16.9} { // of 16.8 m
		r.HeightM = &height
		err := other.Restore(r)
		require.Error(t, err)
		assert.Equal(t, "stage.unknown-height", Phrase(err).ID)
		assert.Equal(t, hash, other.Machine().Hash())
	}
}

// A building that has become lower has the car begin at its top.
func TestALowerBuildingKeepsTheStartInReach(t *testing.T) {
	s := caseBetween(t)
	sheet, err := s.use(`version: 1
name: Low
floors:
  - {name: G, height_m: 0}
  - {name: "1", height_m: 2.7}
  - {name: "2", height_m: 5.4}
selector: {span_deg: 120}
`)
	require.NoError(t, err)
	require.True(t, sheet.Sound, "%v", sheet.Faults)
	require.NoError(t, s.Reset())
	assert.InDelta(t, 5.4, s.view.CarM, 1e-9)
}

func TestALinkKeepsAStartBetweenLandings(t *testing.T) {
	s := caseBetween(t)
	text := s.Link().String()
	assert.Contains(t, text, "&height=5.65")
	other := open(t)
	require.NoError(t, other.OpenLink("#"+text), text)
	assert.Equal(t, s.Machine().Hash(), other.Machine().Hash())
	assert.Equal(t, text, other.Link().String())
}
