package session

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// laying lays a ring out.
func laying(t *testing.T, s *Session, text string, more map[string]any) RingLaid {
	t.Helper()
	laid, err := ask[RingLaid](t, s, "ring", "lay", ringAsk(text, more))
	require.NoError(t, err)
	return laid
}

func ringAsk(text string, more map[string]any) map[string]any {
	q := map[string]any{"text": text, "terminal": -1, "width": 700, "beside": 400}
	for k, v := range more {
		q[k] = v
	}
	return q
}

// A value, a join by hand and a proposal, each into the building and out of it
// again as its file says it.
func TestRingIsLaidOutAndPutIntoTheBuilding(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	form, err := ask[RingForm](t, s, "ring", "form", struct{}{})
	require.NoError(t, err)
	require.Len(t, form.Fields, len(ringPaths))

	laid := laying(t, s, form.Text, nil)
	require.NotNil(t, laid.Page)
	assert.False(t, laid.Changed)
	assert.True(t, strings.HasPrefix(laid.Ring.SVG, "<svg"))
	// 16.8 m by 2.8 terminals to the mean storey of 3.36 m, both ends joined: by hand 1.2 m and 16.
	assert.Len(t, laid.Page.Terminals, 16)
	assert.InDelta(t, 1.2, laid.Page.PitchM, 1e-9)
	assert.False(t, laid.Advice.Possible)

	moved := laying(t, s, laid.Text, map[string]any{"do": "move", "terminal": 2, "floor": "1"})
	assert.True(t, moved.Changed)
	assert.True(t, moved.Sound)
	assert.Equal(t, "1", moved.Page.Terminals[2].Floor)
	assert.Contains(t, moved.Text, "joins")
	cleared := laying(t, s, moved.Text, map[string]any{"do": "move", "terminal": 2})
	assert.Empty(t, cleared.Page.Joins)
	assert.NotContains(t, cleared.Text, "joins")
	two := laying(t, s, moved.Text, map[string]any{"do": "move", "terminal": 3})
	assert.Len(t, two.Page.Joins, 2)
	assert.Empty(t, laying(t, s, two.Text, map[string]any{"do": "clear"}).Page.Joins)

	_, err = ask[string](t, s, "ring", "put", map[string]any{"text": two.Text})
	require.NoError(t, err)
	form, err = ask[RingForm](t, s, "ring", "form", struct{}{})
	require.NoError(t, err)
	assert.Equal(t, two.Text, form.Text)
	assert.Len(t, s.Machine().Plan().Selector.Joins, 2)

	used := laying(t, s, two.Text, map[string]any{"do": "use", "index": 0})
	assert.True(t, used.Advice.Possible)
	for _, b := range used.Page.Boundaries {
		assert.Positive(t, b.DarkM)
	}
	set := laying(t, s, used.Text, map[string]any{"do": "set", "path": "selector.brush_width", "value": "0,7"})
	assert.Equal(t, Cell{"0.7", true}, set.Values["selector.brush_width"])
	assert.Empty(t, words.Missing())
}

// What cannot be is said, and nothing is put into the building.
func TestRingFaults(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	text := string(s.text)
	for name, change := range map[string]map[string]any{
		"over the limit":      {"do": "set", "path": "selector.terminals_per_floor", "value": "9"},
		"no figure":           {"do": "set", "path": "selector.brush_width", "value": "wide"},
		"wanted by two":       {"do": "set", "path": "selector.live_terminals", "value": "4"},
		"a floor without any": {"do": "set", "path": "selector.joins[0].floor", "value": "blank"},
	} {
		from := text
		if name == "a floor without any" {
			from = laying(t, s, text, map[string]any{"do": "move", "terminal": 0}).Text
			change = map[string]any{"do": "move", "terminal": 1}
		}
		laid := laying(t, s, from, change)
		assert.False(t, laid.Sound, name)
		assert.NotEmpty(t, laid.Faults, name)
		_, err := ask[string](t, s, "ring", "put", map[string]any{"text": laid.Text})
		assert.Error(t, err, name)
		assert.Equal(t, text, string(s.text), name)
	}
	for want, q := range map[string]map[string]any{
		"bench.no-terminal": {"do": "move", "terminal": 99, "floor": "1"},
		"drive.no-floor":    {"do": "move", "terminal": 1, "floor": "9"},
		"bench.no-proposal": {"do": "use", "index": 99},
		"editor.unwritable": {"do": "set", "path": "name", "value": "x"},
	} {
		_, err := ask[any](t, s, "ring", "lay", ringAsk(text, q))
		assert.Equal(t, want, Phrase(err).ID)
	}
	_, err := ask[any](t, s, "ring", "draw", ringAsk("version: 1", nil))
	assert.Equal(t, "bench.no-ring-in-text", Phrase(err).ID)
	assert.Empty(t, words.Missing())
}

func TestRingFiles(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	written := map[string]string{}
	for _, which := range []string{"sheet", "csv", "json"} {
		text, err := ask[string](t, s, "ring", "file", ringAsk(string(s.text), map[string]any{"which": which}))
		require.NoError(t, err)
		written[which] = text
	}
	assert.True(t, strings.HasPrefix(written["sheet"], "<svg"))
	assert.Contains(t, written["json"], `"blank_terminals"`)
	rows, err := csv.NewReader(strings.NewReader(written["csv"])).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 17)
	assert.Empty(t, words.Missing())
}
