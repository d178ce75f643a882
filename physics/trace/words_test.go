package trace

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/control"
	"wheelroom/physics/phrase"
)

// TestEveryMessageHasWords: whatever calls, inputs, a stop for good and the
// schemes have to say is worded.
func TestEveryMessageHasWords(t *testing.T) {
	var files [][]byte
	names, err := filepath.Glob("../../assets/words/en/*.yaml")
	require.NoError(t, err)
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		files = append(files, text)
	}
	words, err := phrase.ReadCatalogue(files...)
	require.NoError(t, err)
	id := regexp.MustCompile(`"((?:call|input|stopped)\.[a-z-]+)"[,)\n]`)
	found := 0
	for _, folder := range []string{".", "../lift"} {
		sources, err := filepath.Glob(filepath.Join(folder, "*.go"))
		require.NoError(t, err)
		for _, name := range sources {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			for _, m := range id.FindAllStringSubmatch(string(text), -1) {
				found++
				assert.True(t, words.Has(m[1]), m[1])
			}
		}
	}
	assert.Greater(t, found, 10)
	for _, scheme := range control.Schemes() {
		assert.True(t, words.Has(control.Limits(scheme).ID), scheme)
		assert.True(t, words.Has(control.Name(scheme).ID), scheme)
	}
}
