package exhibit_test

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/assets/words"
	"wheelroom/lessons"
	"wheelroom/lessons/course"
	"wheelroom/lessons/exhibit"
	"wheelroom/lessons/script"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// Limits of a visit: visitors stay about a minute (Sandifer 1997), the others
// are common practice for labels and displays.
const (
	movesWithinS = 10.0
	wholeWithinS = 60.0
	mostWords    = 75 // on one screen
	mostSentence = 25
	wordsASecond = 200.0 / 60 // read standing up; seated it is some 240 a minute (Brysbaert 2019, value from memory)
	decidesS     = 4.0        // to choose among three answers; common practice, no source
)

func plan(id string) (*building.Plan, []string) {
	for _, b := range assets.Buildings() {
		if b.ID == id {
			plan, _ := building.Read(id, b.Text)
			return &plan, nil
		}
	}
	return nil, nil
}

func read(t *testing.T, name string, text []byte) *script.Lesson {
	t.Helper()
	lesson, problems := script.Read(name, text, plan)
	for _, p := range problems {
		t.Error(p.Format(phrase.Phrase.String))
	}
	require.NotNil(t, lesson, name)
	return lesson
}

// scenes are every scene in a language, that which asks nothing first.
func scenes(t *testing.T, tag string) []*script.Lesson {
	t.Helper()
	told := lessons.Translated("exhibit", tag)
	var list []*script.Lesson
	for _, f := range exhibit.Files() {
		text := f.Text
		if tag != english {
			text = told[f.ID]
			require.NotEmpty(t, text, "%s is not told in %s", f.ID, tag)
		}
		lesson := read(t, f.ID+".yaml", text)
		assert.Equal(t, f.ID, lesson.ID)
		list = append(list, lesson)
	}
	return list
}

const english = "en"

// inEvery runs a test of the scenes in each language.
func inEvery(t *testing.T, test func(t *testing.T, tag string, scenes []*script.Lesson)) {
	for _, tag := range words.Languages() {
		t.Run(tag, func(t *testing.T) { test(t, tag, scenes(t, tag)) })
	}
}

// Every file of the folder is a scene, and none has the identity of a lesson
// of the course: both are opened by it.
func TestEveryFileIsAScene(t *testing.T) {
	found, err := filepath.Glob("*.yaml")
	require.NoError(t, err)
	assert.Len(t, exhibit.Files(), len(found))
	for _, f := range exhibit.Files() {
		for _, c := range course.Contents() {
			assert.NotEqual(t, c.ID, f.ID)
		}
	}
}

func TestScenesPassTheirCheck(t *testing.T) {
	inEvery(t, func(t *testing.T, _ string, all []*script.Lesson) {
		for _, l := range all {
			for _, p := range tutor.Check(l, tutor.Lift) {
				t.Error(p.Format(phrase.Phrase.String))
			}
		}
	})
}

// A scene asks one question with three answers, each explained, and most
// people's is among them; the one that attracts asks nothing.
func TestAScene(t *testing.T) {
	for _, l := range scenes(t, english) {
		require.Len(t, l.Items, 1, l.ID)
		it := l.Items[0]
		assert.False(t, it.Review, l.ID)
		if l.ID == exhibit.Attract {
			assert.False(t, it.Asks())
			continue
		}
		assert.Equal(t, script.ChooseOne, it.Kind, l.ID)
		assert.Len(t, it.Options, 3, l.ID)
		tempting := 0
		for _, o := range it.Options {
			assert.NotEmpty(t, o.Because, l.ID)
			if o.Tempting {
				tempting++
			}
		}
		assert.Equal(t, 1, tempting, l.ID)
	}
}

// No word that the course has to teach is used in a scene, unless the scene
// explains it.
func TestScenesUseNoTradeWords(t *testing.T) {
	inEvery(t, func(t *testing.T, tag string, all []*script.Lesson) {
		var whole []*script.Lesson
		told := lessons.Translated("course", tag)
		for _, f := range course.Files() {
			text := f.Text
			if other, is := told[strings.TrimSuffix(f.Name, ".yaml")]; is {
				text = other
			}
			whole = append(whole, read(t, f.Name, text))
		}
		for _, l := range all {
			for _, p := range script.Untaught(append([]*script.Lesson{l}, whole...)) {
				if strings.HasPrefix(p.File, l.ID) {
					t.Error(p.Format(phrase.Phrase.String))
				}
			}
		}
	})
}

var sentence = regexp.MustCompile(`[^.?!:]+[.?!:]?`)

func TestSentencesAreShort(t *testing.T) {
	inEvery(t, func(t *testing.T, _ string, all []*script.Lesson) {
		for _, l := range all {
			l.Texts(func(where string, p script.Prose) {
				for _, line := range strings.Split(p.Plain(), "\n") {
					for _, s := range sentence.FindAllString(line, -1) {
						assert.LessOrEqual(t, len(strings.Fields(s)), mostSentence, "%s, %s: %s", l.ID, where, s)
					}
				}
			})
		}
	})
}

// A visit is one scene gone through as a visitor does, in seconds of their
// clock.
type visit struct {
	leadS, movesS, runS float64
	stretches           []float64 // of the run
	asked, told         int       // words on the screen with the question and on that with the explanation
	notes               []int     // words of each
	panel               tutor.Panel
}

func spoken(paragraphs []tutor.Paragraph) int {
	n := 0
	for _, p := range paragraphs {
		text := ""
		for _, r := range p.Runs {
			text += r.Text
		}
		n += len(strings.Fields(text))
	}
	return n
}

// go through a scene with an answer, "" for one that asks nothing.
func through(t *testing.T, tag string, l *script.Lesson, answer string) visit {
	t.Helper()
	catalogue, err := phrase.ReadCatalogue(words.Of(tag)...)
	require.NoError(t, err)
	tu := tutor.New([]*script.Lesson{l}, tutor.Lift, catalogue.Text)
	require.NoError(t, tu.Do("open", l.ID))
	const tickS = 0.01
	var v visit
	var view lift.View
	clock := func() (s float64) {
		for tu.Moving() {
			tu.Tick(tickS)
			s += tickS
			tu.Machine().Look(&view)
			if v.movesS == 0 && view.SpeedMS != 0 {
				v.movesS = v.leadS + s
			}
		}
		return s
	}
	v.leadS = clock()
	p := tu.Panel()
	v.asked = spoken(p.Question)
	for _, o := range p.Options {
		v.asked += len(strings.Fields(o.Text))
	}
	if answer != "" {
		require.NoError(t, tu.Do("choose", answer))
		require.NoError(t, tu.Do("commit", ""))
	}
	for said := 0; tu.Phase() == tutor.Committed || tu.Phase() == tutor.Paused; {
		require.NoError(t, tu.Do("continue", ""))
		v.stretches = append(v.stretches, clock())
		v.runS += v.stretches[len(v.stretches)-1]
		n := tu.Panel().Notes
		v.notes = append(v.notes, spoken(n[said:]))
		said = len(n)
	}
	if answer != "" {
		require.NoError(t, tu.Do("observe", answer))
	}
	p = tu.Panel()
	require.Equal(t, tutor.Explained, p.State)
	for _, o := range p.Options {
		if o.ID == answer {
			v.told = len(strings.Fields(o.Text)) + spoken(o.Because)
		}
	}
	if p.Outcome != nil && p.Outcome.ID != answer {
		v.told += len(strings.Fields(p.Outcome.Text))
	}
	v.told += spoken(tutorSummary(l, &p))
	v.panel = p
	return v
}

// tutorSummary is the last of the explanation: that of the scene.
func tutorSummary(l *script.Lesson, p *tutor.Panel) []tutor.Paragraph {
	return p.Explanation[len(p.Explanation)-len(l.Items[0].Summary):]
}

// Something moves within ten seconds of the touch, and a visitor who reads
// everything is through within a minute, whatever they answer.
func TestAVisitLastsAMinute(t *testing.T) {
	inEvery(t, func(t *testing.T, tag string, all []*script.Lesson) {
		for _, l := range all[1:] {
			for _, answer := range []string{"a", "b", "c"} {
				v := through(t, tag, l, answer)
				holds := 0.0 // between stretches a sentence is left to be read
				for _, n := range v.notes[:len(v.notes)-1] {
					holds += float64(n) / wordsASecond
				}
				whole := v.leadS + float64(v.asked+v.told)/wordsASecond + decidesS + v.runS + holds
				t.Logf("%s %s: moves at %.1f s; lead %.1f, %d words, run %.1f + %.1f, %d words: %.0f s", l.ID, answer, v.movesS, v.leadS, v.asked, v.runS, holds, v.told, whole)
				assert.LessOrEqual(t, v.movesS, movesWithinS, l.ID)
				assert.Positive(t, v.movesS, l.ID)
				assert.LessOrEqual(t, whole, wholeWithinS, "%s %s", l.ID, answer)
				assert.LessOrEqual(t, v.asked, mostWords, l.ID)
				assert.LessOrEqual(t, v.told, mostWords-10, "%s %s: the page adds a verdict", l.ID, answer)
			}
		}
	})
}

// The machine's answers are what is known of a collective control with one
// memory (as in the course), of a ring with 2.8 terminals a floor and an
// advance of 1.1 m.
func TestTheMachineAnswers(t *testing.T) {
	right := map[string]string{
		"next-stop": "At floor 4, on its way", "wheel-turn": "Less than once round", "too-late": "Go past, and come back",
		"between-floors": "None of them", "slows-early": "About a metre before", "same-instant": "Up to floor 5",
	}
	for _, l := range scenes(t, english)[1:] {
		assert.Equal(t, right[l.ID], through(t, english, l, "a").panel.Outcome.Text, l.ID)
	}
}

// The scene that attracts lasts 15 to 30 seconds with the last sentence read
// out, and each sentence stands as long as it takes to read.
func TestTheAttractingSceneCanBeRead(t *testing.T) {
	inEvery(t, func(t *testing.T, tag string, all []*script.Lesson) {
		l := all[0]
		v := through(t, tag, l, "")
		shown := append([]int{spokenOf(l.Items[0].Lead.Text), v.asked}, v.notes...)
		stands := append([]float64{v.leadS}, v.stretches...)
		whole := 0.0
		for i, s := range stands {
			whole += s
			t.Logf("%d words in %.1f s", shown[i], s)
			assert.GreaterOrEqual(t, s, float64(shown[i])/wordsASecond-0.05, "sentence %d", i+1)
		}
		last := shown[len(shown)-1] + spokenOf(l.Items[0].Summary)
		whole += float64(last) / wordsASecond
		t.Logf("%.1f s in all", whole)
		assert.GreaterOrEqual(t, whole, 15.0)
		assert.LessOrEqual(t, whole, 30.0)
	})
}

func spokenOf(p script.Prose) int { return len(strings.Fields(p.Plain())) }
