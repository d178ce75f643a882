package main

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestDriveEnds(t *testing.T) {
	good, bad := written(t, sound), written(t, unsound)
	for _, c := range []struct {
		name string
		args []string
		end  int
		says string
	}{
		{"all is well", []string{"--building", good}, exitFine, ""},
		{"bad building", []string{"--building", bad}, exitInput, bad + ":"},
		{"no such file", []string{"--building", good + "x"}, exitInput, "house.yamlx"},
		{"no building", nil, exitUsage, "--building"},
		{"no such floor", []string{"--building", good, "--to", "7"}, exitInput, "no floor 7"},
		{"no way", []string{"--building", good, "--to", "G"}, exitInput, "no trip"},
		{"load below nothing", []string{"--building", good, "--load=-1"}, exitInput, "load"},
		{"load not a number", []string{"--building", good, "--load=NaN"}, exitInput, "load"},
		{"handwheel too heavy", []string{"--building", good, "--handwheel", "7"}, exitInput, "handwheel"},
		{"unknown format", []string{"--building", good, "--format", "xml"}, exitUsage, "format"},
	} {
		end, stdout, stderr := do(append([]string{"drive"}, c.args...)...)
		assert.Equal(t, c.end, end, "%s: %s", c.name, stderr)
		assert.Contains(t, stderr, c.says, c.name)
		assert.Equal(t, c.end == exitFine, stdout != "", c.name)
		assert.NotContains(t, stdout+stderr, "⟦", c.name)
	}
}

func TestDriveSaysTheSameInEveryFormat(t *testing.T) {
	house := written(t, sound)
	ask := []string{"drive", "--building", house, "--load", "630", "--handwheel", "0.6", "--fit"}
	end, text, _ := do(append(ask, "--format", "text")...)
	require.Equal(t, exitFine, end)
	assert.True(t, strings.HasPrefix(text, "A teaching model."))

	file := filepath.Join(t.TempDir(), "drive.json")
	end, stdout, _ := do(append(ask, "--format", "json", "--out", file)...)
	require.Equal(t, exitFine, end)
	assert.Empty(t, stdout)
	read, err := os.ReadFile(file)
	require.NoError(t, err)
	var report struct {
		LoadKG    float64 `json:"load_kg"`
		Handwheel float64 `json:"handwheel_kg_m2"`
		Figures   map[string]*float64
	}
	require.NoError(t, json.Unmarshal(read, &report))
	assert.Equal(t, 630.0, report.LoadKG)
	assert.Equal(t, 0.6, report.Handwheel)

	end, stdout, _ = do(append(ask, "--format", "csv")...)
	require.Equal(t, exitFine, end)
	rows, err := csv.NewReader(strings.NewReader(stdout)).ReadAll()
	require.NoError(t, err)
	for _, row := range rows {
		if row[0] == "trip" && row[4] == "change-jerk" {
			assert.InDelta(t, *report.Figures["change-jerk"], number(t, row[5]), 1e-6)
		}
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	var v float64
	require.NoError(t, json.Unmarshal([]byte(text), &v))
	return v
}
