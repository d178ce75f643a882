package survey

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/building"
)

func line(cures []Cure, path string) *Cure {
	for i := range cures {
		if cures[i].Path == path {
			return &cures[i]
		}
	}
	return nil
}

func TestShippedBuildingsNeedNoCure(t *testing.T) {
	for _, b := range assets.Buildings() {
		p, _ := Read(b.ID, b.Text)
		for _, c := range Cures(&p) {
			assert.True(t, c.Met, "%s: %+v", b.ID, c)
			assert.Zero(t, c.Change())
		}
	}
}

// Whatever a line says is wrong, writing what it wants puts right.
func TestCuresCure(t *testing.T) {
	for _, k := range []struct {
		name, path string
		spoil      func(p *building.Plan)
		cure       func(p *building.Plan, wants float64)
	}{
		{"weak fast winding", "motor.fast_breakdown_nm", func(p *building.Plan) { p.Motor.FastBreakdownNM = 40 },
			func(p *building.Plan, w float64) { p.Motor.FastBreakdownNM = w }},
		{"weak slow winding", "motor.slow_breakdown_nm", func(p *building.Plan) { p.Motor.SlowBreakdownNM = 30 },
			func(p *building.Plan, w float64) { p.Motor.SlowBreakdownNM = w }},
		{"weak brake", "brake.torque_nm", func(p *building.Plan) { p.Brake.TorqueNM = 20 },
			func(p *building.Plan, w float64) { p.Brake.TorqueNM = w }},
		{"small sheave", "machine.sheave_diameter_m", func(p *building.Plan) { p.Machine.SheaveDiameterM = 0.45 },
			func(p *building.Plan, w float64) { p.Machine.SheaveDiameterM = w }},
		{"short advance", "selector.advance_m", func(p *building.Plan) { p.Selector.AdvanceUpM, p.Selector.AdvanceDownM = 0.7, 0.7 },
			func(p *building.Plan, w float64) { p.Selector.AdvanceUpM, p.Selector.AdvanceDownM = w, w }},
		{"short advance going down", "selector.advance_down_m", func(p *building.Plan) { p.Selector.AdvanceDownM = 0.7 },
			func(p *building.Plan, w float64) { p.Selector.AdvanceDownM = w }},
		{"long vanes", "shaft.vane_half_m", func(p *building.Plan) { p.Shaft.VaneHalfM = 0.08 },
			func(p *building.Plan, w float64) { p.Shaft.VaneHalfM = w }},
		{"heavy handwheel", "machine.handwheel_kg_m2", func(p *building.Plan) { p.Machine.HandwheelKGM2 = 2.4 },
			func(p *building.Plan, w float64) { p.Machine.HandwheelKGM2 = w }},
	} {
		p := building.Evenly("test", 6, 3.2)
		k.spoil(&p)
		c := line(Cures(&p), k.path)
		require.NotNil(t, c, k.name)
		require.False(t, c.Met, "%s: %+v", k.name, c)
		assert.NotZero(t, c.Change(), k.name)
		k.cure(&p, c.Wants)
		c = line(Cures(&p), k.path)
		assert.True(t, c.Met, "%s cured: %+v", k.name, c)
	}
}

// The table finds nothing wrong where the survey warns of nothing, and
// something where it warns.
func TestTableAgreesWithWarnings(t *testing.T) {
	for _, wheel := range []float64{0.3, 0.6, 1.2, 1.8, 2.4} {
		p := building.Evenly("test", 6, 3.2)
		p.Machine.HandwheelKGM2 = wheel
		met := true
		for _, c := range Cures(&p) {
			met = met && c.Met
		}
		warned := false
		for _, w := range Survey(&p) {
			warned = warned || w.Warning
		}
		assert.Equal(t, warned, !met, "handwheel %v", wheel)
	}
}
