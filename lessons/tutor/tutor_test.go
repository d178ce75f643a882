package tutor_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/lessons/course"
	"wheelroom/lessons/script"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

const root = "../.."

// language is what a catalogue needs besides messages.
const language = `
language.tag: "en"
language.decimal: "."
language.minus: "−"
`

func catalogue(t testing.TB) *phrase.Catalogue {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(root, "assets/words/en/lesson.yaml"))
	require.NoError(t, err)
	c, err := phrase.ReadCatalogue([]byte(language), text)
	require.NoError(t, err)
	return c
}

// shelf finds the buildings that ship.
func shelf(t testing.TB) script.Buildings {
	return func(id string) (*building.Plan, []string) {
		text, err := os.ReadFile(filepath.Join(root, "assets/buildings", id+".yaml"))
		if err != nil {
			return nil, nil
		}
		plan, problems := building.Read(id, text)
		require.False(t, document.Failed(problems), problems)
		return &plan, nil
	}
}

func machine(plan *building.Plan, o lift.Options) (tutor.Machine, error) { return lift.New(plan, o) }

func read(t testing.TB, name string, text []byte) *script.Lesson {
	t.Helper()
	lesson, problems := script.Read(name, text, shelf(t))
	require.Empty(t, said(problems))
	return lesson
}

func said(problems []document.Problem) []string {
	var list []string
	for _, p := range problems {
		list = append(list, p.Format(phrase.Phrase.String))
	}
	return list
}

// twoCalls is the shipped lesson and a tutor for it.
func twoCalls(t testing.TB) (*tutor.Tutor, *script.Lesson) {
	for _, f := range course.Files() {
		if f.Name == "two-calls.yaml" {
			lesson := read(t, f.Name, f.Text)
			return tutor.New([]*script.Lesson{lesson}, machine, catalogue(t).Text), lesson
		}
	}
	t.Fatal("two-calls does not ship")
	return nil, nil
}

func do(t testing.TB, tu *tutor.Tutor, action, arg string) {
	t.Helper()
	require.NoError(t, tu.Do(action, arg))
}

// play lets time pass until the lesson waits for the learner.
func play(tu *tutor.Tutor) {
	for tu.Moving() {
		tu.Tick(1.0 / 60)
	}
}

// finish goes from a committed answer to the end of the run.
func finish(t testing.TB, tu *tutor.Tutor) {
	t.Helper()
	for tu.Phase() == tutor.Committed || tu.Phase() == tutor.Paused {
		do(t, tu, "continue", "")
		play(tu)
	}
}

func TestShippedLessonsPassTheirCheck(t *testing.T) {
	for _, f := range course.Files() {
		assert.Empty(t, said(tutor.Check(read(t, f.Name, f.Text), machine)), f.Name)
	}
}

// The right answers follow from the behaviours of a collective control with
// one memory: it keeps its way until no call is left ahead, starts upward from
// rest, and passes a call that comes after the slow-down contact has opened.
func TestTheMachineGivesTheAnswers(t *testing.T) {
	want := []struct{ title, answer string }{
		{"Which call is answered first?", "Floor 5, then floor 2"},
		{"The same instant", "To floor 5"},
		{"A moment too late", "At floor 4, then at floor 2"},
	}
	tu, lesson := twoCalls(t)
	var got []struct{ title, answer string }
	for i := range lesson.Items {
		if !lesson.Items[i].Asks() {
			continue
		}
		do(t, tu, "open", "two-calls/"+string(rune('1'+i)))
		play(tu)
		do(t, tu, "choose", "a")
		do(t, tu, "commit", "")
		finish(t, tu)
		do(t, tu, "observe", "a")
		p := tu.Panel()
		require.NotNil(t, p.Outcome)
		got = append(got, struct{ title, answer string }{p.ItemTitle, p.Outcome.Text})
	}
	assert.Equal(t, want, got)
}

func TestALearnerAnswersEveryOption(t *testing.T) {
	for _, f := range course.Files() {
		lesson := read(t, f.Name, f.Text)
		words := catalogue(t)
		tu := tutor.New([]*script.Lesson{lesson}, machine, words.Text)
		for option := range 3 {
			do(t, tu, "open", lesson.ID)
			asked, right := 0, 0
			for range lesson.Items {
				require.Equal(t, tutor.LeadIn, tu.Phase())
				play(tu)
				if tu.Phase() == tutor.Asked {
					asked++
					options := tu.Panel().Options
					do(t, tu, "choose", options[option%len(options)].ID)
					do(t, tu, "commit", "")
					finish(t, tu)
					require.Equal(t, tutor.Observe, tu.Phase())
					do(t, tu, "observe", tu.Panel().Chosen)
				} else {
					finish(t, tu)
				}
				p := tu.Panel()
				require.Equal(t, tutor.Explained, p.State)
				assert.NotEmpty(t, p.Explanation)
				if p.Verdict != nil {
					if p.Verdict.Right {
						right++
					}
					assert.Equal(t, p.Verdict.Right, p.Outcome.ID == p.Chosen)
				}
				for _, o := range p.Options {
					assert.NotEmpty(t, o.Because)
				}
				do(t, tu, "next", "")
			}
			assert.Equal(t, tutor.Done, tu.Phase())
			results := tu.State().Results
			assert.Len(t, results, asked)
			for _, r := range results {
				if r.Right {
					right--
				}
			}
			assert.Zero(t, right, "verdicts and results agree")
		}
		assert.Empty(t, words.Missing())
	}
}

func TestALearnerAnswersNotAtAll(t *testing.T) {
	tu, lesson := twoCalls(t)
	do(t, tu, "open", "two-calls/2")
	play(tu)
	before := tu.Panel()
	var v lift.View
	tu.Machine().Look(&v)
	at := v.TimeS
	tu.Tick(60)
	assert.False(t, tu.Step())
	tu.Machine().Look(&v)
	assert.Equal(t, at, v.TimeS, "a frozen frame stays frozen")
	assert.Equal(t, before, tu.Panel())
	for range len(lesson.Items) - 1 {
		play(tu)
		do(t, tu, "next", "")
	}
	p := tu.Panel()
	assert.Equal(t, tutor.Done, p.State)
	assert.Nil(t, p.Outcome)
	assert.Empty(t, p.Explanation)
	for _, r := range p.Results {
		assert.Equal(t, tutor.Result{Item: r.Item}, r)
	}
}

func TestTheAnswerCannotBeChanged(t *testing.T) {
	tu, _ := twoCalls(t)
	do(t, tu, "open", "two-calls/2")
	play(tu)
	do(t, tu, "choose", "b")
	do(t, tu, "choose", "c")
	do(t, tu, "commit", "")
	for {
		assert.Error(t, tu.Do("choose", "a"), tu.Phase())
		assert.Error(t, tu.Do("commit", ""), tu.Phase())
		assert.Equal(t, "c", tu.Panel().Chosen)
		if tu.Phase() == tutor.Explained {
			break
		}
		finish(t, tu)
		if tu.Phase() == tutor.Observe {
			do(t, tu, "observe", "a")
		}
	}
	first := tu.Panel()
	assert.False(t, first.Verdict.Right)
	assert.True(t, first.Observed.Right)
	do(t, tu, "again", "")
	assert.Error(t, tu.Do("choose", "a"))
	assert.Nil(t, tu.Panel().Outcome)
	finish(t, tu)
	assert.Equal(t, first, tu.Panel(), "shown again, it ends the same")
}

func TestNothingIsChosenBeforehand(t *testing.T) {
	tu, _ := twoCalls(t)
	do(t, tu, "open", "two-calls/2")
	assert.Error(t, tu.Do("choose", "a"), "not before the frozen frame")
	play(tu)
	assert.Empty(t, tu.Panel().Chosen)
	assert.False(t, tu.Panel().CanCommit)
	err := tu.Do("commit", "")
	require.Error(t, err)
	p, ok := tutor.IsRefusal(err)
	assert.True(t, ok)
	assert.Equal(t, "lesson.choose-first", p.ID)
}

// The frozen frame, every pause and every fact are the same at any frame rate.
func TestTheFrameRateDoesNotMatter(t *testing.T) {
	var panels []string
	for _, frame := range []float64{1.0 / 60, 1.0 / 7, 0.001, 100} {
		tu, _ := twoCalls(t)
		do(t, tu, "open", "two-calls/4")
		run := func() {
			for tu.Moving() {
				tu.Tick(frame)
			}
		}
		run()
		do(t, tu, "choose", "b")
		do(t, tu, "commit", "")
		for tu.Phase() != tutor.Observe {
			do(t, tu, "continue", "")
			run()
		}
		do(t, tu, "observe", "b")
		text, err := json.Marshal(tu.Panel())
		require.NoError(t, err)
		panels = append(panels, string(text))
	}
	for _, p := range panels[1:] {
		assert.Equal(t, panels[0], p)
	}
}

func TestStepsGoFromEventToEvent(t *testing.T) {
	tu, _ := twoCalls(t)
	do(t, tu, "open", "two-calls/2")
	play(tu)
	do(t, tu, "choose", "a")
	do(t, tu, "commit", "")
	steps := 0
	for tu.Phase() != tutor.Paused {
		n := len(tu.Machine().Events())
		if tu.Step() {
			assert.Greater(t, len(tu.Machine().Events()), n)
			steps++
		}
	}
	assert.Greater(t, steps, 10)
	assert.Equal(t, 1, tu.Panel().Segment)
}

func TestFactsComeFromTheRun(t *testing.T) {
	tu, _ := twoCalls(t)
	do(t, tu, "open", "two-calls/2")
	play(tu)
	do(t, tu, "choose", "a")
	do(t, tu, "commit", "")
	finish(t, tu)
	do(t, tu, "observe", "a")
	var want string
	for _, e := range tu.Machine().Events() {
		if e.Part == "relay.direction" && e.State == "1" {
			want = catalogue(t).Text(phrase.Of("lesson.seconds", "value", phrase.Num(e.TimeS, 1)))
			break
		}
	}
	require.NotEmpty(t, want)
	var facts []string
	for _, p := range tu.Panel().Explanation {
		for _, r := range p.Runs {
			assert.NotContains(t, r.Text, "{")
			if r.Fact {
				facts = append(facts, r.Text)
			}
		}
	}
	assert.Contains(t, facts, want)
}

func TestUnknownThingsAreRefused(t *testing.T) {
	tu, _ := twoCalls(t)
	for _, c := range []struct{ action, arg, id string }{
		{"commit", "", "lesson.not-open"},
		{"open", "no-such", "lesson.unknown-lesson"},
		{"open", "two-calls/0", "lesson.unknown-item"},
		{"open", "two-calls/9", "lesson.unknown-item"},
		{"open", "two-calls/x", "lesson.unknown-item"},
		{"dance", "", "lesson.unknown-action"},
	} {
		p, ok := tutor.IsRefusal(tu.Do(c.action, c.arg))
		assert.True(t, ok, c)
		assert.Equal(t, c.id, p.ID)
		assert.NotContains(t, catalogue(t).Text(p), "⟦")
	}
	assert.Equal(t, tutor.Panel{}, tu.Panel())
	assert.Nil(t, tu.Machine())
	tu.Tick(1)
	assert.False(t, tu.Step())
	do(t, tu, "open", "two-calls/2")
	play(tu)
	assert.Error(t, tu.Do("choose", "z"))
	do(t, tu, "close", "")
	assert.Equal(t, tutor.Closed, tu.Phase())
}

func TestPanelJSONKeepsItsKeys(t *testing.T) {
	tu, _ := twoCalls(t)
	do(t, tu, "open", "two-calls/2")
	text, err := json.Marshal(tu.Panel())
	require.NoError(t, err)
	for _, key := range []string{"id", "title", "item", "items", "state", "lead", "question", "options", "chosen", "committed",
		"segment", "segments", "outcome", "verdict", "explanation", "canRun", "canStep"} {
		assert.Contains(t, string(text), `"`+key+`":`)
	}
}
