package document_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/document"
)

// TestEveryMessageHasWords: each identity in the code is worded, and each
// worded one is in the code.
func TestEveryMessageHasWords(t *testing.T) {
	used := map[string]bool{}
	sources, err := filepath.Glob("*.go")
	require.NoError(t, err)
	id := regexp.MustCompile(`"(document\.[a-z0-9.-]*[a-z0-9])"`)
	for _, name := range sources {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		for _, m := range id.FindAllStringSubmatch(string(text), -1) {
			used[m[1]] = true
		}
	}
	require.Greater(t, len(used), 30)
	delete(used, "document.wanted") // stems, put together below
	delete(used, "document")
	for kind := document.Real; kind <= document.Texts; kind++ {
		used["document.wanted-"+kind.String()] = true
	}
	for _, what := range []string{"number", "text", "list"} {
		used["document."+what+"-too-small"], used["document."+what+"-too-large"] = true, true
	}
	used["document.number-not-above"] = true

	c := words(t)
	for name := range used {
		assert.True(t, c.Has(name), "no words for %s", name)
	}
	for _, name := range c.IDs() {
		if strings.HasPrefix(name, "document.") {
			assert.True(t, used[name], "%s is worded and never said", name)
		}
	}
	assert.True(t, slices.IsSorted(c.IDs()))
}
