package languages_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/lessons/course"
	"wheelroom/lessons/script"
	"wheelroom/web/languages"
)

// Every language opens, and calls itself by its own name.
func TestEveryLanguageOpens(t *testing.T) {
	assert.Equal(t, "en", languages.Tags()[0])
	names := map[string]bool{}
	for _, tag := range languages.Tags() {
		l, err := languages.Open(tag)
		require.NoError(t, err, tag)
		assert.Equal(t, tag, l.Tag())
		assert.False(t, names[l.Name()], "%s is the name of two", l.Name())
		names[l.Name()] = true
		assert.Len(t, l.Lessons(), len(course.Contents()))
	}
}

func TestUnknownLanguage(t *testing.T) {
	for _, tag := range []string{"xx", "", "EN"} {
		_, err := languages.Open(tag)
		assert.ErrorContains(t, err, "there are en", tag)
	}
}

var (
	sentence = regexp.MustCompile(`[^.?!:]+[.?!:]?`)
	fact     = regexp.MustCompile(`\{[^}]*\}`)
)

// A course in another language holds to the rules of the English one: no trade
// word before the lesson that explains it, none explained twice, and at most 25
// words a sentence.
func TestEveryCourseReadsAsWell(t *testing.T) {
	for _, tag := range languages.Tags() {
		l, err := languages.Open(tag)
		require.NoError(t, err)
		all := l.Lessons()
		for _, lesson := range all {
			lesson.Open()
			lesson.Texts(func(where string, p script.Prose) {
				for _, line := range strings.Split(fact.ReplaceAllString(p.Plain(), "so"), "\n") {
					for _, s := range sentence.FindAllString(line, -1) {
						assert.LessOrEqual(t, len(strings.Fields(s)), 25, "%s, %s, %s: %s", tag, lesson.ID, where, s)
					}
				}
			})
		}
		for _, p := range append(script.Untaught(all), script.TaughtTwice(all)...) {
			t.Errorf("%s: %s", tag, p.Format(l.Words.Text))
		}
	}
}
