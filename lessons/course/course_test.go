package course_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
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

var update = flag.Bool("update", false, "write the table of contents anew")

// The table of contents says what the lessons say. A new lesson is put into it
// by its ID, where it belongs in the course; -update adds the rest.
func TestContentsAreTheLessons(t *testing.T) {
	var b strings.Builder
	b.WriteString(contentsHead)
	for _, l := range lessons(t) {
		c := l.Contents()
		fmt.Fprintf(&b, "\t{ID: %q, Title: %q, Level: %q, Group: %q, Items: %d, Reviews: %d,\n\t\tWords: []string{", c.ID, c.Title, c.Level, c.Group, c.Items, c.Reviews)
		for i, w := range c.Words {
			if i > 0 {
				b.WriteString(", ")
			}
			fmt.Fprintf(&b, "%q", w)
		}
		b.WriteString("}},\n")
	}
	b.WriteString("}\n")
	if *update {
		require.NoError(t, os.WriteFile("contents.go", []byte(b.String()), 0o644))
	}
	got, err := os.ReadFile("contents.go")
	require.NoError(t, err)
	assert.Equal(t, b.String(), string(got), "go test ./lessons/course -update writes it")
}

const contentsHead = `package course

import "wheelroom/lessons/script"

// contents is the course in its order. The test of this package writes all of
// it but the order.
var contents = []script.Contents{
`

// Every file of the folder is part of the course.
func TestEveryLessonIsInTheCourse(t *testing.T) {
	found, err := filepath.Glob("*.yaml")
	require.NoError(t, err)
	assert.Len(t, course.Files(), len(found))
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
		l.Texts(func(where string, p script.Prose) {
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
		l.Texts(func(_ string, p script.Prose) {
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
// and others 2023), and for three to five short reviews later (Latimier and
// others 2021 for the spacing; the number is common practice, no source).
func TestLessonsStartWorkedAskAndReview(t *testing.T) {
	for _, l := range lessons(t) {
		asked := 0
		for i, it := range l.Items {
			if it.Asks() {
				asked++
				continue
			}
			assert.False(t, it.Review, "%s: item %d is for review and asks nothing", l.ID, i+1)
			assert.Less(t, i, 2, "%s: item %d is worked", l.ID, i+1)
			assert.Zero(t, asked, "%s: item %d is worked after a question", l.ID, i+1)
		}
		items, reviews := l.Reviewed()-1, len(l.Items)-l.Reviewed()+1
		assert.True(t, items >= 3 && items <= 6, "%s has %d items", l.ID, items)
		assert.True(t, reviews >= 3 && reviews <= 5, "%s has %d items for review", l.ID, reviews)
		assert.Less(t, asked-reviews, items, "%s has no worked item", l.ID)
		assert.NotEmpty(t, l.Aims, l.ID)
		assert.NotEmpty(t, l.Caution, l.ID)
	}
}

// A lesson asks at least one question to which most would give another answer
// than the machine; that it is another is the tutor's check to prove.
func TestEveryLessonSurprises(t *testing.T) {
	for _, l := range lessons(t) {
		tempting := 0
		for _, it := range l.Items[:l.Reviewed()-1] {
			for _, o := range it.Options {
				if o.Tempting {
					tempting++
				}
			}
			for _, a := range it.Answers {
				if a.Tempting {
					tempting++
					assert.NotEqual(t, script.Right, a.Is, l.ID)
				}
			}
		}
		assert.Positive(t, tempting, l.ID)
	}
}

// No trade word is used before the lesson that explains it, and none is
// explained twice.
func TestTradeWordsAreExplainedOnceAndInTime(t *testing.T) {
	all := lessons(t)
	for _, p := range append(script.Untaught(all), script.TaughtTwice(all)...) {
		t.Error(p.Format(phrase.Phrase.String))
	}
}

// The course asks in every way there is, over at least four buildings.
func TestTheCourseUsesEveryKindAndFourBuildings(t *testing.T) {
	kinds, houses := map[script.Kind]bool{}, map[string]bool{}
	for _, l := range lessons(t) {
		for _, it := range l.Items {
			kinds[it.Kind], houses[it.Plan.Name] = true, true
		}
	}
	assert.Len(t, kinds, 9)
	assert.GreaterOrEqual(t, len(houses), 4)
}

// Lessons stand in the order of their groups.
func TestGroupsStandTogether(t *testing.T) {
	last := 0
	for _, l := range lessons(t) {
		at := slices.Index(script.Groups(), l.Group)
		assert.GreaterOrEqual(t, at, last, l.ID)
		last = at
	}
}
