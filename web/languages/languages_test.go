package languages_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"

	"wheelroom/lessons/course"
	"wheelroom/lessons/script"
	"wheelroom/physics/phrase"
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

// Numbers are written as the library writes them that has the Unicode
// consortium's tables. The program in the browser goes without it, to be small.
// Digits run on without groups, which languages part in their own ways.
func TestNumbersAreTheLanguages(t *testing.T) {
	for _, tag := range languages.Tags() {
		l, err := languages.Open(tag)
		require.NoError(t, err)
		printer := message.NewPrinter(language.MustParse(tag))
		for _, v := range []float64{0, 0.04, 0.5, 1.25, -1.25, -0.001, 12.345, 999.9, 1234.5, -20000, 1e6 + 0.125} {
			for decimals := range 4 {
				want := printer.Sprint(number.Decimal(v, number.Scale(decimals), number.NoSeparator()))
				want = strings.Replace(want, "-", "−", 1) // set in type
				if strings.Trim(want, "−0.,") == "" {
					want = strings.TrimPrefix(want, "−")
				}
				assert.Equal(t, want, l.Words.Number(phrase.Num(v, decimals)), "%s: %v to %d", tag, v, decimals)
			}
		}
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
