package study

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/phrase"
)

func ids(all []phrase.Phrase) (out []string) {
	for _, p := range all {
		out = append(out, p.ID)
	}
	return out
}

func slot(t *testing.T, p phrase.Phrase, name string) float64 {
	t.Helper()
	for _, s := range p.Slots {
		if s.Name == name {
			return s.Value.(phrase.Number).Value
		}
	}
	require.FailNow(t, "no slot", "%s in %v", name, p)
	return 0
}

func TestCompare(t *testing.T) {
	p := house()
	c, err := Compare(&p, Trip{From: 1, To: 3, LoadKG: 150}, Choice{HandwheelKGM2: 1.2, Fit: true}, Choice{HandwheelKGM2: 0.3, Fit: true})
	require.NoError(t, err)
	assert.Equal(t, 0.3, c.A.HandwheelKGM2, "the lighter wheel is A, however they are named")
	assert.Less(t, c.B.Figures.ChangeJerkMS3, c.A.Figures.ChangeJerkMS3)
	assert.Greater(t, c.B.Figures.SlowDownM, c.A.Figures.SlowDownM)
	require.Equal(t, []string{"drive.softer", "drive.longer", "drive.slower"}, ids(c.Say()))
	// The sentence speaks of this run and no other.
	assert.Equal(t, c.A.Figures.ChangeJerkMS3, slot(t, c.Say()[0], "from"))
	assert.Equal(t, c.B.Figures.ChangeJerkMS3, slot(t, c.Say()[0], "to"))
	assert.InDelta(t, 100-100*c.B.Figures.ChangeJerkMS3/c.A.Figures.ChangeJerkMS3, slot(t, c.Say()[0], "percent"), 1e-9)
	assert.Equal(t, c.B.Figures.SlowDownM, slot(t, c.Say()[1], "heavy"))
	// Advance ≈ 0.50 + 0.50 J m, vanes ≈ 27.5 + 16.5 J mm: a prototype of this model.
	assert.InDelta(t, 0.65, c.A.AdvanceM, 0.04)
	assert.InDelta(t, 1.10, c.B.AdvanceM, 0.04)
	assert.InDelta(t, 0.0325, c.A.VaneM, 0.002)

	// As the file says: the light wheel stops short of vanes made for the other,
	// and creeps so long towards them that the heavy wheel is there first.
	c, err = Compare(&p, Trip{From: 1, To: 3, LoadKG: 150}, Choice{HandwheelKGM2: 0.3}, Choice{HandwheelKGM2: 1.2})
	require.NoError(t, err)
	assert.Equal(t, []string{"drive.softer", "drive.longer", "drive.quicker", "drive.vane-misfits"}, ids(c.Say()))
	assert.InDelta(t, -0.012, c.A.Figures.LevelM, 0.003)

	// A wheel far too heavy for the file's advance meets the vane too fast.
	c, err = Compare(&p, Trip{From: 1, To: 3, LoadKG: 150}, Choice{HandwheelKGM2: 1.2}, Choice{HandwheelKGM2: 1.9})
	require.NoError(t, err)
	assert.True(t, c.B.Short)
	assert.Contains(t, ids(c.Say()), "drive.advance-short")

	// One far heavier overruns its landing and never counts as arrived there.
	c, err = Compare(&p, Trip{From: 1, To: 3, LoadKG: 150}, Choice{HandwheelKGM2: 1.2}, Choice{HandwheelKGM2: 3.5})
	require.NoError(t, err)
	assert.True(t, math.IsNaN(c.B.Figures.TripS))
	assert.Contains(t, ids(c.Say()), "drive.not-arrived")

	// The same wheel twice.
	c, err = Compare(&p, Trip{From: 3, To: 1, LoadKG: 150}, Choice{HandwheelKGM2: 1.2}, Choice{HandwheelKGM2: 1.2})
	require.NoError(t, err)
	assert.Equal(t, []string{"drive.same-wheels"}, ids(c.Say()))
	assert.Equal(t, c.A.Figures, c.B.Figures)
	assert.Equal(t, c.A.Run.CarM, c.B.Run.CarM)
}

func TestFitKeepsWithinTheStoreys(t *testing.T) {
	p := building.Evenly("low", 5, 2.3)
	q, f := With(&p, Choice{HandwheelKGM2: 6, Fit: true})
	assert.True(t, f.Cramped)
	assert.Equal(t, f.RoomM, q.Selector.AdvanceUpM)
	assert.Less(t, q.Selector.AdvanceUpM, 2.25)
	assert.Equal(t, 1.2, p.Machine.HandwheelKGM2, "the plan asked with is left as it was")
	q, f = With(&p, Choice{HandwheelKGM2: 0.6, Fit: true})
	assert.False(t, f.Short || f.Cramped)
	assert.GreaterOrEqual(t, q.Selector.AdvanceUpM, f.NeedM)
}

func TestWeigh(t *testing.T) {
	p := building.Evenly("low", 5, 2.3)
	all := Weigh(&p, Handwheels, Trip{From: 0, To: 4, LoadKG: 150})
	require.Len(t, all, len(Handwheels))
	for i, w := range all {
		assert.False(t, math.IsNaN(w.TripS), "wheel %v", w.HandwheelKGM2)
		if i > 0 {
			assert.Less(t, w.ChangeJerkMS3, all[i-1].ChangeJerkMS3)
			assert.Greater(t, w.NeedM, all[i-1].NeedM)
		}
	}
	p.Motor.SlowBreakdownNM = 20
	assert.Empty(t, Weigh(&p, Handwheels, Trip{From: 0, To: 4}))
}

func TestReport(t *testing.T) {
	p := house()
	p.Machine.HandwheelKGM2 = 3.5 // never arrives: figures without a value
	r, err := Look(&p, Trip{From: 1, To: 3, LoadKG: 150}, 0)
	require.NoError(t, err)

	var out bytes.Buffer
	require.NoError(t, WriteCSV(&out, r))
	rows, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, []string{"set", "load_kg", "direction", "handwheel_kg_m2", "figure", "value", "unit"}, rows[0])
	count := map[string]int{}
	for _, row := range rows[1:] {
		count[row[0]]++
		if row[0] == "trip" && row[4] == "trip-time" {
			assert.Empty(t, row[5], "not reached")
		}
		assert.NotContains(t, row[5], "NaN")
	}
	n := len(Table(r.Figures, HeatW))
	assert.Equal(t, n, count["trip"])
	assert.Equal(t, 2*n*len(Shares), count["sweep"])
	assert.Equal(t, (n+2)*len(Handwheels), count["handwheel"])

	out.Reset()
	require.NoError(t, WriteJSON(&out, r))
	var back struct {
		LoadKG  float64 `json:"load_kg"`
		Figures map[string]*float64
		Sweep   struct {
			Loads []struct{ Up map[string]*float64 }
		}
		Changes []struct {
			Path string
			Met  bool
		}
	}
	require.NoError(t, json.Unmarshal(out.Bytes(), &back))
	assert.Equal(t, 150.0, back.LoadKG)
	assert.Nil(t, back.Figures["trip-time"])
	assert.InDelta(t, r.Figures.PeakSpeedMS, *back.Figures["peak-speed"], 1e-6)
	assert.Len(t, back.Sweep.Loads, len(Shares))
	unmet := 0
	for _, c := range back.Changes {
		if !c.Met {
			unmet++
		}
	}
	assert.Positive(t, unmet)

	out.Reset()
	require.NoError(t, WriteText(&out, r, phrase.Phrase.String))
	assert.True(t, strings.HasPrefix(out.String(), "drive.caution\n"), "the caution stands first")
	assert.Contains(t, out.String(), "drive.not-reached")
}

func TestMakeShowsDiscAndRim(t *testing.T) {
	p := house()
	for _, e := range Make(&p) {
		assert.NotContains(t, e.Key, "rim")
	}
	rim, outer, inner, disc := 24.0, 0.6, 0.5, 6.0
	p.Machine.Handwheel = building.Handwheel{RimKG: &rim, OuterM: &outer, InnerM: &inner, DiscKG: &disc}
	p.Machine.HandwheelKGM2 = 2.0175
	got := map[string]float64{}
	for _, e := range Make(&p) {
		got[e.Key] = e.Value
	}
	assert.InDelta(t, 1.83, got["handwheel-rim"], 1e-12)
	assert.InDelta(t, 0.1875, got["handwheel-disc"], 1e-12)
	assert.InDelta(t, got["handwheel"], got["handwheel-rim"]+got["handwheel-disc"], 1e-12)
}

func TestSeries(t *testing.T) {
	p := house()
	c, err := Compare(&p, Trip{From: 1, To: 3, LoadKG: 150}, Choice{HandwheelKGM2: 1.2, Fit: true}, Choice{HandwheelKGM2: 0.3, Fit: true})
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, c.WriteCSV(&out))
	rows, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	assert.Len(t, rows, 1+max(len(c.A.Run.CarM), len(c.B.Run.CarM)))
	assert.Equal(t, "time_s", rows[0][0])
	assert.Equal(t, "light_position_m", rows[0][1])
	assert.Equal(t, "heavy_position_m", rows[0][1+len(columns)])
	assert.Equal(t, "3.2", rows[1][1])
	assert.Empty(t, rows[len(rows)-1][1], "the light wheel has been at rest for long")
	assert.Equal(t, "fast", rows[300][7])

	out.Reset()
	require.NoError(t, c.B.Run.WriteCSV(&out))
	assert.Equal(t, 1+len(c.B.Run.CarM), strings.Count(out.String(), "\r\n"))
}
