package building_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
)

func wheelFile(machine string) (building.Plan, []string) {
	p, problems := building.Read("x", []byte(bare+"machine: "+machine+"\n"))
	var ids []string
	for _, f := range problems {
		ids = append(ids, f.Phrase.ID)
	}
	return p, ids
}

func TestHandwheelByMassAndDiameters(t *testing.T) {
	// ½·24·(0.25² + 0.3²) + ½·6·0.25² kg·m²: ring and disc (OpenStax, University
	// Physics vol. 1, figure 10.20).
	p, ids := wheelFile("{handwheel: {rim_kg: 24, outer_m: 0.6, inner_m: 0.5, disc_kg: 6}}")
	require.Empty(t, ids)
	assert.InDelta(t, 1.83+0.1875, p.Machine.HandwheelKGM2, 1e-12)
	w, whole := p.Machine.Handwheel.Wheel()
	assert.True(t, whole)
	assert.InDelta(t, 1.83, w.RimKGM2(), 1e-12)
	assert.InDelta(t, 0.1875, w.DiscKGM2(), 1e-12)

	// Written and read again it is the same plan.
	again, problems := building.Read("x", building.Write(p))
	assert.False(t, document.Failed(problems))
	assert.Equal(t, p, again)

	// Without a web it is the rim alone.
	p, ids = wheelFile("{handwheel: {rim_kg: 24, outer_m: 0.6, inner_m: 0.5}}")
	require.Empty(t, ids)
	assert.InDelta(t, 1.83, p.Machine.HandwheelKGM2, 1e-12)
}

func TestHandwheelRefused(t *testing.T) {
	for _, k := range []struct{ machine, id string }{
		{"{handwheel: {rim_kg: 24, outer_m: 0.6}}", "building.handwheel-incomplete"},
		{"{handwheel: {disc_kg: 24}}", "building.handwheel-incomplete"},
		{"{handwheel: {rim_kg: 24, outer_m: 0.5, inner_m: 0.6}}", "building.rim-inside-out"},
		{"{handwheel: {rim_kg: 400, outer_m: 0.9, inner_m: 0.6}}", "building.handwheel-too-heavy"},
		{"{handwheel_kg_m2: 1.2, handwheel: {rim_kg: 24, outer_m: 0.6, inner_m: 0.5}}", "building.handwheel-twice"},
		{"{handwheel_kg_m2: 1.83, handwheel: {rim_kg: 24, outer_m: 0.6, inner_m: 0.5}}", ""},
	} {
		_, ids := wheelFile(k.machine)
		if k.id == "" {
			assert.Empty(t, ids, k.machine)
		} else {
			assert.Equal(t, []string{k.id}, ids, k.machine)
		}
	}
}

func TestAnotherInertiaReplacesMasses(t *testing.T) {
	p, ids := wheelFile("{handwheel: {rim_kg: 24, outer_m: 0.6, inner_m: 0.5}}")
	require.Empty(t, ids)
	text := []byte("plan: {machine: {handwheel_kg_m2: 0.3}}\n")
	problems := document.Read("x", text, func(m *document.Mapping) {
		m.Map("plan", func(m *document.Mapping) { building.Declare(m, &p) })
	})
	require.Empty(t, problems)
	assert.Empty(t, building.Within(text, "plan", &p, true))
	assert.Equal(t, 0.3, p.Machine.HandwheelKGM2)
	_, whole := p.Machine.Handwheel.Wheel()
	assert.False(t, whole)
}
