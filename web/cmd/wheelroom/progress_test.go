package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/web/program"
)

// screen is what a terminal shows of a text without line breaks: a carriage
// return goes back to the beginning, and what follows writes over what is there.
func screen(text string) string {
	var line []rune
	at := 0
	for _, r := range text {
		if r == '\r' {
			at = 0
			continue
		}
		line = append(line[:at], append([]rune{r}, line[min(at+1, len(line)):]...)...)
		at++
	}
	return strings.TrimRight(string(line), " ")
}

func TestProgressIsOneLineThatIsClearedAtTheEnd(t *testing.T) {
	var out bytes.Buffer
	p := &progress{out: &out, words: program.English().Words.Text}
	p.clear()
	assert.Empty(t, out.String(), "nothing shown, nothing to clear")
	for done := range 1001 {
		p.tell(done, 1000)
		assert.Contains(t, screen(out.String()), " % done")
	}
	assert.Equal(t, "100 % done.", screen(out.String()))
	assert.Equal(t, 101, strings.Count(out.String(), "done"), "only what is news")
	p.clear()
	assert.Empty(t, screen(out.String()))
	assert.NotContains(t, out.String(), "\n")
}

// Where standard error is no terminal nothing is told, and nothing breaks.
func TestNoProgressButOnATerminal(t *testing.T) {
	file, err := os.Create(filepath.Join(t.TempDir(), "log"))
	require.NoError(t, err)
	defer file.Close()
	assert.Nil(t, progressOn(file, nil))
	assert.Nil(t, progressOn(&bytes.Buffer{}, nil))
	none := progressOn(file, nil)
	none.tell(1, 2)
	none.clear()
	end, _, aside := do("prove", "--building", written(t, sound))
	assert.Equal(t, exitFine, end)
	assert.Empty(t, aside)
}
