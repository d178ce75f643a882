package script

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/document"
	"wheelroom/physics/lift"
)

// asking is a lesson with one item of each kind but choose-one and worked.
const asking = `version: 1
id: asking
title: Asking
level: beginner
building: mill
start: "1"
items:
  - title: Several
    lead: {text: x, until: 1 s}
    question: {kind: choose-several, text: x}
    options:
      - {text: A, ends: [door closed], because: x}
      - {text: B, figures: ["stop.1.after < 5 s", "end.travel = 0 m"], because: x}
    segments: [{until: 1 s}]
  - title: Order
    lead: {text: x, calls: [{floor: "3", at_s: 0}], until: 1 s}
    question: {kind: order-stops, floors: ["1", "2", "3"], text: x}
    answers:
      - {is: right, because: x}
      - {is: extra, because: x}
      - {is: "3, 2", because: x}
    segments: [{until: 1 s}]
  - title: Stands
    lead: {text: x, until: 1 s}
    question: {kind: set-switches, floors: ["3", "1"], text: x}
    answers: [{is: right, because: x}, {is: other, because: x}]
    segments: [{until: 1 s}]
  - title: Part
    lead: {text: x, until: 1 s}
    question: {kind: point-at-part, parts: [relay.up, relay.down], first: in, text: x}
    answers: [{is: right, because: x}, {is: relay.down, because: x}]
    segments: [{until: 1 s}]
  - title: Number
    lead: {text: x, until: 1 s}
    question: {kind: read-number, fact: end.travel, unit: mm, tolerance: 10, text: x}
    answers: [{is: right, because: x}, {is: other, because: "{why.relay.up}"}]
    segments: [{until: 1 s}]
  - title: Moment
    lead: {text: x, until: 1 s}
    question: {kind: lamp-out, event: lamp.1 dark, span_s: 8, text: x}
    answers: [{is: right, because: x}, {is: too-early, because: x}, {is: too-late, because: x}]
    segments: [{until: 1 s}]
  - title: Fault
    before: [{override: relay.up, state: stuck}]
    lead: {text: x, inputs: [{at_s: 0.5, load_kg: 100}], until: 1 s}
    question: {kind: faulty-part, parts: [relay.up, relay.down], text: x}
    answers: [{is: right, because: x}, {is: other, because: x}]
    inputs:
      - {at_s: 0.1, press: "3"}
      - {at_s: 0.2, switch: stop-switch, state: open}
      - {at_s: 0.3, isolator: open}
      - {at_s: 0.4, brake_lever: eased}
      - {at_s: 0.5, handwheel_nm: -20}
    segments: [{until: 1 s}]
review:
  - like: 2
    title: Order again
    start: "2"
  - like: 2
    title: Other question
    question: {kind: choose-one}
    options:
      - {text: A, goes: up, because: x}
      - {text: B, goes: down, because: x}
`

func readAsking(t *testing.T) *Lesson {
	t.Helper()
	l, problems := Read("asking.yaml", []byte(asking), mill)
	require.Empty(t, at(problems))
	return l
}

func TestReadEveryKind(t *testing.T) {
	l := readAsking(t)
	require.Len(t, l.Items, 9)
	assert.Equal(t, 8, l.Reviewed())
	fault := l.Items[6]
	require.Len(t, fault.Lead.Inputs, 2)
	assert.Equal(t, lift.Input{Kind: lift.Override, Part: "relay.up", State: "stuck"}, fault.Lead.Inputs[0].Do)
	assert.Equal(t, lift.Input{Kind: lift.Load, Value: 100}, fault.Lead.Inputs[1].Do)
	var kinds []lift.InputKind
	for _, in := range fault.Inputs {
		kinds = append(kinds, in.Do.Kind)
	}
	assert.Equal(t, []lift.InputKind{lift.Press, lift.Switch, lift.Isolate, lift.EaseBrake, lift.Wind}, kinds)
	assert.Equal(t, lift.Part("button.3"), fault.Inputs[0].Do.Part)
	assert.Equal(t, []lift.Part{"relay.up"}, l.Items[4].Whys(false))

	again, other := l.Items[7], l.Items[8]
	assert.True(t, again.Review)
	assert.Equal(t, "2", again.Start)
	assert.Len(t, again.Answers, 3, "taken over")
	assert.Equal(t, ChooseOne, other.Kind)
	assert.Empty(t, other.Answers, "a question of another kind takes over none")
}

// ran is a run of that lesson's building, up to 3 and back to 2.
func ran() *Log {
	l := &Log{Start: "1", First: map[lift.Part]string{"direction.1": "between", "direction.2": "above", "direction.3": "above", "lamp.1": "1"}}
	l.Path = []Place{{0, 0, 0, 0}, {1, 0, 0, 0}}
	l.NowS = 1
	l.Freeze()
	add := func(timeS float64, part lift.Part, state string, cause int) {
		l.Events = append(l.Events, lift.Event{TimeS: timeS, Part: part, State: state, Cause: cause})
	}
	add(1.2, "call.3", "1", -1)
	add(1.5, "relay.up", "1", 0)
	add(2, "stop", "-", 1)
	add(2.5, "direction.1", "below", -1)
	add(3, "lamp.1", "0", -1)
	add(4, "direction.2", "below", -1)
	add(6, "direction.3", "between", -1)
	add(7, "stop", "3", -1)
	add(8, "relay.down", "1", -1)
	add(9, "direction.2", "between", -1)
	add(9.5, "direction.3", "above", -1)
	add(10, "stop", "2", -1)
	l.Path = append(l.Path, Place{7, 6, 0, 0}, Place{10, 3, 0, 0})
	l.NowS = 11
	return l
}

func TestAnswersAreTidiedAndJudged(t *testing.T) {
	l, log := readAsking(t), ran()
	for _, c := range []struct {
		item                  int
		answer, tidy, class   string
		whole                 bool
		saidWith, explanation string
	}{
		{2, "3 2", "3 2", Right, true, "floor 3, then floor 2", "x"},
		{2, "2 3", "2 3", Swapped, true, "", ""},
		{2, "3", "3", Missing, true, "", ""},
		{2, "3 1 2", "3 1 2", Extra, true, "", "x"},
		{2, "", "", "", false, "", ""},
		{3, "3:above 1:below", "1:below 3:above", Right, true, "floor 1 at call below; floor 3 at call above", "x"},
		{3, "1:above 3:below", "1:above 3:below", Mirrored, true, "", "x"},
		{3, "1:below 3:between", "1:below 3:between", Other, true, "", "x"},
		{3, "1:below", "1:below", "", false, "", ""},
		{4, "relay.up", "relay.up", Right, true, "up relay", "x"},
		{4, "relay.down", "relay.down", Other, true, "", "x"},
		{5, " 3000,0 ", "3000", Right, true, "3000 mm", "x"},
		{5, "2989", "2989", TooLow, true, "", "x"},
		{5, "3010", "3010", Right, true, "", ""},
		{5, "−1", "-1", TooLow, true, "", ""},
		{6, "2.4", "2.4", Right, true, "2.4 s after the frozen frame", "x"},
		{6, "1", "1", TooEarly, true, "", ""},
		{6, "8", "8", TooLate, true, "", ""},
		{7, "relay.up", "relay.up", Right, true, "", "x"},
		{7, "relay.down", "relay.down", Other, true, "", "x"},
	} {
		it := &l.Items[c.item-1]
		tidy, ok := it.Tidy(c.answer)
		require.True(t, ok, "%s %q", it.Kind, c.answer)
		assert.Equal(t, c.tidy, tidy, it.Kind)
		assert.Equal(t, c.whole, it.Form.Whole(tidy), "%s %q", it.Kind, c.answer)
		if c.class != "" {
			assert.Equal(t, c.class, it.Form.Class(tidy, log), "%s %q", it.Kind, c.answer)
			assert.Equal(t, c.class == Right, it.Correct(tidy, log))
		}
		if c.saidWith != "" {
			assert.Equal(t, c.saidWith, english(t).Text(it.Form.Say(tidy)))
		}
		if c.explanation != "" {
			assert.NotEmpty(t, it.Explain(tidy, log), "%s %q", it.Kind, c.answer)
		}
	}
}

// What a learner may send is anything; what is no answer is taken for none.
func TestWhatIsNoAnswerIsRefused(t *testing.T) {
	l := readAsking(t)
	for item, answers := range map[int][]string{
		1: {"c", "a a", "a c", "A"},
		2: {"9", "3 3", "3,2", "<script>"},
		3: {"1:up", "1", "2:above", "1:above 1:below", ":"},
		4: {"relay.stop", "relay.up relay.down", "relay"},
		5: {"x", "1e3", "0x10", "1.2.3", "NaN", "Inf", "--1", strings.Repeat("1", 13), "1 2"},
		6: {"-1", "8.1", "soon"},
		7: {"car"},
	} {
		for _, answer := range answers {
			_, ok := l.Items[item-1].Tidy(answer)
			assert.False(t, ok, "%s %q", l.Items[item-1].Kind, answer)
		}
		_, ok := l.Items[item-1].Tidy(strings.Repeat("a ", 1000))
		assert.False(t, ok)
	}
}

func TestWhatARunLeavesOpenHasNoTruth(t *testing.T) {
	l, empty := readAsking(t), &Log{}
	empty.Freeze()
	for _, item := range []int{2, 4, 6} {
		_, ok := l.Items[item-1].Form.Truth(empty)
		assert.False(t, ok, l.Items[item-1].Kind)
	}
	twice := ran()
	twice.Events = append(twice.Events, lift.Event{TimeS: 11, Part: "stop", State: "3", Cause: -1})
	_, ok := l.Items[1].Form.Truth(twice)
	assert.False(t, ok, "a floor that is stopped at twice cannot be put in order once")
}

func TestReadSaysWhatIsWrongWithAQuestion(t *testing.T) {
	for _, c := range []struct {
		name, from, to, want string
	}{
		{"options where none are wanted", "    answers:\n      - {is: right, because: x}\n      - {is: extra", "    options: [{text: A, goes: up, because: x}, {text: B, goes: up, because: x}]\n    answers:\n      - {is: right, because: x}\n      - {is: extra", "lesson.options-not-wanted"},
		{"answers where none are wanted", "    options:\n      - {text: A, ends", "    answers: [{is: right, because: x}]\n    options:\n      - {text: A, ends", "lesson.answers-not-wanted"},
		{"no right answer explained", "answers: [{is: right, because: x}, {is: relay.down", "answers: [{is: other, because: x}, {is: relay.down", "lesson.right-unexplained"},
		{"explained twice", "{is: extra, because: x}", "{is: right, because: x}", "lesson.answer-twice"},
		{"no such class", "{is: extra, because: x}", "{is: too-low, because: x}", "lesson.unknown-class[found=too-low"},
		{"no such answer", `{is: "3, 2"`, `{is: "3, 9"`, "lesson.unknown-class[found=3, 9"},
		{"no parts", "parts: [relay.up, relay.down], first: in", "first: in", "lesson.no-parts"},
		{"no such part", "parts: [relay.up, relay.down], first", "parts: [relay.op, relay.down], first", "lesson.unknown-part[found=relay.op remedy=document.remedy-near[near=relay.up]]"},
		{"two rules", "first: in", "first: in, last: out", "lesson.not-one-rule"},
		{"no rule", ", first: in", "", "lesson.not-one-rule"},
		{"no such state", "first: in", "first: lit", "lesson.unknown-state[found=lit part=relay.up states=in, out]"},
		{"a number without its tolerance", ", tolerance: 10", "", "lesson.number-needs"},
		{"a number that is none", "fact: end.travel, unit: mm", "fact: start.floor", "lesson.fact-no-number"},
		{"a unit that does not fit", "unit: mm", "unit: s", "lesson.figure-unit"},
		{"no time line", "span_s: 8, ", "", "lesson.moment-needs"},
		{"two faults", "{override: relay.up, state: stuck}", "{override: relay.up, state: stuck}, {override: relay.down, state: stuck}", "lesson.not-one-fault"},
		{"no fault", "{override: relay.up, state: stuck}", "{override: relay.up}", "lesson.not-one-fault"},
		{"an input that does two things", `{at_s: 0.1, press: "3"}`, `{at_s: 0.1, press: "3", load_kg: 3}`, "lesson.not-one-deed"},
		{"an input that does nothing", `{at_s: 0.1, press: "3"}`, `{at_s: 0.1}`, "lesson.not-one-deed"},
		{"an unknown part forced", "override: relay.up", "override: relay.op", "lesson.unknown-part[found=relay.op"},
		{"a button there is not", `press: "3"`, `press: "3:up"`, "lesson.unknown-call[found=3:up calls=3]"},
		{"like what there is not", "like: 2\n    title: Order again", "like: 12\n    title: Order again", "lesson.no-such-like"},
		{"a comparison without a sign", "stop.1.after < 5 s", "stop.1.after 5 s", "lesson.bad-figure"},
		{"a comparison of other units", "stop.1.after < 5 s", "stop.1.after < 5 m", "lesson.figure-unit"},
		{"why of no part", "{why.relay.up}", "{why.relay.op}", "lesson.unknown-fact[found=why.relay.op remedy=document.remedy-near[near=why.relay.up]]"},
		{"why before the commit", "kind: set-switches, floors: [\"3\", \"1\"], text: x", "kind: set-switches, floors: [\"3\", \"1\"], text: \"{lead.why.relay.up}\"", "lesson.fact-of-the-answer"},
		{"two starts", "    start: \"2\"\n", "    start: \"2\"\n    start_m: 3\n", "lesson.two-starts"},
		{"a start above the house", "    start: \"2\"\n", "    start_m: 99\n", "lesson.start-too-high"},
		{"a plan that cannot be", "    start: \"2\"\n", "    plan: {selector: {advance_m: 5}}\n", "building.advance-over-storey"},
		{"a plan with an unknown key", "    start: \"2\"\n", "    plan: {selector: {advanc_m: 5}}\n", "document.unknown-key-near"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Contains(t, asking, c.from)
			l, problems := Read("asking.yaml", []byte(strings.Replace(asking, c.from, c.to, 1)), mill)
			require.NotEmpty(t, problems)
			assert.Nil(t, l)
			assert.Contains(t, strings.Join(at(problems), "\n"), c.want)
			assert.NotContains(t, english(t).Text(problems[0].Phrase), "⟦")
		})
	}
}

// A building of the lesson's own is read as a building file is.
func TestReadALessonWithItsOwnBuilding(t *testing.T) {
	own := strings.Replace(asking, "building: mill", "plan: {name: Own, floors: [{name: \"1\", height_m: 0}, {name: \"2\", height_m: 3}, {name: \"3\", height_m: 6}]}", 1)
	l, problems := Read("own.yaml", []byte(own), mill)
	require.Empty(t, at(problems))
	assert.Equal(t, "Own", l.Items[0].Plan.Name)
	assert.Equal(t, 180.0, l.Items[0].Plan.Selector.SpanDeg, "30° a metre")
	assert.Empty(t, l.Items[0].Building)
	assert.Equal(t, "mill", readAsking(t).Items[0].Building)

	_, problems = Read("own.yaml", []byte(strings.Replace(asking, "building: mill\n", "", 1)), mill)
	assert.Contains(t, strings.Join(at(problems), "\n"), "lesson.no-building")
	_, problems = Read("own.yaml", []byte(strings.Replace(asking, "building: mill", "plan: {name: Own}", 1)), mill)
	assert.Contains(t, strings.Join(at(problems), "\n"), "lesson.plan-without-floors")
}

// A list of problems ends somewhere, and says how many more there are.
func TestProblemsAreLimited(t *testing.T) {
	text := strings.Replace(asking, "floors: [\"3\", \"1\"], text: x", "floors: [\"3\", \"1\"], text: \""+strings.Repeat("{a} ", 300)+"\"", 1)
	_, problems := Read("long.yaml", []byte(text), mill)
	require.Len(t, problems, mostProblems)
	assert.Equal(t, "lesson.more-problems[count=201]", problems[mostProblems-1].Phrase.String())
	assert.True(t, document.Failed(problems))
}

func TestTradeWordsAreFound(t *testing.T) {
	p, _ := parseProse("The *up lines* are live. A line-up, {relay.up-line.in.time}. Stop relay!")
	assert.Equal(t, "up line", mentions(p, "up line"))
	assert.Equal(t, "Stop relay", mentions(p, "stop relay"))
	assert.Empty(t, mentions(p, "lay"), "part of another word")
	assert.Empty(t, mentions(p, "relay.up"), "part of a fact")
	assert.Empty(t, mentions(p, "brush"))
	assert.Equal(t, "up-line", Term{Word: "Up line"}.ID())
	assert.True(t, Term{Word: "brush"}.Is("Brushes"))
}
