package session

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
)

// on asks the screen and reads its answer as the page does.
func on[T any](t *testing.T, s *Session, what string, args any) (answer T) {
	t.Helper()
	text, err := json.Marshal(args)
	require.NoError(t, err)
	value, err := s.Screen(&figure.Paper, "compare", what, text)
	require.NoError(t, err, what)
	text, err = json.Marshal(value)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &answer))
	return answer
}

// worked sets both sides up and works them out, in slices.
func worked(t *testing.T, s *Session, a, b CompareSet) CompareTold {
	t.Helper()
	b.Side = 1
	on[CompareFacts](t, s, "set", a)
	on[CompareFacts](t, s, "set", b)
	for !on[CompareWork](t, s, "work", map[string]float64{"Seconds": 7}).Done {
	}
	return on[CompareTold](t, s, "told", struct{}{})
}

func floorsOf(stops []CompareStops, side int) string {
	var list []string
	for _, s := range stops {
		list = append(list, s.Floor[side])
	}
	return strings.Join(list, " ")
}

// The interlocked scheme forgets its way at each stop; the directional one
// keeps it (the schemes' own words, and physics/lift's tests of them).
func TestTwoSchemesSideBySide(t *testing.T) {
	s := open(t)
	calls := sampleCalls(s.plan)
	told := worked(t, s, CompareSet{Calls: calls}, CompareSet{Calls: calls, Scheme: "interlocked"})
	assert.Equal(t, "4 2 G 5", floorsOf(told.Stops, 0))
	assert.Equal(t, "4 2 5 G", floorsOf(told.Stops, 1))
	assert.Equal(t, [2]string{"compare.number[value=4]", "compare.number[value=4]"}, told.Figures[1].Value, "both answer every call")
	assert.IsIncreasing(t, told.Marks)
	assert.Empty(t, told.Notes[0])

	// The reader's own machine is left alone.
	assert.Zero(t, s.Clock().TimeS)
	assert.Equal(t, "directional", s.plan.Control.Scheme)
}

// One clock: each side stands where its own run would at that time.
func TestBothSidesKeepOneClock(t *testing.T) {
	s := open(t)
	worked(t, s, CompareSet{Calls: "3@0"}, CompareSet{Calls: "3@0", Building: "lantern-row"})
	for i, id := range []string{"tidemill-house", "lantern-row"} {
		other := open(t)
		require.NoError(t, other.Open(id))
		require.NoError(t, other.Call("3"))
		require.NoError(t, other.Advance(6.5))
		for _, at := range []float64{9, 2, 6.3, 6.5} {
			on[any](t, s, "see", CompareSee{TimeS: at})
		}
		assert.Equal(t, other.Machine().Hash(), s.desks.compare.sides[i].run.Machine().Hash(), id)
	}
}

func TestEachSideIsDrawn(t *testing.T) {
	s := open(t)
	worked(t, s, CompareSet{Calls: "2@0"}, CompareSet{Calls: "2@0", Scheme: "two-button"})
	on[any](t, s, "see", CompareSee{TimeS: 5})
	for side := range 2 {
		for _, picture := range []string{"shaft", "chart"} {
			for _, moving := range []bool{false, true} {
				text := on[string](t, s, "draw", CompareDraw{Side: side, Picture: picture, Width: 300, Height: 400, Moving: moving})
				assert.Contains(t, text, "<svg")
			}
		}
	}
}

func TestWhatCannotBeComparedIsRefused(t *testing.T) {
	s := open(t)
	worked(t, s, CompareSet{Calls: "2@0"}, CompareSet{Calls: "2@0"})
	before := *s.desks.compare.sides[0]
	for id, set := range map[string]CompareSet{
		"compare.no-calls":       {},
		"call.form":              {Calls: "3"},
		"call.floor":             {Calls: "9@1"},
		"compare.too-much":       {Calls: "3@5000"},
		"stage.unknown-building": {Calls: "3@0", Building: "castle"},
		"stage.bad-arguments":    {Calls: "3@0", Side: 2},
	} {
		text, err := json.Marshal(set)
		require.NoError(t, err)
		_, err = s.Screen(&figure.Paper, "compare", "set", text)
		require.Error(t, err, id)
		assert.Equal(t, id, Phrase(err).ID)
	}
	assert.Equal(t, before.run, s.desks.compare.sides[0].run)
}
