package document_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/document"
)

// house declares a small document with everything an edit may meet.
func house(m *document.Mapping) {
	var name, scheme string
	var kg, m2 float64
	var on bool
	type floor struct {
		name string
		m    float64
	}
	floors := []floor{}
	m.Text("name", &name, document.Count(1, 60, "why"))
	document.ListOf(m, "floors", &floors, document.Count(2, 32, "why"), func(m *document.Mapping, f *floor) {
		m.Text("name", &f.name, document.Count(1, 4, "why"))
		m.Float("height_m", &f.m, document.Between(0, 120, "m", "why"))
	})
	m.Map("lift", func(m *document.Mapping) {
		m.Float("car_kg", &kg, document.Between(100, 5000, "kg", "why"))
		m.Float("load_kg", &kg, document.Between(0, 5000, "kg", "why"))
		m.Bool("doors", &on)
	})
	m.Map("machine", func(m *document.Mapping) {
		m.Map("wheel", func(m *document.Mapping) { m.Float("rim_kg", &m2, document.Between(0, 500, "kg", "why")) })
	})
	m.Map("control", func(m *document.Mapping) { m.Choice("scheme", &scheme, []string{"one", "other"}, "why") })
}

const written = `# A house.
name: House   # its name
floors:       # lowest first
  - {name: G, height_m: 0}
  # the first
  - name: "1"
    height_m: 3
  - {name: '2', height_m: 6}

lift: {car_kg: 900, load_kg: 150}
control:
  scheme: one # simple
`

func TestAnEditChangesNothingElse(t *testing.T) {
	fields := document.Describe(house)
	set := func(path, value string) func(string) ([]byte, bool) {
		return func(text string) ([]byte, bool) { return document.Set([]byte(text), fields, path, value) }
	}
	unset := func(path string) func(string) ([]byte, bool) {
		return func(text string) ([]byte, bool) { return document.Unset([]byte(text), path) }
	}
	insert := func(path string, at int, entry string) func(string) ([]byte, bool) {
		return func(text string) ([]byte, bool) {
			return document.Insert([]byte(text), fields, path, at, entry)
		}
	}
	remove := func(path string, at int) func(string) ([]byte, bool) {
		return func(text string) ([]byte, bool) { return document.Remove([]byte(text), path, at) }
	}
	for _, c := range []struct {
		name     string
		edit     func(string) ([]byte, bool)
		old, new string
	}{
		{"a value before a comment", set("name", "Mill"), "name: House   #", "name: Mill   #"},
		{"a value that needs quotes", set("name", `"4"`), "name: House", `name: "4"`},
		{"a value in braces", set("lift.car_kg", "1000"), "car_kg: 900", "car_kg: 1000"},
		{"the last value in braces", set("lift.load_kg", "0"), "load_kg: 150", "load_kg: 0"},
		{"a value in quotes", set("floors[1].name", "E"), `name: "1"`, "name: E"},
		{"a value in single quotes", set("floors[2].name", `"3"`), "'2'", `"3"`},
		{"a value of a list", set("floors[1].height_m", "3.5"), "height_m: 3\n", "height_m: 3.5\n"},
		{"a key that is missing in braces", set("lift.doors", "true"), "load_kg: 150}", "load_kg: 150, doors: true}"},
		{"a section that is missing, in its place", set("machine.wheel.rim_kg", "40"), "load_kg: 150}\n", "load_kg: 150}\nmachine:\n  wheel:\n    rim_kg: 40\n"},
		{"a value taken from braces", unset("lift.car_kg"), "{car_kg: 900, load_kg", "{load_kg"},
		{"the last value taken from braces", unset("lift.load_kg"), "900, load_kg: 150}", "900}"},
		{"the only value of a section", unset("control.scheme"), "control:\n  scheme: one # simple\n", ""},
		{"a floor at the end", insert("floors", 3, `{name: "3", height_m: 9}`), "height_m: 6}\n", "height_m: 6}\n  - {name: \"3\", height_m: 9}\n"},
		{"a floor at the beginning", insert("floors", 0, "{name: B}"), "  - {name: G", "  - {name: B}\n  - {name: G"},
		{"a floor between", insert("floors", 2, "{name: M}"), "  - {name: '2'", "  - {name: M}\n  - {name: '2'"},
		{"a floor out", remove("floors", 0), "  - {name: G, height_m: 0}\n", ""},
		{"a floor of two lines out", remove("floors", 1), "  - name: \"1\"\n    height_m: 3\n", ""},
		{"the last floor out", remove("floors", 2), "  - {name: '2', height_m: 6}\n", ""},
	} {
		got, ok := c.edit(written)
		if assert.True(t, ok, c.name) {
			assert.Equal(t, strings.Replace(written, c.old, c.new, 1), string(got), c.name)
		}
	}
}

func TestEditsOfUnusualText(t *testing.T) {
	fields := document.Describe(house)
	for _, c := range []struct{ name, text, path, value, want string }{
		{"no line feed at the end", "name: House", "lift.car_kg", "900", "name: House\nlift:\n  car_kg: 900\n"},
		{"left empty", "name:\n", "name", "House", "name: House\n"},
		{"a section left empty", "name: A\nlift: # nothing\n", "lift.car_kg", "900", "name: A\nlift: # nothing\n  car_kg: 900\n"},
		{"empty braces", "lift: {}\n", "lift.car_kg", "900", "lift: {car_kg: 900}\n"},
		{"all in braces", "{name: A, lift: {car_kg: 1}}", "machine.wheel.rim_kg", "4", "{name: A, lift: {car_kg: 1}, machine: {wheel: {rim_kg: 4}}}"},
		{"before all others", "lift: {car_kg: 1}\n", "name", "A", "name: A\nlift: {car_kg: 1}\n"},
		{"lines of another system", "name: A\r\nlift:\r\n  car_kg: 1\r\n", "lift.car_kg", "2", "name: A\nlift:\n  car_kg: 2\n"},
		{"letters of two bytes", "name: Mühle # groß\nlift: {car_kg: 1}\n", "name", "Öl", "name: Öl # groß\nlift: {car_kg: 1}\n"},
		{"a sign in quotes", `name: "a \" # b" # c`, "name", "B", "name: B # c"},
	} {
		got, ok := document.Set([]byte(c.text), fields, c.path, c.value)
		if assert.True(t, ok, c.name) {
			assert.Equal(t, c.want, string(got), c.name)
		}
	}
}

// What cannot be changed with certainty is not changed.
func TestEditsThatFail(t *testing.T) {
	fields := document.Describe(house)
	for name, text := range map[string]string{
		"no mapping":          "- 1",
		"not readable":        "name: [",
		"a block of text":     "name: |\n  House\n",
		"a text on two lines": "name: House\n  of two\n",
		"a list":              "name: [a]\nlift: 1\n",
	} {
		_, ok := document.Set([]byte(text), fields, "lift.car_kg", "1")
		assert.False(t, ok, name)
		assert.Equal(t, strings.HasPrefix(name, "a "), document.Readable([]byte(text)), name)
	}
	for _, spelled := range []string{"a: b", "[", "\"", "1\nlift: 2"} {
		_, ok := document.Set([]byte(written), fields, "name", spelled)
		assert.False(t, ok, spelled)
	}
}

func TestSpell(t *testing.T) {
	real := document.Field{Kind: document.Real}
	for typed, want := range map[string]string{
		" 4.2 ": "4.2", "4,2": "4.2", "−3": "-3", "1,000,000": `"1,000,000"`, "x": "x", "": `""`, "0x10": `"0x10"`, "1: 2 {": `"1: 2 {"`,
	} {
		assert.Equal(t, want, document.Spell(real, typed), typed)
	}
	assert.Equal(t, `"1"`, document.Spell(document.Field{Kind: document.Text}, "1"))
	assert.Equal(t, "true", document.Spell(document.Field{Kind: document.Truth}, "true"))
}

func TestRaw(t *testing.T) {
	for path, want := range map[string]string{"name": "House", "floors[1].name": "1", "lift.load_kg": "150", "lift": "", "floors[9].name": "", "x.y": ""} {
		got, ok := document.Raw([]byte(written), path)
		require.Equal(t, want != "", ok, path)
		assert.Equal(t, want, got, path)
	}
}

func FuzzSet(f *testing.F) {
	fields := document.Describe(house)
	f.Add(written, "lift.car_kg", "7")
	f.Add("{name: a}", "machine.wheel.rim_kg", "{")
	f.Fuzz(func(t *testing.T, text, path, spelled string) {
		if out, ok := document.Set([]byte(text), fields, path, spelled); ok {
			require.True(t, document.Readable(out))
		}
		if out, ok := document.Unset([]byte(text), path); ok {
			require.True(t, document.Readable(out) || len(strings.TrimSpace(string(out))) == 0)
		}
	})
}
