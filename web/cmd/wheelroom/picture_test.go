package main

import (
	"bytes"
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestPictureIsOfTheInstantAndTheViewAskedFor(t *testing.T) {
	draw := func(args ...string) string {
		var out, complaints bytes.Buffer
		args = append([]string{"picture", "--building", "../../../assets/buildings/tidemill-house.yaml"}, args...)
		require.Equal(t, exitFine, run(args, &out, &complaints), complaints.String())
		decoder := xml.NewDecoder(strings.NewReader(out.String()))
		for {
			if _, err := decoder.Token(); err == io.EOF {
				break
			} else {
				require.NoError(t, err)
			}
		}
		return out.String()
	}
	rest := draw("--start", "1", "--call", "5@0")
	moving := draw("--start", "1", "--call", "5@0", "--at", "6")
	assert.True(t, strings.Contains(rest, ">0.0</text>"))
	assert.True(t, strings.Contains(moving, ">6.0</text>") && !strings.Contains(rest, ">6.0</text>"))
	assert.True(t, strings.Contains(rest, ">Tidemill House</title>"))
	assert.False(t, strings.Contains(draw("--view", "shaft"), ">up line<"))
	assert.False(t, rest == draw("--start", "1", "--call", "5@0", "--theme", "slate"))
	assert.True(t, moving == draw("--start", "1", "--call", "5@0", "--at", "6"), "drawn twice it is the same")
}

func TestPictureRefusesWhatItCannotDraw(t *testing.T) {
	for _, c := range []struct {
		args []string
		end  int
	}{
		{[]string{"--at", "-1"}, exitUsage},
		{[]string{"--width", "10"}, exitUsage},
		{[]string{"--call", "9@0"}, exitInput},
		{[]string{"--view", "cellar"}, exitUsage},
	} {
		var out, complaints bytes.Buffer
		args := append([]string{"picture", "--building", "../../../assets/buildings/tidemill-house.yaml"}, c.args...)
		assert.Equal(t, c.end, run(args, &out, &complaints), "%v", c.args)
		assert.NotEmpty(t, complaints.String())
		assert.Empty(t, out.String())
	}
}
