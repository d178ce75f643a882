package tutor_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every message the lessons speak in has words, and no words are left over.
func TestEveryMessageHasWords(t *testing.T) {
	words := catalogue(t)
	literal := regexp.MustCompile(`"(lesson\.[a-z.-]+)"`)
	var stems []string // put together with the word of a state
	what := regexp.MustCompile(`w\.refuse\([^\n]*, "([a-z-]+)"\)`)
	used := map[string]bool{}
	for _, folder := range []string{"../script/*.go", "*.go", "../../game/session/le*.go"} {
		files, err := filepath.Glob(folder)
		require.NoError(t, err)
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			for _, m := range literal.FindAllStringSubmatch(string(text), -1) {
				if id := m[1]; strings.HasSuffix(id, "-") {
					stems = append(stems, id)
				} else if !strings.HasSuffix(id, ".") {
					used[id] = true
					assert.True(t, words.Has(id), "%s: %s has no words", name, id)
				}
			}
			for _, m := range what.FindAllStringSubmatch(string(text), -1) {
				used["lesson.prose."+m[1]] = true
				assert.True(t, words.Has("lesson.prose."+m[1]), m[0])
			}
		}
	}
	for _, id := range words.IDs() {
		if strings.HasPrefix(id, "lesson.") {
			said := used[id] || slices.ContainsFunc(stems, func(stem string) bool { return strings.HasPrefix(id, stem) })
			assert.True(t, said, "%s is never said", id)
		}
	}
}
