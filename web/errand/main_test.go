package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/errand"
	"wheelroom/physics/building"
	"wheelroom/physics/match"
	"wheelroom/physics/match/fitting"
	"wheelroom/physics/proof"
)

// answered runs the command on a task and reads its lines; what it tells of its
// progress only rises.
func answered(t *testing.T, task errand.Task) (progress []errand.Line, last errand.Line) {
	t.Helper()
	in, err := json.Marshal(task)
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, run(bytes.NewReader(in), &out))
	s := bufio.NewScanner(&out)
	s.Buffer(nil, 1<<20)
	for s.Scan() {
		progress = append(progress, last)
		last = errand.Line{}
		require.NoError(t, json.Unmarshal(s.Bytes(), &last), s.Text())
	}
	require.NotEmpty(t, progress)
	progress = progress[1:]
	done := 0
	for _, l := range progress {
		assert.GreaterOrEqual(t, l.Done, done)
		assert.Positive(t, l.Done)
		assert.LessOrEqual(t, l.Done, l.Of)
		done = l.Done
	}
	return progress, last
}

// What comes out in lines is what the proof itself reports, whole.
func TestReportIsTheProofsOwn(t *testing.T) {
	for _, scheme := range []string{"direct", "interlocked", "directional"} {
		p := building.Evenly("House", 4, 3.2)
		p.Control.Scheme = scheme
		progress, last := answered(t, errand.ToProve(&p))
		assert.LessOrEqual(t, len(progress), steps)
		want, err := proof.Prove(context.Background(), proof.Question{Plan: &p}, nil)
		require.NoError(t, err)
		var got proof.Report
		require.NoError(t, json.Unmarshal(last.Report, &got))
		assert.Equal(t, want, got, scheme)
	}
}

// seen is a trip over four landings at 1 m/s past two joined terminals of three
// a floor.
const seen = "time_s,lamp,state\n0,1,on\n0,,depart\n1.2,1,off\n2,2,on\n4.3,2,off\n5.2,3,on\n7.5,3,off\n8.4,4,on\n9.6,,arrive\n"

// And so is a match.
func TestResultIsTheFitsOwn(t *testing.T) {
	p := building.Evenly("House", 4, 3.2)
	progress, last := answered(t, errand.Task{Do: errand.Match, Building: string(building.Write(p)), Observed: seen, SpeedMS: 1, SpeedErrorMS: 0.05})
	assert.NotEmpty(t, progress)
	o, problems := match.Read([]byte(seen), p.Names())
	require.Empty(t, problems)
	o.SpeedMS, o.SpeedErrorMS = 1, 0.05
	want, err := json.Marshal(fitting.Match(&p, o))
	require.NoError(t, err)
	assert.JSONEq(t, string(want), string(last.Report))
}

func TestWhatCannotBeDoneIsAnError(t *testing.T) {
	house := string(building.Write(building.Evenly("House", 4, 3.2)))
	for _, task := range []errand.Task{
		{Do: errand.Prove, Building: "version: 1\nname: [\n"},
		{Do: errand.Match, Building: house, Observed: "time_s,lamp,state\n1,X,on\n"},
		{Do: "sing", Building: house},
	} {
		_, last := answered(t, task)
		assert.NotEmpty(t, last.Error)
		assert.Nil(t, last.Report)
	}
}

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, assert.AnError }

func TestNothingToReadIsAnError(t *testing.T) {
	assert.ErrorIs(t, run(broken{}, &strings.Builder{}), assert.AnError)
}
