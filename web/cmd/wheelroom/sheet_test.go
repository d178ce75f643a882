package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSheet(t *testing.T) {
	lesson := "../../../lessons/course/two-calls.yaml"
	out := filepath.Join(t.TempDir(), "set.html")
	end, said, complaints := do("sheet", "--lesson", lesson, "--set", "3", "--seed", "9", "--out", out)
	require.Equal(t, exitFine, end, complaints)
	assert.Empty(t, said)
	text, err := os.ReadFile(out)
	require.NoError(t, err)
	assert.Contains(t, string(text), "Sheet 3 of 3")
	assert.Contains(t, string(text), "Set 9:")
	assert.NotContains(t, string(text), "<img")

	for _, c := range []struct {
		name string
		args []string
		end  int
	}{
		{"lesson left out", []string{"sheet"}, exitUsage},
		{"no such format", []string{"sheet", "--lesson", lesson, "--format", "pdf"}, exitUsage},
		{"a set too large", []string{"sheet", "--lesson", lesson, "--set", "1000"}, exitUsage},
		{"no such file", []string{"sheet", "--lesson", "no-such-file.yaml"}, exitInput},
		{"a building", []string{"sheet", "--lesson", written(t, sound)}, exitInput},
	} {
		end, _, complaints := do(c.args...)
		assert.Equal(t, c.end, end, c.name)
		assert.NotEmpty(t, complaints, c.name)
	}
}
