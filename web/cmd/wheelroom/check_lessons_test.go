package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/lessons/course"
	"wheelroom/physics/phrase"
	"wheelroom/web/program"
)

// lessonText is the file of a lesson of the course, changed.
func lessonText(t *testing.T, name, from, to string) []byte {
	t.Helper()
	for _, f := range course.Files() {
		if f.Name == name {
			require.Contains(t, string(f.Text), from)
			return []byte(strings.Replace(string(f.Text), from, to, 1))
		}
	}
	t.Fatal("no lesson " + name)
	return nil
}

// What is wrong with a lesson is said with its place: in its form, in its run,
// and in its place in the course.
func TestCheckOfALesson(t *testing.T) {
	const ring = "reading-the-ring.yaml"
	for name, c := range map[string]struct{ from, to, want string }{
		"sound":                   {"level: beginner", "level: beginner", ""},
		"a key":                   {"aims:", "aim:", "document.unknown-key-near"},
		"a run":                   {"until: stops 2", "until: stops 3", "lesson.never-happens"},
		"a word not yet taught":   {"The car rests at floor", "The contactor and the car rest at floor", "lesson.term-too-early[word=contactor lesson=one-call]"},
		"a word taught before":    {"  - word: ring", "  - word: shaft", "lesson.term-twice[word=shaft lesson=wheel-in-small]"},
		"an answer that is right": {"- is: lamp.1", "- is: lamp.2", "lesson.answer-right[found=lamp.2]"},
	} {
		t.Run(name, func(t *testing.T) {
			var said []string
			for _, p := range check(ring, lessonText(t, ring, c.from, c.to), program.English()) {
				said = append(said, p.Format(phrase.Phrase.String))
				assert.Positive(t, p.Line)
			}
			if c.want == "" {
				assert.Empty(t, said)
				return
			}
			assert.Contains(t, strings.Join(said, "\n"), c.want)
		})
	}
}
