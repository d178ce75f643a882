package main

import (
	"context"
	"encoding/json"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/proof"
	"wheelroom/web/program"
)

func TestProve(t *testing.T) {
	file := written(t, sound)
	for _, scheme := range []string{"", "interlocked", "directional", "two-button"} {
		end, said, wrong := do("prove", "--building", file, "--scheme", scheme)
		assert.Equal(t, exitFine, end, scheme)
		assert.Contains(t, said, "Proved")
		assert.Empty(t, wrong)
	}
	end, said, _ := do("prove", "--building", file, "--scheme", "direct")
	assert.Equal(t, exitInput, end)
	assert.Contains(t, said, "Refuted")
	assert.Contains(t, said, "Never to be built")
	assert.Contains(t, said, "car at floor 1, pressed at their seconds: button.G@0, button.2@0")

	end, _, _ = do("prove", "--building", file, "--scheme", "none")
	assert.Equal(t, exitUsage, end)
	end, _, wrong := do("prove", "--building", written(t, unsound))
	assert.Equal(t, exitInput, end)
	assert.NotEmpty(t, wrong)
}

// However a proof fails by a case, the case is to be seen.
func TestAProofThatFailsShowsItsCase(t *testing.T) {
	plan := building.Evenly("House", 4, 3.2)
	english := speaker(program.English().Words.Text)
	c := &proof.Case{Floor: 2, Memory: proof.Memory{Down: true}, Calls: []control.Call{{Button: "button.4"}}}
	for _, report := range []proof.Report{{Scheme: "directional", Wrong: c}, {Scheme: "directional", Lost: c}} {
		var out strings.Builder
		assert.ErrorIs(t, tell(&out, english, &plan, &report), bad{})
		assert.Contains(t, out.String(), "To see it: car at floor 4, pressed at their seconds: button.3@0, button.4@1.")
	}
	var out strings.Builder
	assert.ErrorIs(t, tell(&out, english, &plan, &proof.Report{Scheme: "directional", Race: &proof.Race{Late: true}}), bad{})
	assert.NotContains(t, out.String(), "To see it")
}

// An interrupt is told from a refutation, by its end and in words.
func TestAProofBrokenOffSaysSo(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	var out, aside strings.Builder
	err := proveCommand{Building: written(t, sound)}.prove(ctx, &out, &aside, program.English().Words.Text)
	assert.Equal(t, exitStopped, ending(err, &aside))
	assert.Empty(t, out.String())
	assert.Equal(t, "Broken off: nothing is proved or refuted.\n", aside.String())
}

// So is a match.
func TestAMatchBrokenOffSaysSo(t *testing.T) {
	observed := written(t, "time_s,lamp,state\n0,1,on\n0,,depart\n1.2,1,off\n2,2,on\n4.3,2,off\n5.2,3,on\n6.4,,arrive\n")
	c := matchCommand{Building: written(t, string(building.Write(building.Evenly("House", 3, 3.2)))), Observed: observed, Format: "text"}
	ctx, cancel := context.WithCancel(context.Background())
	var out, aside strings.Builder
	require.NoError(t, c.match(ctx, &out, &aside, program.English().Words.Text))
	assert.NotEmpty(t, out.String())
	out.Reset()
	cancel()
	err := c.match(ctx, &out, &aside, program.English().Words.Text)
	assert.Equal(t, exitStopped, ending(err, &aside))
	assert.Empty(t, out.String())
	assert.Equal(t, "Broken off: nothing is fitted.\n", aside.String())
}

func TestNetlist(t *testing.T) {
	file := written(t, sound+"control: {scheme: two-button}\n")
	given := []string{"netlist", "--building", file, "--start", "1", "--call", "2:down@0.5", "--at", "2"}
	end, text, wrong := do(append(given, "--format", "json")...)
	require.Equal(t, exitFine, end, wrong)
	var own struct{ Nodes map[string]float64 }
	require.NoError(t, json.Unmarshal([]byte(text), &own))
	assert.Greater(t, len(own.Nodes), 50)
	assert.Greater(t, own.Nodes["row_2"], 100.0, "the call is registered")
	assert.Less(t, own.Nodes["row_0"], 1.0)

	circuit := filepath.Join(t.TempDir(), "frozen.cir")
	end, _, wrong = do(append(given, "--out", circuit)...)
	require.Equal(t, exitFine, end, wrong)
	program, err := exec.LookPath("ngspice")
	if err != nil {
		t.Skip("ngspice is not installed")
	}
	out, err := exec.Command(program, "-b", circuit).Output()
	require.NoError(t, err)
	seen := 0
	for _, m := range regexp.MustCompile(`(?m)^([a-z]\w*) = (\S+)$`).FindAllStringSubmatch(string(out), -1) {
		v, err := strconv.ParseFloat(m[2], 64)
		require.NoError(t, err)
		assert.InDelta(t, own.Nodes[m[1]], v, 1e-3, m[1])
		seen++
	}
	assert.Equal(t, len(own.Nodes), seen)

	for _, c := range []struct {
		name string
		args []string
		end  int
	}{
		{"before the start", []string{"--at=-1"}, exitUsage},
		{"no number", []string{"--at=NaN"}, exitUsage},
		{"no such format", []string{"--format", "xml"}, exitUsage},
		{"which button", []string{"--call", "1@1"}, exitInput},
		{"no such button", []string{"--call", "2:up@1"}, exitInput},
		{"no such floor", []string{"--start", "9"}, exitInput},
	} {
		end, _, wrong := do(append([]string{"netlist", "--building", file}, c.args...)...)
		assert.Equal(t, c.end, end, c.name)
		assert.NotEmpty(t, wrong, c.name)
	}
}
