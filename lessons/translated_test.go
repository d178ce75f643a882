package lessons_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets/words"
	"wheelroom/lessons"
)

// told are the keys of a lesson's file that hold prose.
var told = []string{"title", "aims", "caution", "word", "means", "text", "because", "summary"}

var fact = regexp.MustCompile(`\{[^}]*\}`)

// bare puts the facts of a text, each once, in place of the text.
func bare(text string) string {
	facts := fact.FindAllString(text, -1)
	slices.Sort(facts)
	return strings.Join(slices.Compact(facts), " ")
}

// structure is a file without its prose: of a text only the facts are left,
// in no order.
func structure(part any, key string) any {
	switch v := part.(type) {
	case map[string]any:
		for k := range v {
			v[k] = structure(v[k], k)
		}
	case []any:
		for i := range v {
			v[i] = structure(v[i], key)
		}
	case string:
		if slices.Contains(told, key) {
			return bare(v)
		}
	}
	return part
}

func read(t *testing.T, text []byte) any {
	t.Helper()
	var file map[string]any
	require.NoError(t, yaml.Unmarshal(text, &file))
	return structure(file, "")
}

// Prose apart, a lesson is the same in every language: the same machine, the
// same questions in the same order, the same claims and answers, and in each
// text the same facts from the run. So the English lesson proves them all.
func TestLessonsAreTheSameInEveryLanguage(t *testing.T) {
	for _, folder := range []string{"course", "exhibit"} {
		found := 0
		for _, tag := range words.Languages() {
			for id, text := range lessons.Translated(folder, tag) {
				english, err := os.ReadFile(filepath.Join(folder, id+".yaml"))
				require.NoError(t, err, "%s has a lesson that is not in English", tag)
				assert.Equal(t, read(t, english), read(t, text), "%s, %s", tag, id)
				found++
			}
		}
		assert.Positive(t, found, folder)
	}
}

// A test that compares nothing would find nothing.
func TestStructureTellsLessonsApart(t *testing.T) {
	const lesson = "id: a\ntitle: A\nitems:\n  - question: {kind: worked, text: \"At {stop.1.time}.\"}\n    start: \"3\"\n"
	for _, c := range []struct {
		from, to string
		same     bool
	}{
		{"title: A", "title: B", true},
		{"At {stop.1.time}.", "Um {stop.1.time}, ja, {stop.1.time}.", true},
		{"{stop.1.time}", "{stop.2.time}", false},
		{"kind: worked", "kind: choose-one", false},
		{`start: "3"`, `start: "4"`, false},
		{"id: a", "id: b", false},
	} {
		same := assert.ObjectsAreEqual(read(t, []byte(lesson)), read(t, []byte(strings.Replace(lesson, c.from, c.to, 1))))
		assert.Equal(t, c.same, same, c.to)
	}
	assert.Empty(t, lessons.Translated("course", "xx"))
}
