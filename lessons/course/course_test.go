package course_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/lessons/course"
	"wheelroom/lessons/script"
	"wheelroom/physics/building"
	"wheelroom/physics/phrase"
)

func lessons(t *testing.T) []*script.Lesson {
	t.Helper()
	var list []*script.Lesson
	for _, f := range course.Files() {
		lesson, problems := script.Read(f.Name, f.Text, func(id string) (*building.Plan, []string) {
			text, err := os.ReadFile(filepath.Join("../../assets/buildings", id+".yaml"))
			require.NoError(t, err)
			plan, _ := building.Read(id, text)
			return &plan, nil
		})
		for _, p := range problems {
			t.Error(p.Format(phrase.Phrase.String))
		}
		require.NotNil(t, lesson, f.Name)
		assert.Equal(t, f.Name, lesson.ID+".yaml")
		list = append(list, lesson)
	}
	return list
}

// Every file of the folder is part of the course.
func TestEveryLessonIsInTheCourse(t *testing.T) {
	found, err := filepath.Glob("*.yaml")
	require.NoError(t, err)
	assert.Len(t, course.Files(), len(found))
}

// prose calls yield with every text of a lesson and where it stands.
func prose(l *script.Lesson, yield func(where string, p script.Prose)) {
	yield("caution", l.Caution)
	for _, it := range l.Items {
		yield(it.Title+", lead-in", it.Lead.Text)
		yield(it.Title+", question", it.Question)
		for _, o := range it.Options {
			yield(it.Title+", option", o.Text)
			yield(it.Title+", because", o.Because)
		}
		for _, s := range it.Segments {
			yield(it.Title+", segment", s.Text)
		}
		yield(it.Title+", summary", it.Summary)
	}
}

var (
	sentence = regexp.MustCompile(`[^.?!:]+[.?!:]?`)
	fact     = regexp.MustCompile(`\{[^}]*\}`)
	vowels   = regexp.MustCompile(`[aeiouy]+`)
)

// sentences cuts a text into sentences, each a list of words; a fact counts as
// one word.
func sentences(p script.Prose) [][]string {
	var all [][]string
	for _, line := range strings.Split(fact.ReplaceAllString(p.Plain(), "so"), "\n") {
		for _, s := range sentence.FindAllString(line, -1) {
			if words := strings.Fields(s); len(words) > 0 {
				all = append(all, words)
			}
		}
	}
	return all
}

// At most 25 words a sentence, the limit for a text read standing up.
func TestSentencesAreShort(t *testing.T) {
	for _, l := range lessons(t) {
		prose(l, func(where string, p script.Prose) {
			for _, words := range sentences(p) {
				assert.LessOrEqual(t, len(words), 25, "%s, %s: %s", l.ID, where, strings.Join(words, " "))
			}
		})
	}
}

// Reading age 14 is school grade 9. The grade is 0.39 words a sentence + 11.8
// syllables a word − 15.59 (Kincaid and others 1975, value from memory), with
// groups of vowels for syllables.
func TestLessonsReadAtFourteen(t *testing.T) {
	for _, l := range lessons(t) {
		var count, words, syllables float64
		prose(l, func(_ string, p script.Prose) {
			for _, s := range sentences(p) {
				count++
				for _, w := range s {
					words++
					w = strings.TrimSuffix(strings.ToLower(strings.Trim(w, ".,:;?!*()")), "e")
					syllables += max(1, float64(len(vowels.FindAllString(w, -1))))
				}
			}
		})
		grade := 0.39*words/count + 11.8*syllables/words - 15.59
		t.Logf("%s: grade %.1f", l.ID, grade)
		assert.Less(t, grade, 9.0, l.ID)
		assert.Greater(t, grade, 0.0, l.ID)
	}
}

// Evidence asks for worked examples first and questions after them (Barbieri
// and others 2023).
func TestLessonsStartWorkedAndEndAsking(t *testing.T) {
	for _, l := range lessons(t) {
		asked := 0
		for i, it := range l.Items {
			if it.Asks() {
				asked++
			} else {
				assert.Less(t, i, 2, "%s: item %d is worked", l.ID, i+1)
				assert.Zero(t, asked, "%s: item %d is worked after a question", l.ID, i+1)
			}
		}
		assert.Positive(t, asked, l.ID)
		assert.NotEmpty(t, l.Aims, l.ID)
	}
}
