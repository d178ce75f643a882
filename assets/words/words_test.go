package words_test

import (
	"encoding/json"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"

	"wheelroom/assets/words"
	"wheelroom/physics/phrase"
)

// A text is a message by plural form; one without forms has "other" alone.
type text map[string]string

// read returns the messages of a language.
func read(t *testing.T, tag string) map[string]text {
	t.Helper()
	c, err := phrase.ReadCatalogue(words.Of(tag)...)
	require.NoError(t, err, tag)
	assert.Equal(t, tag, c.Language())
	var raw map[string]json.RawMessage
	require.NoError(t, json.Unmarshal(c.JSON(), &raw))
	all := map[string]text{}
	for id, message := range raw {
		forms := text{}
		if json.Unmarshal(message, &forms) != nil {
			var plain string
			require.NoError(t, json.Unmarshal(message, &plain))
			forms = text{"other": plain}
		}
		all[id] = forms
	}
	return all
}

// others are the languages beside English.
func others(t *testing.T) []string {
	all := words.Languages()
	require.Contains(t, all, "en")
	return slices.DeleteFunc(all, func(tag string) bool { return tag == "en" })
}

// Every language has the messages that English has.
func TestEveryLanguageSaysTheSame(t *testing.T) {
	english := slices.Sorted(maps.Keys(read(t, "en")))
	for _, tag := range others(t) {
		own := slices.Sorted(maps.Keys(read(t, tag)))
		assert.Empty(t, without(english, own), "%s lacks these messages", tag)
		assert.Empty(t, without(own, english), "%s has messages that English has not", tag)
	}
	assert.Empty(t, words.Of("xx"))
}

// without returns what is in a and not in b.
func without(a, b []string) []string {
	return slices.DeleteFunc(slices.Clone(a), func(id string) bool { return slices.Contains(b, id) })
}

var slot = regexp.MustCompile(`\{[a-z0-9-]+\}`)

// slots lists what a message fills in, in all its forms together.
func slots(m text) []string {
	var all []string
	for _, s := range m {
		all = append(all, slot.FindAllString(s, -1)...)
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// No language leaves a slot out, and none has one that nobody fills.
func TestEveryLanguageHasTheSlots(t *testing.T) {
	english := read(t, "en")
	for _, tag := range others(t) {
		for id, m := range read(t, tag) {
			assert.Equal(t, slots(english[id]), slots(m), "%s, %s", tag, id)
		}
	}
}

// demanded are the plural forms that a language has for whole numbers, by the
// plural rules of CLDR.
func demanded(tag string) []string {
	names := map[plural.Form]string{plural.Zero: "zero", plural.One: "one", plural.Two: "two",
		plural.Few: "few", plural.Many: "many", plural.Other: "other"}
	found := map[string]bool{"other": true}
	for n := range 200 {
		found[names[plural.Cardinal.MatchPlural(language.MustParse(tag), n, 0, 0, 0, 0)]] = true
	}
	return slices.Sorted(maps.Keys(found))
}

// A message with plural forms has those that its language has, in every
// language or in none.
func TestEveryLanguageHasItsPluralForms(t *testing.T) {
	assert.Equal(t, []string{"one", "other"}, demanded("de"))
	assert.Equal(t, []string{"few", "many", "one", "other"}, demanded("pl"))
	english := read(t, "en")
	for _, tag := range words.Languages() {
		for id, m := range read(t, tag) {
			if len(english[id]) == 1 {
				assert.Len(t, m, 1, "%s, %s", tag, id)
				continue
			}
			assert.Equal(t, demanded(tag), slices.Sorted(maps.Keys(m)), "%s, %s", tag, id)
		}
	}
}

// alike are the words that a language shares with English, and units.
var alike = map[string]string{
	"de": "Code HTML Link Motor Name Pause Ring Start Text Voltmeter Wheelroom in kJ kg mA mm ms",
}

// A text that is the same as in English was forgotten, unless every word of it
// is the same in both languages.
func TestNothingIsLeftInEnglish(t *testing.T) {
	word := regexp.MustCompile(`\p{L}{2,}`)
	english := read(t, "en")
	for _, tag := range others(t) {
		shared := strings.Fields(alike[tag])
		used := map[string]bool{}
		for id, m := range read(t, tag) {
			for form, s := range m {
				if s != english[id][form] {
					continue
				}
				for _, w := range word.FindAllString(slot.ReplaceAllString(s, ""), -1) {
					used[w] = true
					assert.Contains(t, shared, w, "%s, %s: %q", tag, id, s)
				}
			}
		}
		for _, w := range shared {
			assert.True(t, used[w], "%s: no text needs %q", tag, w)
		}
	}
}
