package tutor_test

import (
	"encoding/json"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/lessons/script"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/lift"
)

// twin is a lesson of which everything up to the commit is the same and the
// asked run is another: the late call comes from another floor, and what is
// told afterwards says so.
const twin = `
version: 1
id: twin
title: Twins
level: beginner
building: tidemill-house
start: "1"
items:
  - title: Where to?
    lead:
      text: Floor 4 calls.
      calls: [{floor: "4", at_s: 0.3}]
      until: departs 1 + 0.5 s
    question: {kind: choose-one, text: "The car left at {lead.departure.1.time}. Where does it stop first?"}
    options:
      - {text: "Floor 2", order: [stops 2, stops 4], because: "At {stop.1.time} it stopped at {stop.1.floor}."}
      - {text: "Floor 3", order: [stops 3, stops 4], because: "At {stop.1.time} it stopped at {stop.1.floor}."}
    calls: [{floor: "FLOOR", at_s: 0.2}]
    segments:
      - {until: stops FLOOR, text: "It stopped at {stop.1.floor}."}
      - {until: stops 4, speed: 4}
    summary: Floor {stop.1.floor}.
  - title: And then?
    lead:
      text: Nothing happens.
      until: 1 s
    question: {kind: choose-one, text: Does the car move?}
    options:
      - {text: "Yes", happens: [departs 1], because: "It left at {departure.1.time}."}
      - {text: "No", never: [relay.up in], because: "It stayed."}
    calls: [{floor: "FLOOR", at_s: 0.2}]
    segments:
      - {until: stops FLOOR}
  - title: In which order?
    lead: {text: Nothing happens., until: 0.5 s}
    question: {kind: order-stops, floors: ["2", "3"], text: Where does it stop?}
    answers:
      - {is: right, because: "Floor {stop.1.floor}."}
      - {is: other, because: "No, floor {stop.1.floor}."}
    calls: [{floor: "FLOOR", at_s: 0.2}]
    segments: [{until: stops FLOOR, speed: 2}]
    chain: [stops FLOOR]
  - title: How do they stand?
    lead: {text: Nothing happens., until: 0.5 s}
    question: {kind: set-switches, floors: ["2", "3"], text: How do the switches stand?}
    answers:
      - {is: right, because: "So. {lead.why.relay.up} {why.relay.up}"}
      - {is: other, because: "Not so."}
    calls: [{floor: "FLOOR", at_s: 0.2}]
    segments: [{until: stops FLOOR, speed: 2}]
  - title: Which call relay?
    lead: {text: Nothing happens., until: 0.5 s}
    question: {kind: point-at-part, parts: [call.2, call.3], first: registered, text: Which comes in?}
    answers:
      - {is: right, because: "At {call.FLOOR.registered.time}."}
      - {is: other, because: "The other."}
    calls: [{floor: "FLOOR", at_s: 0.2}]
    segments: [{until: 1 s}]
  - title: How far?
    lead: {text: Nothing happens., until: 0.5 s}
    question: {kind: read-number, fact: end.travel, tolerance: 1, text: How far does it go?}
    answers:
      - {is: right, because: "{end.travel}"}
      - {is: other, because: "No, {end.travel}."}
    calls: [{floor: "FLOOR", at_s: 0.2}]
    segments: [{until: stops FLOOR, speed: 2}]
  - title: When is it dark?
    lead: {text: Nothing happens., until: 0.5 s}
    question: {kind: lamp-out, event: stops FLOOR, span_s: 20, text: When does it stop?}
    answers:
      - {is: right, because: "After {stop.1.after}."}
      - {is: other, because: "No, after {stop.1.after}."}
    calls: [{floor: "FLOOR", at_s: 0.2}]
    segments: [{until: stops FLOOR, speed: 2}]
  - title: What fails?
    lead: {text: Nothing happens., until: 0.5 s}
    question: {kind: faulty-part, parts: [direction.2, direction.3], text: Which is stuck?}
    answers:
      - {is: right, because: "Stuck."}
      - {is: other, because: "Sound."}
    calls: [{floor: "4", at_s: 0.2}]
    inputs: [{at_s: 0.1, override: direction.FLOOR, state: stuck}]
    segments: [{until: rim.3 made, speed: 2}]
  - title: Which of these?
    lead: {text: Nothing happens., until: 0.5 s}
    question: {kind: choose-several, text: Which of these?}
    options:
      - {text: It stops at 2, happens: [stops 2], because: "{stop.1.floor}"}
      - {text: It stops at 3, happens: [stops 3], because: "{stop.1.floor}"}
    calls: [{floor: "FLOOR", at_s: 0.2}]
    segments: [{until: stops FLOOR, speed: 2}]
`

// observable is all that can be seen of a tutor from outside.
func observable(t testing.TB, tu *tutor.Tutor) string {
	panel, err := json.Marshal(tu.Panel())
	require.NoError(t, err)
	state, err := json.Marshal(tu.State())
	require.NoError(t, err)
	seen := string(panel) + string(state)
	if m := tu.Machine(); m != nil {
		var v lift.View
		m.Look(&v)
		machine, err := json.Marshal(struct {
			V lift.View
			E []lift.Event
		}{v, m.Events()})
		require.NoError(t, err)
		seen += string(machine)
	}
	return seen
}

// What is asked cannot be told from what is seen: whatever a learner does, two
// lessons that differ only in the asked run look the same until an answer of
// the item is committed.
func TestNoPathShowsTheOutcomeBeforeTheCommit(t *testing.T) {
	first := tutor.New([]*script.Lesson{read(t, "a", []byte(strings.ReplaceAll(twin, "FLOOR", "2")))}, machine, catalogue(t).Text)
	other := tutor.New([]*script.Lesson{read(t, "b", []byte(strings.ReplaceAll(twin, "FLOOR", "3")))}, machine, catalogue(t).Text)
	both := []*tutor.Tutor{first, other}
	random := rand.New(rand.NewPCG(7, 11))
	deeds := []string{"choose a", "choose b", "choose c", "sure 3", "choose 2 3", "choose 2:above 3:above", "choose call.2", "choose 4", "choose direction.3",
		"commit ", "continue ", "observe a", "observe b", "observe 2", "again ", "next ",
		"open twin", "open twin/2", "open nowhere", "close "}
	compared, answered := 0, 0
	for range 160 {
		start := "twin/" + strconv.Itoa(1+random.IntN(9))
		for _, tu := range both {
			do(t, tu, "open", start)
		}
		for range 12 {
			state, dt := first.State(), []float64{0.05, 0.4, 3, 30}[random.IntN(4)]
			n, deed := random.IntN(10), deeds[random.IntN(len(deeds))]
			if first.Panel().CanCommit && random.IntN(2) == 0 {
				n, deed = 9, "commit "
			}
			for _, tu := range both {
				switch action, arg, _ := strings.Cut(deed, " "); n {
				case 0, 1, 2:
					tu.Tick(dt)
				case 3:
					tu.Step()
				case 4:
					require.NoError(t, tu.Restore(state))
				default:
					_ = tu.Do(action, arg)
				}
			}
			p := first.Panel()
			if p.Committed {
				answered++
				break
			}
			compared++
			require.Nil(t, p.Outcome)
			require.Nil(t, p.Verdict)
			require.Nil(t, p.Observed)
			require.Empty(t, p.Explanation)
			require.Empty(t, p.Chain)
			require.Empty(t, p.Notes)
			for _, o := range p.Options {
				require.Nil(t, o.Right)
				require.Empty(t, o.Because)
			}
			require.Equal(t, observable(t, first), observable(t, other))
		}
	}
	assert.Greater(t, compared, 400)
	assert.Greater(t, answered, 10)
}

// After the commit the twins do part, or the test above could not fail.
func TestTheTwinsPartAfterTheCommit(t *testing.T) {
	var outcomes []string
	for _, floor := range []string{"2", "3"} {
		lesson := read(t, floor, []byte(strings.ReplaceAll(twin, "FLOOR", floor)))
		require.Empty(t, said(tutor.Check(lesson, machine)))
		tu := tutor.New([]*script.Lesson{lesson}, machine, catalogue(t).Text)
		do(t, tu, "open", "twin")
		play(tu)
		do(t, tu, "choose", "a")
		do(t, tu, "commit", "")
		finish(t, tu)
		do(t, tu, "observe", "a")
		outcomes = append(outcomes, tu.Panel().Outcome.Text)
		for i := 3; i <= 9; i++ {
			do(t, tu, "open", "twin/"+strconv.Itoa(i))
			p := answer(t, tu, some)
			outcomes = append(outcomes, p.Outcome.Text)
		}
	}
	require.Len(t, outcomes, 16)
	assert.Equal(t, []string{"Floor 2", "Floor 3"}, []string{outcomes[0], outcomes[8]})
	for i := range 8 {
		assert.NotEqual(t, outcomes[i], outcomes[i+8], "of item %d", i+2)
	}
}

// A kept state brings the lesson back to the same moment, wherever it stood.
func TestAStateBringsTheLessonBack(t *testing.T) {
	tu, lesson := twoCalls(t)
	random := rand.New(rand.NewPCG(3, 5))
	deeds := []string{"choose a", "choose b", "commit ", "continue ", "continue ", "observe a", "again ", "next "}
	do(t, tu, "open", "two-calls")
	phases := map[tutor.Phase]bool{}
	for i := range 400 {
		switch random.IntN(3) {
		case 0:
			tu.Tick([]float64{0.03, 0.7, 9}[random.IntN(3)])
		case 1:
			if random.IntN(3) == 0 {
				tu.Step()
			}
		default:
			action, arg, _ := strings.Cut(deeds[random.IntN(len(deeds))], " ")
			_ = tu.Do(action, arg)
		}
		if tu.Phase() == tutor.Done {
			do(t, tu, "open", "two-calls")
		}
		if i%12 != 0 && phases[tu.Phase()] {
			continue
		}
		phases[tu.Phase()] = true
		text, err := json.Marshal(tu.State())
		require.NoError(t, err)
		var kept tutor.State
		require.NoError(t, json.Unmarshal(text, &kept))
		back := tutor.New([]*script.Lesson{lesson}, machine, catalogue(t).Text)
		require.NoError(t, back.Restore(kept), string(text))
		require.Equal(t, observable(t, tu), observable(t, back))
		require.Equal(t, tu.Machine().(*lift.Machine).Hash(), back.Machine().(*lift.Machine).Hash())
	}
	for _, p := range []tutor.Phase{tutor.LeadIn, tutor.Asked, tutor.Committed, tutor.Running, tutor.Paused, tutor.Observe, tutor.Explained} {
		assert.True(t, phases[p], "the walk came by %q", p)
	}
}

func TestAStateThatDoesNotFitIsRefused(t *testing.T) {
	tu, _ := twoCalls(t)
	do(t, tu, "open", "two-calls/2")
	play(tu)
	good := tu.State()
	before := observable(t, tu)
	for name, change := range map[string]func(s *tutor.State){
		"another lesson":   func(s *tutor.State) { s.Lesson = "other" },
		"no such item":     func(s *tutor.State) { s.Item = 40 },
		"item nought":      func(s *tutor.State) { s.Item = 0 },
		"too long":         func(s *tutor.State) { s.Beats = 1 << 40 },
		"backwards":        func(s *tutor.State) { s.Beats = -1 },
		"an early commit":  func(s *tutor.State) { s.Actions = []tutor.Action{{Beat: 1, Do: "commit"}} },
		"nothing chosen":   func(s *tutor.State) { s.Actions = []tutor.Action{{Beat: s.Beats, Do: "commit"}} },
		"past the freeze":  func(s *tutor.State) { s.Beats += 500 },
		"a lesson in it":   func(s *tutor.State) { s.Actions = []tutor.Action{{Do: "open", Arg: "two-calls/3"}} },
		"done in a moment": func(s *tutor.State) { s.Done = true },
		"other events":     func(s *tutor.State) { s.Events++ },
	} {
		bad := good
		change(&bad)
		assert.Error(t, tu.Restore(bad), name)
		assert.Equal(t, before, observable(t, tu), name)
	}
	require.NoError(t, tu.Restore(tutor.State{}))
	assert.Equal(t, tutor.Closed, tu.Phase())
}
