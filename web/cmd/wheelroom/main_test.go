package main

import (
	"bytes"
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/web/languages"
)

const sound = `version: 1
name: Test House
floors:
  - {name: G, height_m: 0}
  - {name: "1", height_m: 4}
  - {name: "2", height_m: 8}
`

const unsound = `version: 1
name: Test House
floors:
  - {name: G, height_m: 0}
  - {name: "1", height_m: 1}
lift: {car_kilos: 900}
`

// written puts a file into a folder of its own.
func written(t *testing.T, text string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "house.yaml")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	return file
}

func do(args ...string) (end int, stdout, stderr string) {
	var out, complaints bytes.Buffer
	end = run(args, &out, &complaints)
	return end, out.String(), complaints.String()
}

// The words come in the language asked for, English if none.
func TestLanguage(t *testing.T) {
	file := written(t, unsound)
	_, _, plain := do("check", file)
	for _, args := range [][]string{{"--language", "en", "check", file}, {"check", "--language=en", file}} {
		end, _, said := do(args...)
		assert.Equal(t, exitInput, end)
		assert.Equal(t, plain, said)
	}
	end, _, said := do("check", file, "--language", "xx")
	assert.Equal(t, exitUsage, end)
	assert.Contains(t, said, `"xx"`)
	assert.Contains(t, said, languages.English)
}

// Every command that has words says them in the language asked for.
func TestEveryCommandSpeaks(t *testing.T) {
	const house = "../../../assets/buildings/tidemill-house.yaml"
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"--help"}, "Ein Lehrmodell"},
		{[]string{"trace", "--help"}, "jedes Signal"},
		{[]string{"check", written(t, unsound)}, "Schlüssel car_kilos"},
		{[]string{"drive", "--building", house}, "Stockwerk"},
		{[]string{"ring", "--building", house}, "Lamellen"},
		{[]string{"prove", "--building", written(t, sound)}, "Bewiesen"},
		{[]string{"picture", "--building", house}, ">Ruf 3<"},
		{[]string{"sheet", "--lesson", "../../../lessons/course/de/two-calls.yaml"}, `<html lang="de">`},
	} {
		_, out, complaints := do(append(c.args, "--language", "de")...)
		assert.NotContains(t, out+complaints, "⟦", c.args[0])
		assert.Contains(t, out+complaints, c.want, c.args[0])
	}
}

func TestEnds(t *testing.T) {
	good, bad := written(t, sound), written(t, unsound)
	for _, c := range []struct {
		name string
		args []string
		end  int
	}{
		{"help", []string{"--help"}, exitFine},
		{"help of a command", []string{"trace", "--help"}, exitFine},
		{"nothing shows the help", nil, exitFine},
		{"no such command", []string{"fly"}, exitUsage},
		{"no such flag", []string{"trace", "--fast"}, exitUsage},
		{"building left out", []string{"trace", "--until", "idle"}, exitUsage},
		{"until when", []string{"trace", "--building", good, "--until", "soon"}, exitUsage},
		{"no such format", []string{"trace", "--building", good, "--until", "1", "--format", "xml"}, exitUsage},
		{"a call without its time", []string{"trace", "--building", good, "--call", "1", "--until", "1"}, exitUsage},
		{"a call of no floor", []string{"trace", "--building", good, "--call", "7@1", "--until", "1"}, exitInput},
		{"a start at no floor", []string{"trace", "--building", good, "--start", "7", "--until", "1"}, exitInput},
		{"no such file", []string{"trace", "--building", good + "x", "--until", "1"}, exitInput},
		{"an unsound file", []string{"trace", "--building", bad, "--until", "1"}, exitInput},
		{"check of an unsound file", []string{"check", good, bad}, exitInput},
		{"check of nothing", []string{"check"}, exitUsage},
		{"all is well", []string{"check", good}, exitFine},
	} {
		t.Run(c.name, func(t *testing.T) {
			end, stdout, stderr := do(c.args...)
			assert.Equal(t, c.end, end, stderr)
			if c.end == exitFine {
				assert.Empty(t, stderr)
				assert.NotEmpty(t, stdout)
			} else {
				assert.NotEmpty(t, stderr, "an error is said on standard error")
				assert.NotContains(t, stderr, "⟦", "in words")
			}
		})
	}
}

func TestHelpIsWorded(t *testing.T) {
	_, whole, _ := do()
	assert.Contains(t, whole, "It qualifies nobody")
	for _, command := range []string{"serve", "trace", "check"} {
		assert.Contains(t, whole, command)
		_, text, _ := do(command, "--help")
		for line := range strings.Lines(text) {
			flag, help, is := strings.Cut(strings.TrimSpace(line), "=")
			if is && strings.HasPrefix(flag, "--") {
				assert.Contains(t, help, "  ", "%s %s has words", command, flag)
			}
		}
		assert.NotContains(t, text, "⟦")
	}
}

func TestCheckNamesEveryErrorByItsPlace(t *testing.T) {
	good, bad := written(t, sound), written(t, unsound)
	_, stdout, stderr := do("check", good, bad)
	assert.Equal(t, "ok "+good+"\n", stdout)
	lines := strings.Split(strings.TrimSpace(stderr), "\n")
	require.GreaterOrEqual(t, len(lines), 2)
	for _, line := range lines {
		assert.Regexp(t, "^"+bad+`:\d+:\d+: `, line)
	}
}

func TestShippedFilesAreSound(t *testing.T) {
	var files []string
	for _, pattern := range []string{"../../../assets/buildings/*.yaml", "../../../lessons/course/*.yaml"} {
		some, err := filepath.Glob(pattern)
		require.NoError(t, err)
		files = append(files, some...)
	}
	require.GreaterOrEqual(t, len(files), 4)
	end, stdout, stderr := do(append([]string{"check"}, files...)...)
	assert.Equal(t, exitFine, end, stderr)
	assert.Equal(t, len(files), strings.Count(stdout, "ok "))
}

func TestTraceServesItsCalls(t *testing.T) {
	end, stdout, stderr := do("trace", "--building", written(t, sound), "--start", "G", "--call", "2@0.5", "--call", "1@1.5", "--until", "idle")
	require.Equal(t, exitFine, end, stderr)
	rows, err := csv.NewReader(strings.NewReader(stdout)).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, []string{"time_s", "signal", "value"}, rows[0])
	var stops []string
	for _, row := range rows[1:] {
		if row[1] == "stop" && row[2] != "-" && row[0] != "0.000" {
			stops = append(stops, row[2])
		}
	}
	// Both calls lie above: the nearer is answered first, in passing.
	assert.Equal(t, []string{"1", "2"}, stops)
}

func TestTraceGoesToAFile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "run.vcd")
	end, stdout, stderr := do("trace", "--building", written(t, sound), "--call", "1@0", "--until", "3", "--format", "vcd", "--out", file)
	require.Equal(t, exitFine, end, stderr)
	assert.Empty(t, stdout)
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Contains(t, string(text), "$timescale")
}
