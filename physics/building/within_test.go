package building_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
)

// within reads a document with a plan inside.
func within(text string, p *building.Plan, changed bool) []document.Problem {
	problems := document.Read("", []byte(text), func(m *document.Mapping) {
		m.Map("plan", func(m *document.Mapping) { building.Declare(m, p) })
	})
	if len(problems) == 0 {
		problems = building.Within([]byte(text), "plan", p, changed)
	}
	return problems
}

func TestAPlanInsideAnotherDocument(t *testing.T) {
	p := building.Defaults()
	require.Empty(t, within("plan: {name: Two, floors: [{name: a, height_m: 0}, {name: b, height_m: 4}]}", &p, false))
	assert.Equal(t, 120.0, p.Selector.SpanDeg, "30° a metre, as in a file of its own")

	house := building.Evenly("House", 4, 3)
	require.Empty(t, within("plan: {machine: {handwheel_kg_m2: 0.3}}", &house, true))
	assert.Equal(t, 0.3, house.Machine.HandwheelKGM2)
	assert.Equal(t, building.Evenly("House", 4, 3).Selector, house.Selector)

	problems := within("plan: {selector: {advance_m: 3}}", &house, true)
	require.Len(t, problems, 1)
	assert.Equal(t, "plan.selector.advance_m", problems[0].Path)
	assert.Equal(t, "building.advance-over-storey", problems[0].Phrase.ID)
}
