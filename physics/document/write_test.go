package document_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/document"
)

func TestWrite(t *testing.T) {
	least := -0.5
	s := sample{version: 3, name: "plain name", sizeMM: 0.1, least: &least, pauseS: 0.0155, count: -3, hot: true,
		colour: "red", inM: 1, outM: 2, depthM: 1e-7, deeper: 5, parts: []part{{"a", 1}, {"no", -0.25},
			{"this label is so long that its part gets lines of its own", 0}}, tags: []string{"1", "b c"}}
	assert.Equal(t, `version: 3
name: plain name
size_mm: 0.1
least_mm: -0.5
pause_ms: 15.5
count: -3
hot: true
colour: red
reach_in_m: 1
reach_out_m: 2
inner:
  depth_m: 0.0000001
  more:
    deeper_m: 5
parts:
  - {label: a, size_m: 1}
  - {label: "no", size_m: -0.25}
  - label: this label is so long that its part gets lines of its own
    size_m: 0
tags: ["1", b c]
`, string(document.Write(s.declare)))
}

// TestRoundTrip: what Write writes, Read reads back, to the last bit.
func TestRoundTrip(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		s := randomSample(r)
		text := document.Write(s.declare)
		var again sample
		require.Empty(t, document.Read("x", text, again.declare), string(text))
		require.Equal(t, s, again, string(text))
		require.Equal(t, string(text), string(document.Write(again.declare)), "one way of writing each value")
	}
}

// letters are what a text may be made of to be hard to quote.
var letters = []rune("aZ09 -_:#'\"\\,{}[]&*!|>%@`?~\n\täÖ漢🙂=.")

func randomText(r *rand.Rand, most int) string {
	out := make([]rune, r.IntN(most)+1)
	for i := range out {
		out[i] = letters[r.IntN(len(letters))]
	}
	return string(out)
}

func randomSample(r *rand.Rand) sample {
	s := sample{version: 1 + r.IntN(3), name: randomText(r, 20), sizeMM: math.Nextafter(0, 1) + 1000*r.Float64(),
		pauseS: 5 * r.Float64(), count: r.IntN(21) - 10, hot: r.IntN(2) == 0, colour: []string{"red", "green"}[r.IntN(2)],
		inM: 5 * r.Float64(), depthM: math.Exp2(-60 * r.Float64()), deeper: float64(r.IntN(6))}
	if s.outM = s.inM; r.IntN(2) == 0 {
		s.outM = 5 * r.Float64()
	}
	if r.IntN(2) == 0 {
		v := 20*r.Float64() - 10
		s.least = &v
	}
	for range 1 + r.IntN(3) {
		s.parts = append(s.parts, part{randomText(r, 80), 10*r.Float64() - 5})
	}
	for range r.IntN(3) {
		s.tags = append(s.tags, randomText(r, 5))
	}
	return s
}

func TestDescribe(t *testing.T) {
	s := plain()
	fields := document.Describe(s.declare)
	byKey := map[string]document.Field{}
	var keys []string
	for _, f := range fields {
		byKey[f.Key] = f
		keys = append(keys, f.Key)
	}
	assert.Equal(t, []string{"version", "name", "size_mm", "least_mm", "pause_ms", "count", "hot", "colour", "reach_m",
		"reach_in_m", "reach_out_m", "inner", "parts", "tags"}, keys)
	assert.True(t, byKey["name"].Required)
	assert.Nil(t, byKey["name"].Default, "a required key has no default")
	assert.Equal(t, 10.0, byKey["size_mm"].Default)
	assert.Nil(t, byKey["least_mm"].Default)
	assert.Equal(t, document.AboveTo(0, 1000, "mm", why), byKey["size_mm"].Limit)
	assert.Equal(t, "label", byKey["parts"].Fields[0].Key)
	assert.True(t, byKey["parts"].Fields[0].Required)
	path, ok := document.Find(fields, "deeper_m")
	assert.True(t, ok)
	assert.Equal(t, "inner.more.deeper_m", path)
	assert.Equal(t, plain(), s, "describing changes nothing")
}

func TestDefaultsAreInTheUnitOfTheFile(t *testing.T) {
	s := plain()
	s.pauseS = 0.035
	for _, f := range document.Describe(s.declare) {
		if f.Key == "pause_ms" {
			assert.Equal(t, 35.0, f.Default)
		}
	}
}

func TestSchema(t *testing.T) {
	s := plain()
	c := words(t)
	text := document.Schema(document.Describe(s.declare), plainTitle, c.Text)
	var got map[string]any
	require.NoError(t, json.Unmarshal(text, &got))
	assert.Equal(t, []any{"name"}, got["required"])
	assert.Equal(t, false, got["additionalProperties"])
	properties := got["properties"].(map[string]any)
	assert.Equal(t, map[string]any{"type": "number", "exclusiveMinimum": 0.0, "maximum": 1000.0, "default": 10.0,
		"description": "In mm. Limited because it is a sample."}, properties["size_mm"])
	assert.Equal(t, map[string]any{"type": "integer", "minimum": -10.0, "maximum": 10.0, "default": 1.0,
		"description": "Limited because it is a sample."}, properties["count"])
	assert.Equal(t, map[string]any{"type": "string", "enum": []any{"red", "green"}, "default": "red",
		"description": "Limited because it is a sample."}, properties["colour"])
	parts := properties["parts"].(map[string]any)
	assert.Equal(t, []any{"label"}, parts["items"].(map[string]any)["required"])
}
