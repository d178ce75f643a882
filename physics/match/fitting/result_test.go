package fitting

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/match"
	"wheelroom/physics/phrase"
	"wheelroom/physics/trial"
)

// Observations by lot, most of them nonsense, get an answer that holds
// together, in words, and in little time.
func TestAnyObservationIsAnswered(t *testing.T) {
	c := words(t)
	r := rand.New(rand.NewPCG(12, 12))
	verdicts := map[match.Verdict]int{}
	for range trial.Runs(60) {
		p := building.Evenly("any", 3+r.IntN(10), 2.5+r.Float64())
		o := &match.Observation{}
		lit := make([]bool, len(p.Floors))
		at, step := 0.0, 0.2+2*r.Float64()
		for i := range 6 + r.IntN(30) {
			f := r.IntN(len(p.Floors))
			if r.IntN(3) > 0 {
				f = min(i/2, len(p.Floors)-1)
			}
			at += step * r.Float64()
			lit[f] = !lit[f]
			o.Edges = append(o.Edges, match.Edge{Row: i + 2, TimeS: at, Floor: f, On: lit[f]})
		}
		if r.IntN(2) == 0 {
			o.Depart = &match.Mark{Row: 1, TimeS: at * r.Float64() / 8, Floor: 0}
			o.Arrive = &match.Mark{Row: 99, TimeS: at * (1 + r.Float64()/8), Floor: len(p.Floors) - 1}
		}
		if len(o.Check(names(&p))) > 0 {
			continue
		}
		result := Match(&p, o)
		verdicts[result.Verdict]++
		for _, u := range result.Unknowns {
			require.False(t, math.IsNaN(u.Low) || math.IsNaN(u.High) || u.Low > u.High, "%+v", u)
		}
		var out strings.Builder
		require.NoError(t, match.WriteText(&out, result, c.Text))
		require.NoError(t, match.WriteJSON(&out, result, c.Text))
	}
	assert.Empty(t, c.Missing())
	assert.Greater(t, verdicts[match.None], 5)
}

func TestWordsOfEveryResult(t *testing.T) {
	c := words(t)
	for a := range match.DelayS + 1 {
		c.Text(phrase.Of("match.quantity-" + a.String()))
		for b := range match.DelayS + 1 {
			if pair := "match.pair-" + a.String() + "-" + b.String(); c.Has(pair) {
				c.Text(phrase.Of(pair, "rate", phrase.Num(1, 3)))
			}
		}
	}
	p := shipped(t, "kestrel-court")
	w := truth{perFloor: 2.8, firstM: -0.5, live: 2, widths: 1.15, speedMS: 1, startS: 2, to: 9, marks: true, scatterS: 0.03}
	o := w.see(p, rand.New(rand.NewPCG(3, 3)))
	result := matched(t, p, o)
	require.Equal(t, match.One, result.Verdict)
	assert.Contains(t, spoken(c, result), "One ring explains the lamps: 2.8")
	assert.Contains(t, spoken(c, result), "The lamps look the same with 1 terminal joined")

	w.marks = false
	p.Selector.Joins = []building.Join{{Terminal: 8, Floor: building.Blank}, {Terminal: 9, Floor: "2"}, {Terminal: 7, Floor: "3"}}
	o = w.see(p, rand.New(rand.NewPCG(3, 3)))
	result = matched(t, p, o)
	assert.Contains(t, spoken(c, result), "Nobody has measured the speed, so the lamps show terminals a second only")
	assert.Contains(t, spoken(c, result), "Speed and terminals a floor cannot be told apart")
	for i := range o.Edges {
		if o.Edges[i].Floor == 4 {
			o.Edges[i].TimeS += 0.7
		}
	}
	o.Sort()
	assert.Contains(t, spoken(c, matched(t, p, o)), "The lamp of floor 4 does not fit a ring that explains the others")
	assert.Empty(t, c.Missing())
}

// A result comes through JSON whole, with what has no value and no end.
func TestResultsTravel(t *testing.T) {
	p := shipped(t, "kestrel-court")
	r := rand.New(rand.NewPCG(8, 8))
	free := drawn(p, r)
	free.scatterS = 0.03
	blank, endless := 0, 0
	for _, o := range []*match.Observation{odd(t), free.see(p, r)} {
		want := matched(t, p, o)
		text, err := json.Marshal(want)
		require.NoError(t, err)
		var got match.Result
		require.NoError(t, json.Unmarshal(text, &got))
		got.Bind(p, o)
		for i, e := range want.Edges { // NaN is not even itself
			if math.IsNaN(e.ModelS) {
				blank++
				assert.True(t, math.IsNaN(got.Edges[i].ModelS) && math.IsNaN(got.Edges[i].ResidualS))
				want.Edges[i].ModelS, want.Edges[i].ResidualS, got.Edges[i].ModelS, got.Edges[i].ResidualS = 0, 0, 0, 0
			}
		}
		for _, lit := range want.Lamps {
			if len(lit[0]) > 0 && math.IsInf(lit[0][len(lit[0])-1].OffS, 1) {
				endless++
			}
		}
		assert.Equal(t, want, &got)
	}
	assert.Positive(t, blank)
	assert.Positive(t, endless)
	for _, bad := range []string{`{"Lamps": [[[[1]], [["x", 2]]]]}`, `{"Edges": [{"Fitted": 3}]}`, `{"Unknowns": [{"Values": "+"}]}`} {
		assert.Error(t, json.Unmarshal([]byte(bad), new(match.Result)), bad)
	}
}
