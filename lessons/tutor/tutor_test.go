package tutor_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/lessons/course"
	"wheelroom/lessons/script"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

const root = "../.."

func catalogue(t testing.TB) *phrase.Catalogue {
	t.Helper()
	c, err := phrase.ReadCatalogue(assets.Words("en")...)
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
		t.Run(f.Name, func(t *testing.T) {
			t.Parallel()
			assert.Empty(t, said(tutor.Check(read(t, f.Name, f.Text), machine)))
		})
	}
}

// The right answers follow from the behaviours of a collective control with
// one memory: it keeps its way until no call is left ahead, starts upward from
// rest; and without the memory both ways come in.
func TestTheMachineGivesTheAnswers(t *testing.T) {
	tu, _ := twoCalls(t)
	for _, c := range []struct {
		item   int
		answer string
	}{
		{2, "Floor 5, then floor 2"},
		{3, "Both relays come in together"},
		{4, "The car answers floor 5, then floor 2"},
		{5, "To floor 5"},
	} {
		do(t, tu, "open", "two-calls/"+strconv.Itoa(c.item))
		play(tu)
		do(t, tu, "choose", "a")
		do(t, tu, "commit", "")
		finish(t, tu)
		do(t, tu, "observe", "a")
		p := tu.Panel()
		require.NotNil(t, p.Outcome)
		assert.Equal(t, c.answer, p.Outcome.Text)
	}
}

// some is a whole answer to the question asked, as a learner who knows nothing
// might give it.
func some(p *tutor.Panel) string {
	task := p.Task
	switch {
	case len(p.Options) > 0:
		return p.Options[0].ID
	case len(task.Stands) > 0:
		var set []string
		for _, f := range task.Floors {
			set = append(set, f.ID+":"+task.Stands[0].ID)
		}
		return strings.Join(set, " ")
	case len(task.Floors) > 0:
		return task.Floors[0].ID
	case len(task.Parts) > 0:
		return task.Parts[0].ID
	}
	return "0.4"
}

// answer takes an item from its first instant to its explanation.
func answer(t testing.TB, tu *tutor.Tutor, with func(p *tutor.Panel) string) tutor.Panel {
	t.Helper()
	play(tu)
	if tu.Phase() == tutor.Asked {
		p := tu.Panel()
		do(t, tu, "choose", with(&p))
		do(t, tu, "sure", "2")
		do(t, tu, "commit", "")
	}
	finish(t, tu)
	if tu.Phase() == tutor.Observe {
		do(t, tu, "observe", tu.Panel().Chosen)
	}
	require.Equal(t, tutor.Explained, tu.Phase())
	return tu.Panel()
}

// A learner goes through every lesson twice: at first knowing nothing, then
// knowing what the machine did. Each gets a verdict, an explanation and a
// result that agree.
func TestALearnerAnswersWrongAndRight(t *testing.T) {
	for _, f := range course.Files() {
		t.Run(f.Name, func(t *testing.T) {
			t.Parallel()
			lesson, words := read(t, f.Name, f.Text), catalogue(t)
			tu := tutor.New([]*script.Lesson{lesson}, machine, words.Text)
			truth := make([]string, len(lesson.Items))
			wrong := 0
			do(t, tu, "open", lesson.ID)
			for i := range lesson.Items {
				p := answer(t, tu, some)
				explained(t, &p)
				if lesson.Items[i].Asks() {
					require.NotNil(t, p.Outcome, p.ItemTitle)
					truth[i] = p.Outcome.ID
					if !p.Verdict.Right {
						wrong++
					}
				}
				do(t, tu, "next", "")
			}
			require.Equal(t, tutor.Done, tu.Phase())
			assert.Positive(t, wrong)
			do(t, tu, "open", lesson.ID)
			for i := range lesson.Items {
				p := answer(t, tu, func(*tutor.Panel) string { return truth[i] })
				explained(t, &p)
				if lesson.Items[i].Asks() {
					assert.True(t, p.Verdict.Right, "%s: %s", p.ItemTitle, truth[i])
					assert.True(t, p.Observed.Right, p.ItemTitle)
					if p.Kind != script.ReadNumber && p.Kind != script.LampOut { // a learner leaves noughts out
						assert.Equal(t, p.Said, p.Outcome.Text)
					}
				}
				do(t, tu, "next", "")
			}
			for _, r := range tu.State().Results {
				assert.True(t, r.Right)
				assert.Equal(t, 2, r.Sure)
			}
			assert.Empty(t, words.Missing())
		})
	}
}

// explained holds what every explanation has to have.
func explained(t testing.TB, p *tutor.Panel) {
	assert.NotEmpty(t, p.Explanation, p.ItemTitle)
	for _, o := range p.Options {
		assert.NotEmpty(t, o.Because)
	}
	last := 0.0
	for _, l := range p.Chain {
		assert.GreaterOrEqual(t, l.TimeS, last, "lit in causal order")
		assert.NotContains(t, l.Text, "⟦")
		last = l.TimeS
	}
}

func TestALearnerAnswersNotAtAll(t *testing.T) {
	for _, f := range course.Files() {
		t.Run(f.Name, func(t *testing.T) {
			t.Parallel()
			lesson := read(t, f.Name, f.Text)
			tu := tutor.New([]*script.Lesson{lesson}, machine, catalogue(t).Text)
			do(t, tu, "open", lesson.ID)
			for i := range lesson.Items {
				play(tu)
				if lesson.Items[i].Asks() {
					still(t, tu)
				} else {
					finish(t, tu)
				}
				do(t, tu, "next", "")
			}
			p := tu.Panel()
			assert.Equal(t, tutor.Done, p.State)
			assert.Nil(t, p.Outcome)
			assert.Empty(t, p.Explanation)
			assert.Empty(t, p.Chain)
			for _, r := range p.Results {
				assert.Equal(t, tutor.Result{Item: r.Item}, r)
			}
		})
	}
}

// still: a frozen frame stays frozen, whatever time passes.
func still(t testing.TB, tu *tutor.Tutor) {
	before := observable(t, tu)
	tu.Tick(60)
	assert.False(t, tu.Step())
	assert.Equal(t, before, observable(t, tu))
	assert.Empty(t, tu.Panel().Chosen, "nothing is chosen beforehand")
}

// The items for review are opened by themselves.
func TestReviewsAreOpenedByThemselves(t *testing.T) {
	tu, lesson := twoCalls(t)
	do(t, tu, "open", "two-calls/review")
	p := tu.Panel()
	assert.Equal(t, 1, p.Review)
	assert.Equal(t, len(lesson.Items)-lesson.Reviewed()+1, p.Reviews)
	assert.Equal(t, lesson.Reviewed()-1, p.Items)
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
		"segment", "segments", "outcome", "verdict", "explanation", "canRun", "canStep", "task", "said", "sure", "chain", "review", "reviews", "terms"} {
		assert.Contains(t, string(text), `"`+key+`":`)
	}
}
