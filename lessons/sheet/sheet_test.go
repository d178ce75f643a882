package sheet_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/lessons/script"
	"wheelroom/lessons/sheet"
	"wheelroom/physics/building"
	"wheelroom/physics/phrase"
)

const house = `version: 1
name: Small House
floors:
  - {name: G, height_m: 0}
  - {name: "1", height_m: 4}
  - {name: "2", height_m: 8}
  - {name: "3", height_m: 12}
`

const lesson = `version: 1
id: small
title: Small
level: beginner
aims: [See it.]
building: small-house
start: "G"
items:
  - title: Which floor first
    lead: {text: The car rests., until: 1 s}
    question: {kind: choose-one, text: Where does it stop first?}
    options:
      - {text: At floor 1, stops: ["1"], because: It was called.}
      - {text: At floor 3, stops: ["3"], because: Nobody called there., tempting: true}
      - {text: Nowhere, stops: [], because: A call brings it.}
    calls: [{floor: "1", at_s: 0.2}]
    segments: [{until: stops 1}, {until: 4 s}]
    summary: It stops at floor {stop.1.floor}.
  - title: The order
    lead: {text: The car rests., until: 1 s}
    question: {kind: order-stops, text: In which order?}
    answers:
      - {is: right, because: Lower first.}
      - {is: other, because: It keeps its way.}
    calls: [{floor: "2", at_s: 0.2}, {floor: "1", at_s: 0.4}]
    segments: [{until: stops 1}, {until: stops 2, speed: 2}, {until: 4 s}]
    summary: Both were served.
`

func buildings(id string) (*building.Plan, []string) {
	plan, _ := building.Read("small-house.yaml", []byte(house))
	return &plan, []string{"small-house"}
}

func read(t *testing.T, text string) *script.Lesson {
	t.Helper()
	l, problems := script.Read("small.yaml", []byte(text), buildings)
	require.NotNil(t, l, "%v", problems)
	return l
}

func TestMakePlaysEveryItem(t *testing.T) {
	s, err := sheet.Make(read(t, lesson), phrase.Phrase.String)
	require.NoError(t, err)
	require.Len(t, s.Items, 2)
	assert.Equal(t, "a", s.Items[0].Told.Outcome.ID, "the car stops where it was called")
	assert.Equal(t, "1 2", s.Items[1].Told.Outcome.ID, "the nearer landing ahead comes first")
	for i := range s.Items {
		assert.InDelta(t, 1, s.Items[i].Machine.TimeS(), 0.011, "the picture is of the frozen frame")
		assert.Nil(t, s.Items[i].Asked.Outcome, "the question side knows no answer")
	}
}

func TestEditionFollowsTheLesson(t *testing.T) {
	a, err := sheet.Make(read(t, lesson), phrase.Phrase.String)
	require.NoError(t, err)
	b, err := sheet.Make(read(t, lesson+"    chain: [relay.up in]\n"), phrase.Phrase.String)
	require.NoError(t, err)
	assert.Equal(t, a.Edition, b.Edition, "what is not on paper does not count")
	c, err := sheet.Make(read(t, lesson+"caution: Mind the gap.\n"), phrase.Phrase.String)
	require.NoError(t, err)
	assert.NotEqual(t, a.Edition, c.Edition)
}

// However a copy is shuffled, the letter in its key stands beside the right
// answer, every answer is offered once, and the seed alone decides.
func TestSetHasItsKey(t *testing.T) {
	s, err := sheet.Make(read(t, lesson), phrase.Phrase.String)
	require.NoError(t, err)
	copies := s.Set(30, 7)
	assert.Equal(t, copies, s.Set(30, 7))
	assert.NotEqual(t, copies, s.Set(30, 8))
	letters := map[string]int{}
	for _, c := range copies {
		assert.ElementsMatch(t, []int{0, 1, 2}, c.Orders[0])
		key := s.Key(c, 0)
		require.Len(t, key, 1)
		place := c.Orders[0][key[0]-'A']
		assert.Equal(t, "At floor 1", s.Items[0].Offered()[place].Text)
		letters[key]++
		assert.Empty(t, c.Orders[1], "stops are written, not chosen")
		assert.Equal(t, s.Items[1].Told.Outcome.Text, s.Key(c, 1))
	}
	assert.Len(t, letters, 3, "the right letter differs between neighbours")
	assert.Equal(t, "A", s.Key(s.Plain(), 0))
}
