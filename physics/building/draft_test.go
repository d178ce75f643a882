package building_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/document/marked"
)

func TestDraftOfASoundFileIsItsPlan(t *testing.T) {
	for _, b := range assets.Buildings() {
		p, problems := building.Read(b.ID, b.Text)
		require.Empty(t, problems)
		assert.Equal(t, p, building.Draft(b.Text))
	}
	p := building.Draft([]byte("name: Half\nfloors: [{name: G, height_m: 0}, {name: \"1\", height_m: x}]\nlift: {car_kg: 1, load_kg: 99}"))
	assert.Equal(t, "Half", p.Name)
	assert.Len(t, p.Floors, 2)
	assert.Equal(t, building.Defaults().Lift.CarKG, p.Lift.CarKG, "too light: refused, so at its default")
	assert.Equal(t, 99.0, p.Lift.LoadKG)
	for _, d := range marked.Read(t, "testdata/errors.txt") {
		assert.NotPanics(t, func() { building.Draft(d.Text) }, d.Name)
	}
	assert.Equal(t, building.Defaults(), building.Draft([]byte("[")))
}

// Each value of each shipped file can be changed where it stands and taken
// out again, and nothing else changes by it.
func TestEveryValueCanBeEdited(t *testing.T) {
	fields := building.Fields()
	for _, b := range assets.Buildings() {
		plain, problems := building.Read(b.ID, b.Text)
		require.Empty(t, problems)
		each(fields, "", func(path string, f document.Field) {
			if f.Kind != document.Real && f.Kind != document.Whole && f.Kind != document.Choice {
				return
			}
			value := document.Spell(f, "7")
			edited, ok := document.Set(b.Text, fields, path, value)
			require.True(t, ok, "%s %s", b.ID, path)
			raw, _ := document.Raw(edited, path)
			assert.Equal(t, "7", raw, path)
			if document.Has(b.Text, path) {
				return
			}
			back, ok := document.Unset(edited, path)
			require.True(t, ok, path)
			again, problems := building.Read(b.ID, back)
			require.Empty(t, problems, path)
			assert.Equal(t, plain, again, path)
		})
	}
}

func TestValuesAreThoseOfThePlan(t *testing.T) {
	p := building.Evenly("House", 3, 3)
	p.Control.StartOperateS = 0.3
	f, ok := document.At(building.Values(p), "control.start_operate_ms")
	require.True(t, ok)
	assert.Equal(t, 300.0, f.Default, "in the unit of the file")
}
