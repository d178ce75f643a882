package shaft

import (
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/selector"
)

func unequal() *building.Plan {
	p := building.Defaults()
	for i, y := range []float64{0, 4.2, 7.4, 10.6, 13.8, 16.8} {
		p.Floors = append(p.Floors, building.Floor{Name: strconv.Itoa(i), HeightM: y})
	}
	return &p
}

func TestSwitchesStandWhereThePlanSays(t *testing.T) {
	p := unequal()
	p.Selector.AdvanceUpM, p.Selector.AdvanceDownM = 1.1, 1.3
	s := New(p)
	inf := math.Inf(1)
	for _, c := range []struct {
		name   string
		span   selector.Span
		lo, hi float64
	}{
		{"vane of the lowest", s.Vane(0), -0.047, 0.047},
		{"vane of 7.4", s.Vane(2), 7.353, 7.447},
		{"vane of the highest", s.Vane(5), 16.753, 16.847},
		{"slow-down, top", s.SlowDownTop(), 15.725, inf}, // 16.8 - 1.1 + 0.025
		{"slow-down, bottom", s.SlowDownBottom(), -inf, 1.275},
		{"stop limit, top", s.StopLimitTop(), 16.9, inf},
		{"stop limit, bottom", s.StopLimitBottom(), -inf, -0.1},
		{"final limit, top", s.FinalLimitTop(), 17.05, inf},
		{"final limit, bottom", s.FinalLimitBottom(), -inf, -0.25},
	} {
		at := func(want, got float64) {
			if math.IsInf(want, 0) {
				assert.Equal(t, want, got, c.name)
				return
			}
			assert.InDelta(t, want, got, 1e-9, c.name)
		}
		at(c.lo, c.span.UpMake)
		at(c.lo, c.span.DownBreak)
		at(c.hi, c.span.UpBreak)
		at(c.hi, c.span.DownMake)
	}
}

// On a normal trip the advance contact of a terminal landing makes first, the
// slow-down follows while that contact is still made, then the vane; stop and
// final limit are never reached with the car level.
func TestOrderOnTheWayToATerminalLanding(t *testing.T) {
	for _, p := range []*building.Plan{unequal(), even(3), even(10), even(32)} {
		s, w := New(p), selector.NewWheel(p)
		top := len(p.Floors) - 1
		y := p.TravelM()

		up := w.AdvanceUp(top)
		assert.IsIncreasing(t, []float64{up.UpMake, s.SlowDownTop().UpMake, up.UpBreak,
			s.Vane(top).UpMake, y, s.Vane(top).UpBreak, s.StopLimitTop().UpMake, s.FinalLimitTop().UpMake})

		down := w.AdvanceDown(0)
		assert.IsDecreasing(t, []float64{down.DownMake, s.SlowDownBottom().DownMake, down.DownBreak,
			s.Vane(0).DownMake, 0, s.Vane(0).DownBreak, s.StopLimitBottom().DownMake, s.FinalLimitBottom().DownMake})

		for f, floor := range p.Floors {
			assert.True(t, s.Vane(f).Made(floor.HeightM))
			assert.Equal(t, f == top, s.SlowDownTop().Made(floor.HeightM), "upper slow-down at landing %d", f)
			assert.Equal(t, f == 0, s.SlowDownBottom().Made(floor.HeightM), "lower slow-down at landing %d", f)
			for _, limit := range []selector.Span{s.StopLimitTop(), s.StopLimitBottom(), s.FinalLimitTop(), s.FinalLimitBottom()} {
				assert.False(t, limit.Made(floor.HeightM))
			}
		}
		assert.Empty(t, s.Problems())
	}
}

func even(n int) *building.Plan {
	p := building.Evenly("even", n, 3)
	return &p
}

func TestLimitsStayOperatedBeyond(t *testing.T) {
	s := New(unequal())
	assert.True(t, s.FinalLimitTop().Made(100))
	assert.True(t, s.FinalLimitBottom().Made(-100))
	assert.True(t, s.StopLimitTop().Moved(false, 16.8, 17.5))
	assert.False(t, s.StopLimitTop().Moved(true, 17.5, 16.8))
	assert.True(t, s.StopLimitBottom().Moved(false, 0, -0.5))
	assert.False(t, s.StopLimitBottom().Moved(true, -0.5, 0))
}

func TestProblemsAndTheirWords(t *testing.T) {
	file, err := os.ReadFile("../../assets/words/en/selector.yaml")
	require.NoError(t, err)
	for _, c := range []struct {
		name  string
		shaft building.Shaft
		want  string
		key   string
		grave bool
	}{
		{"struck while level", building.Shaft{VaneHalfM: 0.047, StopLimitM: 0.047, FinalLimitM: 0.25},
			"shaft.stop-limit-early[limit=0.047 cure=0.048]", "shaft.stop_limit_m", false},
		{"final before stop", building.Shaft{VaneHalfM: 0.047, StopLimitM: 0.25, FinalLimitM: 0.25},
			"shaft.final-limit-early[final=0.250 stop=0.250]", "shaft.final_limit_m", true},
	} {
		p := unequal()
		p.Shaft = c.shaft
		problems := New(p).Problems()
		require.Len(t, problems, 1, c.name)
		assert.Equal(t, c.want, problems[0].Say.String(), c.name)
		assert.Equal(t, c.key, problems[0].Key, c.name)
		assert.Equal(t, c.grave, problems[0].Grave, c.name)
		assert.Contains(t, string(file), "\n"+problems[0].Say.ID+": ", c.name)
		for _, slot := range problems[0].Say.Slots {
			line := string(file)[strings.Index(string(file), "\n"+problems[0].Say.ID+": ")+1:]
			line, _, _ = strings.Cut(line, "\n")
			assert.Contains(t, line, "{"+slot.Name+"}", c.name)
		}
	}
}

func TestNoShaftWithoutTwoLandings(t *testing.T) {
	p := building.Defaults()
	assert.Panics(t, func() { New(&p) })
}
