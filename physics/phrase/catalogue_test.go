package phrase_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/phrase"
)

const english = `
language.tag: en
language.decimal: "."
language.minus: "−"
`

const polish = `
language.tag: pl
language.decimal: ","
language.minus: "-"
`

func read(t *testing.T, files ...string) *phrase.Catalogue {
	t.Helper()
	var texts [][]byte
	for _, f := range files {
		texts = append(texts, []byte(f))
	}
	c, err := phrase.ReadCatalogue(texts...)
	require.NoError(t, err)
	return c
}

func TestText(t *testing.T) {
	c := read(t, english, `
lift.at-floor: "the car is at floor {floor}"
lift.calls: {one: "{count} call", other: "{count} calls"}
lift.speed: "{speed} m/s"
lift.both: "{first}, and {second}; {first}"
lift.plain: all is well
lift.long: >
  folded
  lines
`)
	for _, v := range []struct {
		name string
		p    phrase.Phrase
		want string
	}{
		{"empty", phrase.Phrase{}, ""},
		{"no slots", phrase.Of("lift.plain"), "all is well"},
		{"folded", phrase.Of("lift.long"), "folded lines"},
		{"text", phrase.Of("lift.at-floor", "floor", "G"), "the car is at floor G"},
		{"braces in a value stay", phrase.Of("lift.at-floor", "floor", "{floor}"), "the car is at floor {floor}"},
		{"whole number", phrase.Of("lift.at-floor", "floor", -3), "the car is at floor −3"},
		{"one", phrase.Of("lift.calls", "count", 1), "1 call"},
		{"many", phrase.Of("lift.calls", "count", 2), "2 calls"},
		{"none", phrase.Of("lift.calls", "count", 0), "0 calls"},
		{"decimals", phrase.Of("lift.speed", "speed", phrase.Num(1, 2)), "1.00 m/s"},
		{"negative", phrase.Of("lift.speed", "speed", phrase.Num(-0.25, 1)), "−0.2 m/s"},
		{"nothing has no sign", phrase.Of("lift.speed", "speed", phrase.Num(-0.001, 2)), "0.00 m/s"},
		{"nested", phrase.Of("lift.both", "first", phrase.Of("lift.plain"), "second", phrase.Of("lift.calls", "count", 1)),
			"all is well, and 1 call; all is well"},
		{"nested and empty", phrase.Of("lift.both", "first", phrase.Phrase{}, "second", "x"), ", and x; "},
		{"slots too many", phrase.Of("lift.plain", "floor", "3"), "all is well"},
	} {
		assert.Equal(t, v.want, c.Text(v.p), v.name)
	}
	assert.Empty(t, c.Missing())
}

func TestMissingShows(t *testing.T) {
	c := read(t, english, `lift.at-floor: "at {floor} by {time}"`)
	assert.Equal(t, "⟦lift.nowhere⟧", c.Text(phrase.Of("lift.nowhere")))
	assert.Equal(t, "at 3 by ⟦time⟧", c.Text(phrase.Of("lift.at-floor", "floor", "3")))
	assert.Equal(t, "at ⟦floor⟧ by ⟦lift.never⟧", c.Text(phrase.Of("lift.at-floor", "floor", 3.5, "time", phrase.Of("lift.never"))))
	assert.Equal(t, []string{"lift.at-floor {floor}", "lift.at-floor {time}", "lift.never", "lift.nowhere"}, c.Missing())
}

// Plural forms of Polish: one for 1, few for 2 to 4 and 22 to 24, many for the
// rest (CLDR, Language Plural Rules).
func TestPluralFormsAreTheLanguages(t *testing.T) {
	c := read(t, polish, `lift.calls: {one: "{count} wezwanie", few: "{count} wezwania", many: "{count} wezwań", other: "{count} wezwania"}`)
	for n, want := range map[int]string{1: "1 wezwanie", 2: "2 wezwania", 5: "5 wezwań", 12: "12 wezwań", 22: "22 wezwania"} {
		assert.Equal(t, want, c.Text(phrase.Of("lift.calls", "count", n)))
	}
	assert.Equal(t, "1,50", c.Number(phrase.Num(1.5, 2)))
	assert.Equal(t, "pl", c.Language())
}

func TestNumberThatIsNone(t *testing.T) {
	c := read(t, english)
	assert.Equal(t, "NaN", c.Number(phrase.Num(math.NaN(), 2)))
	assert.Equal(t, "−Inf", c.Number(phrase.Num(math.Inf(-1), 2)))
}

func TestJSON(t *testing.T) {
	c := read(t, english, `
b.two: {one: "{count} call", other: "{count} calls"}
a.one: "say \"{what}\" <b>"
`)
	var got map[string]any
	require.NoError(t, json.Unmarshal(c.JSON(), &got))
	assert.Equal(t, map[string]any{
		"a.one":        `say "{what}" <b>`,
		"b.two":        map[string]any{"one": "{count} call", "other": "{count} calls"},
		"language.tag": "en", "language.decimal": ".", "language.minus": "−",
	}, got)
	assert.NotContains(t, string(c.JSON()), "<", "fit to stand inside a page")
	assert.Equal(t, c.JSON(), read(t, `a.one: "say \"{what}\" <b>"`, english,
		`b.two: {other: "{count} calls", one: "{count} call"}`).JSON(), "the order of files and forms does not show")
	assert.Equal(t, []string{"a.one", "b.two", "language.decimal", "language.minus", "language.tag"}, c.IDs())
}

func TestReadCatalogueFindsEveryMistake(t *testing.T) {
	_, err := phrase.ReadCatalogue([]byte(english), []byte(`ok.fine: x
Bad.id: x
single: x
ok.fine: twice
ok.open: "a {slot"
ok.close: "a } b"
ok.slot: "a {Slot}"
ok.number: 3
ok.empty: ""
ok.form: {one: x, several: y, other: z}
ok.no-other: {one: x}
language.tag: en
`))
	require.Error(t, err)
	for _, want := range []string{"message file 2: line 2", "line 3", "line 4: ok.fine is there twice",
		"line 5: ok.open: brace without its partner", "line 6: ok.close", "line 7: ok.slot: slot {Slot}",
		"line 8: ok.number: want a text", "line 9: ok.empty", "line 10: ok.form", "line 11: ok.no-other: the form other is missing",
		"line 12: language.tag is there twice"} {
		assert.ErrorContains(t, err, want)
	}
}

func TestReadCatalogueNeedsALanguage(t *testing.T) {
	_, err := phrase.ReadCatalogue([]byte(`a.b: c`))
	assert.ErrorContains(t, err, "language.tag")
	_, err = phrase.ReadCatalogue([]byte("language.tag: not a tag\nlanguage.decimal: x\nlanguage.minus: y\n"))
	assert.ErrorContains(t, err, "language.tag")
	_, err = phrase.ReadCatalogue([]byte("- a\n"))
	assert.ErrorContains(t, err, "mapping")
	_, err = phrase.ReadCatalogue([]byte("a: [\n"))
	assert.ErrorContains(t, err, "message file 1")
}
