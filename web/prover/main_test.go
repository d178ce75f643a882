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

	"wheelroom/physics/building"
	"wheelroom/physics/proof"
)

// prove runs the command on a text and reads its lines.
func prove(t *testing.T, text []byte) (lines []line) {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, run(bytes.NewReader(text), &out))
	for s := bufio.NewScanner(&out); s.Scan(); {
		var l line
		require.NoError(t, json.Unmarshal(s.Bytes(), &l), s.Text())
		lines = append(lines, l)
	}
	require.NotEmpty(t, lines)
	return lines
}

// What comes out in lines is what the proof itself reports, whole.
func TestReportIsTheProofsOwn(t *testing.T) {
	for _, scheme := range []string{"direct", "interlocked", "directional"} {
		p := building.Evenly("House", 4, 3.2)
		p.Control.Scheme = scheme
		lines := prove(t, building.Write(p))
		done := 0
		for _, l := range lines[:len(lines)-1] {
			assert.Greater(t, l.Done, done)
			assert.LessOrEqual(t, l.Done, l.Of)
			done = l.Done
		}
		assert.LessOrEqual(t, len(lines), steps+1)
		want, err := proof.Prove(context.Background(), proof.Question{Plan: &p}, nil)
		require.NoError(t, err)
		assert.Equal(t, &want, lines[len(lines)-1].Report, scheme)
	}
}

func TestABadFileIsAnError(t *testing.T) {
	lines := prove(t, []byte("version: 1\nname: [\n"))
	require.Len(t, lines, 1)
	assert.NotEmpty(t, lines[0].Error)
	assert.Nil(t, lines[0].Report)
}

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, assert.AnError }

func TestNothingToReadIsAnError(t *testing.T) {
	assert.ErrorIs(t, run(broken{}, &strings.Builder{}), assert.AnError)
}
