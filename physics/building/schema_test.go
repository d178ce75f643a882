package building_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
)

// allows judges a value by the words of JSON Schema (draft 2020-12) that the
// schema of building files uses; any other word in it fails the test.
func allows(t *testing.T, schema map[string]any, value any) bool {
	t.Helper()
	number := func(key string) (float64, bool) { v, ok := schema[key].(float64); return v, ok }
	for word, says := range schema {
		switch word {
		case "$schema", "title", "description", "default":
		case "type":
			ok := false
			switch v := value.(type) {
			case float64:
				ok = says == "number" || says == "integer" && v == float64(int(v))
			case string:
				ok = says == "string"
			case bool:
				ok = says == "boolean"
			case []any:
				ok = says == "array"
			case map[string]any:
				ok = says == "object"
			}
			if !ok {
				return false
			}
		case "minimum", "maximum", "exclusiveMinimum":
			v, is := value.(float64)
			bound, _ := number(word)
			if is && (word == "minimum" && v < bound || word == "maximum" && v > bound || word == "exclusiveMinimum" && v <= bound) {
				return false
			}
		case "minLength", "maxLength":
			v, is := value.(string)
			bound, _ := number(word)
			if n := float64(utf8.RuneCountInString(v)); is && (word == "minLength" && n < bound || word == "maxLength" && n > bound) {
				return false
			}
		case "enum":
			if !slices.Contains(says.([]any), value) {
				return false
			}
		case "minItems", "maxItems":
			v, is := value.([]any)
			bound, _ := number(word)
			if n := float64(len(v)); is && (word == "minItems" && n < bound || word == "maxItems" && n > bound) {
				return false
			}
		case "items":
			list, _ := value.([]any)
			for _, v := range list {
				if !allows(t, says.(map[string]any), v) {
					return false
				}
			}
		case "required":
			m, _ := value.(map[string]any)
			for _, key := range says.([]any) {
				if _, ok := m[key.(string)]; !ok {
					return false
				}
			}
		case "properties", "additionalProperties":
			m, _ := value.(map[string]any)
			known := schema["properties"].(map[string]any)
			for key, v := range m {
				inner, ok := known[key].(map[string]any)
				if !ok || !allows(t, inner, v) {
					return false
				}
			}
		default:
			require.Fail(t, "a word the test does not know", word)
		}
	}
	return true
}

// TestSchemaIsTheReader: of random files, right and wrong ones, the schema
// refuses exactly those in which the reader finds something wrong with a key
// or a single value. What only several values together make wrong has no
// place in a schema.
func TestSchemaIsTheReader(t *testing.T) {
	var schema map[string]any
	require.NoError(t, json.Unmarshal(building.Schema(words(t).Text), &schema))
	r := rand.New(rand.NewPCG(8, 21))
	refused, passed := 0, 0
	judge := func(file map[string]any) {
		text, err := json.Marshal(file) // JSON is YAML
		require.NoError(t, err)
		single := false
		_, problems := building.Read("x", text)
		for _, p := range problems {
			single = single || strings.HasPrefix(p.Phrase.ID, "document.")
		}
		if allows(t, schema, file) {
			passed++
			assert.False(t, single, "the reader alone refuses %s: %v", text, problems)
			return
		}
		refused++
		assert.True(t, single, "the schema alone refuses %s", text)
	}
	each(building.Fields(), "", func(path string, f document.Field) {
		if strings.Contains(path, "[") || f.Kind == document.Map || f.Kind == document.List {
			return
		}
		for range 6 {
			judge(put(fresh(), path, random(r, f)))
		}
		keys := strings.Split(path, ".")
		keys[len(keys)-1] += "x"
		judge(put(fresh(), strings.Join(keys, "."), 1.0))
	})
	for _, key := range []string{"name", "floors"} {
		file := fresh()
		delete(file, key)
		judge(file)
	}
	for n := range 40 {
		file, floors := fresh(), []any{}
		for i := range n {
			floors = append(floors, map[string]any{"name": fmt.Sprint(i), "height_m": 3.0 * float64(i)})
		}
		file["floors"] = floors
		judge(file)
	}
	for _, floor := range []map[string]any{{"name": "A"}, {"height_m": 3.0}, {"name": "", "height_m": 3.0}, {"name": "Attic", "height_m": 3.0}, {"name": "A", "height_m": 300.0}, {"name": 1.0, "height_m": 3.0}} {
		file := fresh()
		file["floors"] = []any{map[string]any{"name": "G", "height_m": 0.0}, floor}
		judge(file)
	}
	assert.Greater(t, refused, 150)
	assert.Greater(t, passed, 100)
}

// TestShippedBuildingsFollowTheSchema by what reading and writing them gives.
func TestShippedBuildingsFollowTheSchema(t *testing.T) {
	var schema map[string]any
	require.NoError(t, json.Unmarshal(building.Schema(words(t).Text), &schema))
	for _, b := range assets.Buildings() {
		for _, key := range document.Keys(b.Text) {
			assert.Contains(t, schema["properties"], key)
		}
	}
}

func fresh() map[string]any {
	return map[string]any{"name": "N", "floors": []any{map[string]any{"name": "G", "height_m": 0.0}, map[string]any{"name": "1", "height_m": 9.0}}}
}

// put puts a value at a path of keys.
func put(file map[string]any, path string, value any) map[string]any {
	keys := strings.Split(path, ".")
	m := file
	for _, key := range keys[:len(keys)-1] {
		if _, ok := m[key].(map[string]any); !ok {
			m[key] = map[string]any{}
		}
		m = m[key].(map[string]any)
	}
	m[keys[len(keys)-1]] = value
	return file
}

// random is a value for a field, or one of another kind or out of its limits.
func random(r *rand.Rand, f document.Field) any {
	low, high := f.Limit.Min, f.Limit.Max
	switch r.IntN(8) {
	case 0:
		return "text"
	case 1:
		return true
	case 2:
		return low
	case 3:
		return high
	case 4:
		return low - 1
	case 5:
		return high + 1
	}
	switch f.Kind {
	case document.Whole:
		return low + float64(r.IntN(int(high-low)+1))
	case document.Choice:
		return f.Choices[r.IntN(len(f.Choices))]
	case document.Text:
		return strings.Repeat("n", 1+r.IntN(int(high)))
	}
	return low + r.Float64()*(high-low)
}
