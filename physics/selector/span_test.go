package selector

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAboutIsMadeForItsWidthBothWaysAndLags(t *testing.T) {
	s := About(10, 0.3, 0.006)
	assert.InDelta(t, 9.853, s.UpMake, 1e-12)
	assert.InDelta(t, 10.153, s.UpBreak, 1e-12)
	assert.InDelta(t, 10.147, s.DownMake, 1e-12)
	assert.InDelta(t, 9.847, s.DownBreak, 1e-12)
	assert.InDelta(t, 0.3, s.UpBreak-s.UpMake, 1e-12)
	assert.InDelta(t, 0.3, s.DownMake-s.DownBreak, 1e-12)
	assert.InDelta(t, 0.006, s.UpMake-s.DownBreak, 1e-12)
	assert.InDelta(t, 0.006, s.UpBreak-s.DownMake, 1e-12)
}

func TestMadeIsTheNarrowerReading(t *testing.T) {
	roller := Span{UpMake: 1.1, UpBreak: 2.1, DownMake: 1.9, DownBreak: 0.9}
	plain := Between(1, 2)
	end := Between(5, math.Inf(1))
	pit := Between(math.Inf(-1), -5)
	for _, c := range []struct {
		name string
		span Span
		y    float64
		made bool
	}{
		{"below all", roller, 0.8, false},
		{"only if it came from above", roller, 1.0, false},
		{"at the upward make", roller, 1.1, true},
		{"inside", roller, 1.5, true},
		{"at the downward make", roller, 1.9, true},
		{"only if it came from below", roller, 2.0, false},
		{"above all", roller, 2.2, false},
		{"plain, at the lower edge: from above it has broken", plain, 1, false},
		{"plain, inside", plain, 1.000001, true},
		{"plain, at the upper edge: from below it has broken", plain, 2, false},
		{"endless upward, before", end, 4.9, false},
		{"endless upward, far beyond", end, 1e9, true},
		{"endless downward, before", pit, -4.9, false},
		{"endless downward, far beyond", pit, -1e9, true},
	} {
		assert.Equal(t, c.made, c.span.Made(c.y), c.name)
	}
}

func TestMovedRemembersInsideTheHysteresis(t *testing.T) {
	s := Span{UpMake: 1.1, UpBreak: 2.1, DownMake: 1.9, DownBreak: 0.9}
	for _, c := range []struct {
		name     string
		made     bool
		from, to float64
		want     bool
	}{
		{"up to just under the make", false, 0, 1.0999, false},
		{"up to the make", false, 0, 1.1, true},
		{"up, turns back inside the hysteresis", true, 1.1, 0.95, true},
		{"down to the break", true, 1.5, 0.9, false},
		{"up to just under the break", true, 1.5, 2.0999, true},
		{"up to the break", true, 1.5, 2.1, false},
		{"down from inside the upper hysteresis", false, 2.1, 1.95, false},
		{"down to the make", false, 3, 1.9, true},
		{"right over upward", false, 0, 3, false},
		{"right over downward", false, 3, 0, false},
		{"nowhere, made", true, 1.5, 1.5, true},
		{"nowhere, not made", false, 2.05, 2.05, false},
		{"leaves the make behind, no second making", false, 1.1, 1.5, false},
	} {
		assert.Equal(t, c.want, s.Moved(c.made, c.from, c.to), c.name)
	}
}
