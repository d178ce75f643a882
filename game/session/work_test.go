package session

import (
	"context"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/errand"
	"wheelroom/physics/building"
	"wheelroom/physics/match"
	"wheelroom/physics/match/fitting"
	"wheelroom/physics/proof"
)

// errandDone does what the page's worker would do with a task, and returns its
// report.
func errandDone(t *testing.T, task *errand.Task) json.RawMessage {
	t.Helper()
	require.NotNil(t, task)
	plan, problems := building.Read("", []byte(task.Building))
	require.Empty(t, problems)
	var report any
	var err error
	switch task.Do {
	case errand.Prove:
		report, err = proof.Prove(context.Background(), proof.Question{Plan: &plan}, nil)
	case errand.Match:
		seen, problems := match.Read([]byte(task.Observed), plan.Names())
		require.Empty(t, problems)
		seen.SpeedMS, seen.SpeedErrorMS = task.SpeedMS, task.SpeedErrorMS
		report = fitting.Match(&plan, seen)
	default:
		t.Fatalf("a task to %q", task.Do)
	}
	require.NoError(t, err)
	text, err := json.Marshal(report)
	require.NoError(t, err)
	return text
}

// Long work goes on as the page tells of it, and ends once.
func TestWorkIsTold(t *testing.T) {
	start := func() *work { return &work{state: underWay} }
	var report struct{ N int }

	w := start()
	require.NoError(t, w.take(WorkStep{Do: "done", Done: 3, Of: 7}, &report))
	assert.Equal(t, work{done: 3, of: 7, state: underWay}, *w)
	require.NoError(t, w.take(WorkStep{Do: "look"}, &report))
	assert.Equal(t, work{done: 3, of: 7, state: underWay}, *w)
	assert.Error(t, w.take(WorkStep{Do: "report", Report: json.RawMessage(`{"N": "x"}`)}, &report))
	assert.Equal(t, underWay, w.state)
	require.NoError(t, w.take(WorkStep{Do: "report", Report: json.RawMessage(`{"N": 4}`)}, &report))
	assert.Equal(t, finished, w.state)
	assert.Equal(t, 4, report.N)

	for do, state := range map[string]string{"cancel": cancelled, "failed": failed} {
		w = start()
		require.NoError(t, w.take(WorkStep{Do: do, Reason: "no room"}, &report))
		assert.Equal(t, state, w.state)
		late := *w
		for _, q := range []WorkStep{{Do: "report", Report: json.RawMessage(`{"N": 9}`)}, {Do: "failed"}, {Do: "cancel"}, {Do: "done", Done: 1, Of: 1}} {
			require.NoError(t, w.take(q, &report))
			assert.Equal(t, late, *w, "too late")
		}
		assert.Equal(t, 4, report.N)
	}
}
