package survey_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/document/marked"
	"wheelroom/physics/drive"
	"wheelroom/physics/phrase"
	"wheelroom/physics/survey"
)

func words(t testing.TB) *phrase.Catalogue {
	t.Helper()
	c, err := phrase.ReadCatalogue(assets.Words("en")...)
	require.NoError(t, err)
	return c
}

func TestWarnings(t *testing.T) {
	c := words(t)
	marked.Check(t, "testdata/warnings.txt", c.Text, func(name string, text []byte) []document.Problem {
		p, problems := survey.Read(name, text)
		for _, found := range problems {
			_, key, _ := strings.Cut(found.Path, ".")
			path, ok := document.Find(building.Fields(), key)
			assert.True(t, ok && path == found.Path, "no key of a building file: %s", found.Path)
		}
		assert.Equal(t, document.Failed(problems), p.Name == "", "a file is never half applied")
		return problems
	})
	assert.Empty(t, c.Missing())
}

func TestShippedBuildingsPassTheirOwnWarnings(t *testing.T) {
	c := words(t)
	for _, b := range assets.Buildings() {
		_, problems := survey.Read(b.ID, b.Text)
		for _, p := range problems {
			assert.Fail(t, p.Format(c.Text))
		}
	}
}

// TestShippedBuildingsLevel within ±25 mm over all loads, which is what
// open-loop two-speed lifts do (common practice, no source).
func TestShippedBuildingsLevel(t *testing.T) {
	for _, b := range assets.Buildings() {
		t.Run(b.ID, func(t *testing.T) {
			p, problems := survey.Read(b.ID, b.Text)
			require.Empty(t, problems)
			train := drive.NewTrain(&p)
			top := len(p.Floors) - 1
			for _, share := range []float64{0, p.Lift.Balance, 1, drive.MostLoad} {
				for _, way := range [][2]int{{0, top}, {top, 0}, {0, 1}, {1, 0}, {top - 1, top}, {top, top - 1}} {
					r := drive.Try(&p, drive.Trip{FromM: p.Floors[way[0]].HeightM, ToM: p.Floors[way[1]].HeightM,
						LoadKG: share * p.Lift.RatedLoadKG})
					level := 1000 * r.Figures(&train).LevelM
					assert.LessOrEqual(t, math.Abs(level), 25.0, "load %.2f, floors %v: %.1f mm", share, way, level)
				}
			}
		})
	}
}

// TestMinimalFilesHaveNoWarnings: the defaults go together for any travel with
// storeys of an ordinary height.
func TestMinimalFilesHaveNoWarnings(t *testing.T) {
	c := words(t)
	for _, floors := range []int{2, 3, 6, 12, 20, 32} {
		p := building.Evenly("x", floors, 3)
		p.Selector.SpanDeg = building.SpanFor(p.TravelM())
		for _, found := range survey.Survey(&p) {
			assert.Fail(t, c.Text(found.Phrase), "%d floors", floors)
		}
	}
}

// TestCuresCure: the figure a warning names makes the warning go away.
func TestCuresCure(t *testing.T) {
	spoil := map[string]func(p *building.Plan){
		"brake":              func(p *building.Plan) { p.Brake.TorqueNM = 25 },
		"slow brake":         func(p *building.Plan) { p.Brake.TorqueNM = 40 },
		"fast winding":       func(p *building.Plan) { p.Motor.FastBreakdownNM = 50 },
		"slow winding":       func(p *building.Plan) { p.Motor.SlowBreakdownNM = 20 },
		"advance":            func(p *building.Plan) { p.Selector.AdvanceUpM, p.Selector.AdvanceDownM = 0.5, 0.5 },
		"advance up":         func(p *building.Plan) { p.Selector.AdvanceUpM = 0.5 },
		"vanes for another":  func(p *building.Plan) { p.Shaft.VaneHalfM = 0.09 },
		"handwheel, storeys": func(p *building.Plan) { p.Machine.HandwheelKGM2 = 5 },
	}
	for name, spoil := range spoil {
		t.Run(name, func(t *testing.T) {
			p := building.Evenly("x", 3, 2.5)
			p.Selector.SpanDeg = building.SpanFor(p.TravelM())
			spoil(&p)
			require.NotEmpty(t, survey.Survey(&p), "it must be spoilt first")
			// One cure may bring out the next trouble, not more than a few.
			for range 5 {
				for _, found := range survey.Survey(&p) {
					cure(t, &p, found)
				}
			}
			assert.Empty(t, survey.Survey(&p))
		})
	}
}

func cure(t *testing.T, p *building.Plan, found document.Problem) {
	t.Helper()
	value := math.NaN()
	for _, s := range found.Phrase.Slots {
		if n, ok := s.Value.(phrase.Number); ok && s.Name == "cure" {
			value = n.Value
		}
	}
	require.False(t, math.IsNaN(value), "%s names no cure", found.Phrase)
	switch found.Path {
	case "brake.torque_nm":
		p.Brake.TorqueNM = value
	case "motor.fast_breakdown_nm":
		p.Motor.FastBreakdownNM = value
	case "motor.slow_breakdown_nm":
		p.Motor.SlowBreakdownNM = value
	case "selector.advance_m":
		p.Selector.AdvanceUpM, p.Selector.AdvanceDownM = value, value
	case "selector.advance_up_m":
		p.Selector.AdvanceUpM = value
	case "selector.advance_down_m":
		p.Selector.AdvanceDownM = value
	case "shaft.vane_half_m":
		p.Shaft.VaneHalfM = value
	case "shaft.stop_limit_m":
		p.Shaft.StopLimitM = value
	case "machine.handwheel_kg_m2":
		p.Machine.HandwheelKGM2 = value
	default:
		require.Fail(t, "no such cure", found.Path)
	}
}
