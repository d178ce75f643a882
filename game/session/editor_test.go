package session

import (
	"encoding/json"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/game/figure"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
)

// ask asks a screen as the page does, over JSON.
func ask[T any](t *testing.T, s *Session, screen, what string, args any) (T, error) {
	t.Helper()
	text, err := json.Marshal(args)
	require.NoError(t, err)
	value, err := s.Screen(&figure.Paper, screen, what, text)
	var out T
	if err == nil {
		text, err := json.Marshal(value)
		require.NoError(t, err)
		require.NoError(t, json.Unmarshal(text, &out))
	}
	return out, err
}

func use(t *testing.T, s *Session, text string) Sheet {
	t.Helper()
	sheet, err := ask[Sheet](t, s, "building", "use", map[string]any{"text": text})
	require.NoError(t, err)
	return sheet
}

func edit(t *testing.T, s *Session, e Edit) string {
	t.Helper()
	text, err := ask[string](t, s, "building", "edit", e)
	require.NoError(t, err, "%+v", e)
	return text
}

func TestScreensRefuseWhatTheyDoNotKnow(t *testing.T) {
	s := open(t)
	for _, c := range [][3]string{{"cellar", "form", "{}"}, {"building", "fly", "{}"}, {"building", "use", "[]"}, {"building", "use", `{"txt":""}`}} {
		_, err := s.Screen(&figure.Paper, c[0], c[1], []byte(c[2]))
		require.Error(t, err, c)
		assert.NotEmpty(t, Phrase(err).ID)
	}
}

// The form has every value the reader knows, each with its words.
func TestFormHasEveryValue(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	fields, err := ask[[]FormField](t, s, "building", "form", struct{}{})
	require.NoError(t, err)
	seen := 0
	var walk func(list []FormField)
	walk = func(list []FormField) {
		for _, f := range list {
			id := valueName(strings.ReplaceAll(f.Path, "[]", ""))
			assert.True(t, words.Has(id), id)
			walk(f.Fields)
			if f.Kind == "map" || f.Kind == "list" {
				continue
			}
			seen++
			assert.NotEmpty(t, f.Why, f.Path)
			_, known := document.At(building.Fields(), strings.ReplaceAll(f.Path, "[]", "[0]"))
			assert.True(t, known, f.Path)
			for _, c := range f.Choices {
				assert.True(t, words.Has("editor.choice-"+c), c)
			}
		}
	}
	walk(fields)
	assert.Greater(t, seen, 70)
	assert.Empty(t, words.Missing())
}

func TestHalfWrongEditLeavesTheMachine(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Call("4"))
	require.NoError(t, s.Advance(5))
	hash, good := s.Machine().Hash(), string(s.opened().Text)
	for _, e := range []Edit{
		{Do: "set", Path: "lift.car_kg", Value: "7"},
		{Do: "set", Path: "lift.car_kg", Value: "heavy: [ {"},
		{Do: "set", Path: "name", Value: ""},
		{Do: "set", Path: "floors[2].height_m", Value: "4.3"},
		{Do: "set", Path: "selector.span_deg", Value: "350"}, // no room on the wheel: only the wheel knows
		{Do: "clear", Path: "floors[1].height_m"},
	} {
		e.Text = good
		sheet := use(t, s, edit(t, s, e))
		assert.False(t, sheet.Sound, "%+v", e)
		require.NotEmpty(t, sheet.Faults, "%+v", e)
		assert.Positive(t, sheet.Faults[0].Line)
		assert.Equal(t, hash, s.Machine().Hash(), "%+v", e)
		assert.Equal(t, good, s.opened().Text)
	}
}

// What is changed is changed at once; the run comes to the same moment where
// the changed lift can have had it.
func TestTheRunIsKeptWhereItCanBe(t *testing.T) {
	run := func() *Session {
		s := open(t)
		require.NoError(t, s.Call("4"))
		require.NoError(t, s.Call("2"))
		require.NoError(t, s.Advance(9))
		return s
	}
	s := run()
	hash := s.Machine().Hash()
	sheet := use(t, s, edit(t, s, Edit{Text: s.opened().Text, Do: "set", Path: "name", Value: "Mill"}))
	assert.True(t, sheet.Sound)
	assert.Equal(t, "editor.run-again[seconds=9.0]", sheet.Note)
	assert.Equal(t, hash, s.Machine().Hash(), "a name changes nothing")

	s = run()
	use(t, s, edit(t, s, Edit{Text: s.opened().Text, Do: "set", Path: "lift.car_kg", Value: "1000"}))
	assert.InDelta(t, 9, s.Clock().TimeS, 1e-9)
	assert.NotEqual(t, hash, s.Machine().Hash())
	assert.EqualValues(t, 1, s.Snapshot().Calls["4"], "the call is still there")

	s = run()
	use(t, s, edit(t, s, Edit{Text: s.opened().Text, Do: "set", Path: "floors[4].name", Value: "attic"[:3]}))
	assert.EqualValues(t, 1, s.Snapshot().Calls["att"], "a call follows its floor")

	s = run()
	sheet = use(t, s, edit(t, s, Edit{Text: s.opened().Text, Do: "remove-floor", Index: 4}))
	assert.True(t, sheet.Sound)
	assert.Equal(t, "editor.run-restarted", sheet.Note)
	assert.Zero(t, s.Clock().TimeS)
}

func TestFloors(t *testing.T) {
	s := open(t)
	text := s.opened().Text
	names := func(sheet Sheet) (list []string) {
		for i := range sheet.Floors {
			list = append(list, sheet.Values[floorPath(i, "name")].Value+" "+sheet.Values[floorPath(i, "height_m")].Value)
		}
		return list
	}
	do := func(do string, i int) {
		text = edit(t, s, Edit{Text: text, Do: do, Index: i})
		sheet := use(t, s, text)
		assert.True(t, sheet.Sound, "%s %d: %v", do, i, sheet.Faults)
	}
	assert.Equal(t, []string{"G 0", "1 4.2", "2 7.4", "3 10.6", "4 13.8", "5 16.8"}, names(use(t, s, text)))
	do("add-floor", 5)
	assert.Equal(t, "6 19.8", names(use(t, s, text))[6])
	do("add-floor", 0)
	assert.Equal(t, []string{"G 0", "7 3.2", "1 7.4"}, names(use(t, s, text))[:3])
	do("raise-floor", 0)
	assert.Equal(t, []string{"7 0", "G 3.2"}, names(use(t, s, text))[:2])
	do("lower-floor", 1)
	do("remove-floor", 1)
	do("remove-floor", 0)
	assert.Equal(t, []string{"1 0", "2 3.2", "3 6.4"}, names(use(t, s, text))[:3])
	assert.Contains(t, text, "# Tidemill House: a goods lift", "comments stay")
	for range 2 {
		do("remove-floor", 0)
	}
}

// Each number that a button offers does away with what it is offered for.
func TestCuresCure(t *testing.T) {
	s := open(t)
	base := "name: Test\nfloors: [{name: G, height_m: 0}, {name: \"1\", height_m: 3.2}, {name: \"2\", height_m: 6.4}]\n"
	offered := 0
	for _, wrong := range []string{
		"machine: {handwheel_kg_m2: 2.4}", "machine: {handwheel_kg_m2: 9}", "machine: {gear_ratio: 10}", "machine: {rated_speed_m_s: 1.3}",
		"shaft: {vane_half_m: 0.09}", "shaft: {vane_half_m: 0.02}", "brake: {torque_nm: 30}", "brake: {torque_nm: 40}",
		"motor: {fast_breakdown_nm: 40}", "motor: {slow_breakdown_nm: 30}", "lift: {load_kg: 700}", "lift: {balance: 0.3}", "lift: {balance: 0.9}",
		"control: {start_operate_ms: 40}", "control: {scheme: directonal}", "selector: {advance_m: 3.18}", "selector: {advance_m: 0.7}",
		"selector: {advance_up_m: 0.7, advance_down_m: 1.2}", "selector: {zone_half_m: 0.3, advance_m: 0.32}",
	} {
		text := base + wrong + "\n"
		sheet, _ := s.sheet([]byte(text))
		require.NotEmpty(t, sheet.Faults, wrong)
		for _, f := range sheet.Faults {
			for _, c := range f.Cures {
				offered++
				cured, _ := s.sheet([]byte(edit(t, s, Edit{Text: text, Do: "set", Path: c.Path, Value: c.Value})))
				for _, g := range cured.Faults {
					assert.False(t, g.Path == f.Path && sameKind(f, g), "%s, with %s %s: %s", wrong, c.Path, c.Value, g.Text)
				}
			}
		}
	}
	assert.Greater(t, offered, 18)
}

// sameKind compares the messages of two faults, worded by their identities.
func sameKind(a, b Fault) bool {
	id := func(f Fault) string { name, _, _ := strings.Cut(f.Text, "["); return name }
	return id(a) == id(b)
}

// The way building, address, building changes nothing; a form's edits and the
// text they make are the same building.
func TestRandomEditsKeepFormAndTextTogether(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	s := open(t)
	var fields []FormField
	var collect func(list []FormField)
	collect = func(list []FormField) {
		for _, f := range list {
			if collect(f.Fields); f.Kind == "real" && !strings.Contains(f.Path, "[]") {
				fields = append(fields, f)
			}
		}
	}
	collect(s.form())
	for _, b := range assets.Buildings() {
		text := string(b.Text)
		for range 5 {
			f := fields[r.IntN(len(fields))]
			low, high, _ := strings.Cut(strings.TrimSuffix(strings.TrimPrefix(f.Range, "editor.range[least="), "]"), " most=")
			from, err := strconv.ParseFloat(low, 64)
			require.NoError(t, err, f.Range)
			to, err := strconv.ParseFloat(high, 64)
			require.NoError(t, err)
			value := figureOf(tidy(from + r.Float64()*(to-from)))
			text = edit(t, s, Edit{Text: text, Do: "set", Path: f.Path, Value: value})
			sheet, plan := s.sheet([]byte(text))
			assert.Equal(t, Cell{value, true}, sheet.Values[f.Path], f.Path)
			packed, err := ask[string](t, s, "building", "address", map[string]any{"text": text})
			require.NoError(t, err)
			unpacked, err := Unpack(strings.TrimPrefix(packed, planAddress))
			require.NoError(t, err)
			back := string(unpacked)
			require.Equal(t, text, back)
			if sheet.Sound {
				use(t, s, back)
				assert.Equal(t, plan, *s.plan)
			}
		}
	}
}

func TestPreviewPointsOutWhatIsEdited(t *testing.T) {
	s := open(t)
	for _, v := range valueParts {
		part := valuePart(s.plan, v.path)
		found := false
		for _, picture := range pictures {
			require.NoError(t, s.View(picture.String()))
			for _, p := range s.Parts() {
				found = found || p.ID == part
			}
		}
		assert.True(t, found, "%s: no part %s in any picture", v.path, part)
	}
	drawn, err := ask[string](t, s, "building", "picture", Preview{"wheel", 500, 500, "selector.brush_width"})
	require.NoError(t, err)
	plain, err := ask[string](t, s, "building", "picture", Preview{"wheel", 500, 500, ""})
	require.NoError(t, err)
	assert.NotEqual(t, plain, drawn)
	assert.NotContains(t, drawn, "style=")
}
