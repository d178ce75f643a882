package building_test

import (
	"fmt"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/document/marked"
)

const bare = "name: Bare\nfloors: [{name: \"1\", height_m: 0}, {name: \"2\", height_m: 10}]\n"

func TestEveryOtherKeyHasADefault(t *testing.T) {
	p, problems := building.Read("x", []byte(bare))
	require.Empty(t, problems)
	want := building.Defaults()
	want.Name, want.Floors = "Bare", []building.Floor{{"1", 0}, {"2", 10}}
	assert.Equal(t, want, p, "1 m/s is what the default machine gives, 270° what 10 m of travel gives")
}

func TestDefaultsThatFollowOthers(t *testing.T) {
	p, problems := building.Read("x", []byte(strings.Replace(bare, "10", "4", 1)))
	require.Empty(t, problems)
	assert.Equal(t, 120.0, p.Selector.SpanDeg, "30° a metre")

	// 2·60/4 turns a second through 1:50 on π·0.6 m, halved by two falls, less 5 %.
	p, problems = building.Read("x", []byte(bare+"machine: {supply_hz: 60, gear_ratio: 50, sheave_diameter_m: 0.6, roping: 2}\n"))
	require.Empty(t, problems)
	assert.Equal(t, 0.54, p.Machine.RatedSpeedMS)
}

// A machine of 1500 rpm and 40:1 with a sheave of 0.6 m moves its ropes at
// 1.178 m/s (reflected inertia row of a drive calculation: 1500 rpm ↔ 1.178
// m/s at 0.3 m radius and 40:1; recomputed).
func TestSynchronousSpeed(t *testing.T) {
	p := building.Defaults()
	p.Machine.SheaveDiameterM, p.Machine.GearRatio = 0.6, 40
	assert.InDelta(t, 1.178, building.SynchronousMS(&p), 5e-4)
}

func TestWriteReadsBack(t *testing.T) {
	for _, b := range assets.Buildings() {
		p, problems := building.Read(b.ID, b.Text)
		require.Empty(t, problems)
		again, problems := building.Read(b.ID, building.Write(p))
		require.Empty(t, problems)
		assert.Equal(t, p, again)
		assert.Equal(t, building.Write(p), building.Write(again))
	}
}

// TestRandomPlansReadBack: files with random values inside every limit, in
// random digits, come back from Write as they were read.
func TestRandomPlansReadBack(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	whole := 0
	for range 150 {
		text := randomFile(r)
		p, problems := building.Read("x", text)
		if document.Failed(problems) {
			continue // its values do not go together
		}
		whole++
		again, problems := building.Read("x", building.Write(p))
		require.False(t, document.Failed(problems), string(text))
		require.Equal(t, p, again, string(text))
	}
	assert.Greater(t, whole, 50, "random files must mostly be possible ones")
}

// tied are values that go together with others; a random file leaves them out.
var tied = []string{"version", "rated_speed_m_s", "fast_poles", "slow_poles", "vane_half_m", "advance_m", "advance_down_m"}

func randomFile(r *rand.Rand) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, "name: \"n%d\"\nfloors:\n", r.IntN(100))
	height := 0.0
	for i := range 2 + r.IntN(31) {
		fmt.Fprintf(&b, "  - {name: \"%d\", height_m: %s}\n", i, strconv.FormatFloat(height, 'f', r.IntN(6), 64))
		height += 3 + r.Float64()/2
	}
	for _, section := range building.Fields() {
		if section.Kind != document.Map {
			continue
		}
		fmt.Fprintf(&b, "%s:\n  # random\n", section.Key)
		empty := true
		for _, f := range section.Fields {
			if contains(tied, f.Key) || r.IntN(2) == 0 {
				continue
			}
			empty = false
			low, high := f.Limit.Min, f.Limit.Max
			switch {
			case f.Key == "advance_up_m":
				low, high = 1, 2.5
			case f.Key == "zone_half_m":
				high = 0.3
			}
			switch f.Kind {
			case document.Real:
				v := low + r.Float64()*(high-low)
				fmt.Fprintf(&b, "  %s: %s\n", f.Key, strconv.FormatFloat(min(v, high), 'g', 3+r.IntN(15), 64))
			case document.Whole:
				fmt.Fprintf(&b, "  %s: %d\n", f.Key, int(low)+r.IntN(int(high-low)+1))
			case document.Choice:
				fmt.Fprintf(&b, "  %s: %s\n", f.Key, f.Choices[r.IntN(len(f.Choices))])
			}
		}
		if empty {
			fmt.Fprintf(&b, "  {}\n")
		}
	}
	return []byte(b.String())
}

func contains(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

func TestCheckSaysWhatReadSays(t *testing.T) {
	p, problems := building.Read("x", []byte(bare))
	require.Empty(t, problems)
	assert.Empty(t, building.Check(p))
	p.Selector.AdvanceDownM = 9.96
	got := building.Check(p)
	require.NotEmpty(t, got)
	assert.Equal(t, "selector.advance_down_m", got[0].Path)
}

// FuzzRead: any text is either refused with a place, or gives a plan that can
// be written and read again.
func FuzzRead(f *testing.F) {
	for _, b := range assets.Buildings() {
		f.Add(b.Text)
	}
	for _, d := range marked.Read(f, "testdata/errors.txt") {
		f.Add(d.Text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		p, problems := building.Read("x", text)
		for i, found := range problems {
			require.Positive(t, found.Line)
			require.Positive(t, found.Col)
			require.NotEmpty(t, found.Phrase.ID)
			if i > 0 {
				require.GreaterOrEqual(t, found.Line, problems[i-1].Line)
			}
		}
		if document.Failed(problems) {
			require.Zero(t, p)
			return
		}
		again, problems := building.Read("x", building.Write(p))
		require.False(t, document.Failed(problems))
		require.Equal(t, p, again)
	})
}
