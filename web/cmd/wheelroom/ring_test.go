package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// saying runs the command line and returns its end and what it said.
func saying(args ...string) (end int, out, aside string) {
	var stdout, stderr bytes.Buffer
	end = run(args, &stdout, &stderr)
	return end, stdout.String(), stderr.String()
}

func TestRingCommand(t *testing.T) {
	const house = "../../../assets/buildings/tidemill-house.yaml"
	for format, want := range map[string]string{
		"text": "floor 4 follows floor 3 without a dark interval",
		"csv":  "index,angle_deg,height_m,floor\r\n0,-9.643,-0.600,G\r\n",
		"json": `"blank_terminals": 1`,
		"svg":  "<svg ",
	} {
		end, out, aside := saying("ring", "--building", house, "--format", format)
		assert.Equal(t, exitFine, end, aside)
		assert.Contains(t, out, want)
		assert.NotContains(t, out, "⟦")
	}
	end, out, _ := saying("ring", "--building", house, "--propose")
	assert.Equal(t, exitFine, end)
	assert.Contains(t, out, "no ring does that")

	bad := filepath.Join(t.TempDir(), "bad.yaml")
	require.NoError(t, os.WriteFile(bad, []byte("name: Bad\nfloors: [{name: G, height_m: 0}, {name: \"1\", height_m: 10}]\nselector:\n  joins: [{terminal: 99, floor: G}]\n"), 0o644))
	end, _, aside := saying("ring", "--building", bad)
	assert.Equal(t, exitInput, end)
	assert.Contains(t, aside, "bad.yaml:4:")
	assert.Contains(t, aside, "there is no terminal 99 to join")
	end, _, _ = saying("ring", "--building", house, "--format", "png")
	assert.Equal(t, exitUsage, end)
}

func TestMatchCommand(t *testing.T) {
	const house = "../../../assets/buildings/tidemill-house.yaml"
	seen := filepath.Join(t.TempDir(), "seen.csv")
	write := func(text string) { require.NoError(t, os.WriteFile(seen, []byte(text), 0o644)) }
	// At 1 m/s from one end to the other past the file's own ring: the lamp of
	// a floor is lit for 2.58 m about the middle of its two terminals.
	write(`time_s,lamp,state
0,G,on
0,,depart
1.29,G,off
2.31,1,on
4.89,1,off
5.91,2,on
8.49,2,off
9.51,3,on
11.91,4,on
12.09,3,off
14.49,4,off
15.51,5,on
16.8,,arrive
`)
	end, out, aside := saying("match", "--building", house, "--observed", seen, "--format", "json")
	require.Equal(t, exitFine, end, aside)
	var got struct {
		Verdict  string `json:"verdict"`
		PerFloor struct {
			Value *float64 `json:"value"`
		} `json:"terminals_per_floor"`
		Speed struct {
			Value *float64 `json:"value"`
		} `json:"speed_m_s"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	assert.Equal(t, "one", got.Verdict)
	assert.InDelta(t, 2.8, *got.PerFloor.Value, 0.005)
	assert.InDelta(t, 1, *got.Speed.Value, 0.005)
	for format, want := range map[string]string{"text": "2.8", "svg": "<svg "} {
		end, out, _ = saying("match", "--building", house, "--observed", seen, "--format", format)
		assert.Equal(t, exitFine, end)
		assert.Contains(t, out, want)
		assert.NotContains(t, out, "⟦")
	}

	text, err := os.ReadFile(seen)
	require.NoError(t, err)
	marks := strings.NewReplacer("0,,depart\n", "", "16.8,,arrive\n", "")
	write(marks.Replace(string(text)))
	end, out, _ = saying("match", "--building", house, "--observed", seen, "--format", "json")
	require.Equal(t, exitFine, end)
	got.PerFloor.Value, got.Speed.Value = nil, nil
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	assert.Equal(t, "set", got.Verdict)
	assert.Nil(t, got.PerFloor.Value, "never one invented value")
	assert.Nil(t, got.Speed.Value)
	end, out, _ = saying("match", "--building", house, "--observed", seen, "--speed", "1")
	assert.Equal(t, exitFine, end)
	assert.Contains(t, out, "One ring explains the lamps: 2.8")

	write("time_s,lamp,state\n1,G,off\n2,9,on\n")
	end, _, aside = saying("match", "--building", house, "--observed", seen)
	assert.Equal(t, exitInput, end)
	assert.Contains(t, aside, "row 3: there is no lamp “9”")
	for _, speed := range []string{"-1", "3", "NaN"} {
		end, _, aside = saying("match", "--building", house, "--observed", seen, "--speed="+speed)
		assert.Equal(t, exitUsage, end)
		assert.Contains(t, aside, "the measured speed must be from 0.1 to 2.5 m/s")
	}
}
