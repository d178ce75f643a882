package selector

import (
	"os"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/phrase"
)

func said(problems []Problem) []string {
	out := []string{}
	for _, p := range problems {
		s := p.Say.String()
		if p.Grave {
			s = "grave " + s
		}
		out = append(out, s)
	}
	return out
}

func ringProblems(p *building.Plan) []Problem {
	_, problems := NewRing(p)
	return problems
}

func TestRingProblems(t *testing.T) {
	metres := func(v float64) *float64 { return &v }
	for _, c := range []struct {
		name   string
		change func(*building.Selector)
		want   []string
	}{
		{"nothing wrong", func(s *building.Selector) {}, []string{}},
		{"two terminals a floor: the 3 m storey is under two pitches", func(s *building.Selector) { s.TerminalsPerFloor = 2 },
			// By hand: pitch 1.68 m, terminals at -0.84, 0.84, 2.52 ... ; the
			// landings at 13.8 and 16.8 m are nearest to terminals 8, 9 and 10, 11;
			// 4.2 and 7.4 m to 2, 3 (a tie) and 4, 5; 10.6 m to 6, 7.
			[]string{}},
		{"one and a half", func(s *building.Selector) { s.TerminalsPerFloor = 1.5 },
			// By hand: pitch 2.24 m, terminals at -1.12, 1.12, 3.36, 5.60, 7.84,
			// 10.08, 12.32, 14.56, 16.80, 19.04; nearest two: 0 1 | 2 3 | 3 4 |
			// 5 6 | 6 7 | 7 8 (14.56 and 19.04 tie).
			[]string{
				"grave ring.terminal-wanted-twice[terminal=3 below=1 above=2 cure=2.24]",
				"grave ring.terminal-wanted-twice[terminal=6 below=3 above=4 cure=2.24]",
				"grave ring.terminal-wanted-twice[terminal=7 below=4 above=5 cure=2.24]",
			}},
		{"narrow", func(s *building.Selector) { s.BrushWidth = 0.45 },
			[]string{"ring.lamp-blinks[sum=1.00 cure=0.46]"}},
		{"wide", func(s *building.Selector) { s.BrushWidth = 1.45 },
			[]string{"ring.never-dark[sum=2.00 cure=1.44]"}},
		{"begins too high", func(s *building.Selector) { s.FirstTerminalM = metres(0.8) },
			[]string{"ring.landing-dark-cure[floor=0 cure=-0.600]"}},
		{"begins far below", func(s *building.Selector) { s.FirstTerminalM = metres(-6) },
			// 20.15 pitches of 1.2 m at 16.07 degrees to the metre.
			[]string{"grave ring.no-room[needed=389 cure=250]"}},
		{"too many terminals to make", func(s *building.Selector) { s.TerminalsPerFloor = 60 },
			[]string{"ring.crowded[pitch=2.8 cure=42.4]"}},
	} {
		p := unequal()
		c.change(&p.Selector)
		assert.Equal(t, c.want, said(ringProblems(p)), c.name)
	}
}

// The number a problem names must really cure it.
func TestRingCures(t *testing.T) {
	p := unequal()
	p.Selector.TerminalsPerFloor = 2.24
	assert.Empty(t, said(ringProblems(p)))
	p = unequal()
	p.Selector.BrushWidth = 0.46
	assert.Empty(t, said(ringProblems(p)))
	p.Selector.BrushWidth = 1.44
	assert.Empty(t, said(ringProblems(p)))
	p = unequal()
	first := -6.0
	p.Selector.FirstTerminalM, p.Selector.SpanDeg = &first, 250
	assert.Empty(t, said(ringProblems(p)))
	p = unequal()
	p.Selector.TerminalsPerFloor = 42.4
	assert.Empty(t, said(ringProblems(p)))
}

func TestATerminalWantedTwiceGoesToTheLowerFloor(t *testing.T) {
	p := unequal()
	p.Selector.TerminalsPerFloor = 1.5
	ring, problems := NewRing(p)
	require.NotEmpty(t, problems)
	assert.Equal(t, 1, ring.Terminals()[3].Floor)
	p.Selector.TerminalsPerFloor = 0.2 // floors without any terminal of their own
	ring, _ = NewRing(p)
	assert.Less(t, len(ring.Boundaries()), len(p.Floors)-1)
	assert.NotEmpty(t, ring.Anomalies())
}

func TestNoRingAtAll(t *testing.T) {
	p := unequal()
	p.Selector.LiveTerminals = 0
	assert.Panics(t, func() { NewRing(p) })
	p = unequal()
	p.Selector.TerminalsPerFloor = 0
	assert.Panics(t, func() { NewRing(p) })
}

func TestWheelProblems(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*building.Plan)
		want   []string
	}{
		{"nothing wrong", func(p *building.Plan) {}, []string{}},
		{"no room for the advance", func(p *building.Plan) { p.Selector.SpanDeg = 340 },
			// (16.8 + 1.1 + 0.09) m at 340/16.8 degrees to the metre: 364.1.
			[]string{"grave wheel.no-room[needed=365 cure=336]"}},
		{"room to spare", func(p *building.Plan) { p.Selector.SpanDeg = 336 }, []string{}},
		{"a long advance down counts too", func(p *building.Plan) { p.Selector.SpanDeg, p.Selector.AdvanceDownM = 330, 1.6 },
			[]string{"grave wheel.no-room[needed=364 cure=327]"}},
		{"hysteresis beyond the flank", func(p *building.Plan) { p.Selector.RollerHysteresisM = 0.04 },
			[]string{"grave wheel.hysteresis-wide[hysteresis=0.040 flank=0.040]"}},
		{"crossover beyond the zone", func(p *building.Plan) { p.Selector.CrossoverHalfM = 0.147 },
			[]string{"grave wheel.crossover-wide[crossover=0.147 zone=0.147]"}},
		{"steep", func(p *building.Plan) { p.Floors = p.Floors[:3] },
			// 270 degrees to 7.4 m.
			[]string{"wheel.span-steep[steepness=36.5 most=30 cure=222]"}},
		{"stations too near", func(p *building.Plan) { p.Selector.SpanDeg = 20.1 },
			// 3 m at 20.1/16.8 degrees to the metre on 0.30 m: 18.8 mm; 3.2 m: 20.05 mm.
			[]string{"wheel.stations-crowded[below=4 above=5 apart=19 least=20]"}},
	} {
		p := unequal()
		c.change(p)
		assert.Equal(t, c.want, said(NewWheel(p).Problems()), c.name)
	}
}

func TestAnomalies(t *testing.T) {
	words := func(r *Ring) []string {
		out := []string{}
		for _, p := range r.Anomalies() {
			out = append(out, p.String())
		}
		return out
	}
	ring := ringOf(t, unequal())
	assert.Equal(t, []string{"ring.no-dark-interval[below=3 above=4 overlap=0.180]"}, words(ring))

	// Joined by hand: terminal 11, the lower of floor 4, left blank.
	shorter := ring.Join(11, Blank)
	assert.Equal(t, []string{
		"ring.lit-shorter[floor=4 lit=1.380 longest=2.580]",
	}, words(shorter))
	assert.Equal(t, 4, ring.Terminals()[11].Floor, "the ring it was made from stays as it was")
	assert.Equal(t, 1, shorter.Boundaries()[3].BlankTerminals)

	// Terminal 12, under the landing itself, given away: the landing goes dark.
	assert.Equal(t, []string{
		"ring.landing-dark[floor=4]",
		"ring.lit-shorter[floor=4 lit=1.380 longest=2.580]",
		"ring.no-dark-interval[below=3 above=4 overlap=0.180]",
	}, words(ring.Join(12, Blank)))

	// Terminal 13 joined to floor 3: it lights a second time beyond floor 4.
	odd := ring.Join(13, 3)
	assert.Contains(t, words(odd), "ring.blinks-within[floor=3 count=1]")
	// It shares 0.15 pitch with floor 4 on either side.
	assert.InDelta(t, 0.36, odd.Boundaries()[3].OverlapM, 1e-9)

	lost := ring.Join(14, Blank).Join(15, Blank)
	assert.Contains(t, words(lost), "ring.no-lamp[floor=5]")
	assert.Len(t, lost.Boundaries(), 4)
}

// Every phrase the package speaks has words, with the same slots.
func TestEveryPhraseHasWords(t *testing.T) {
	spoken := map[string]phrase.Phrase{}
	hear := func(problems []Problem) {
		for _, p := range problems {
			spoken[p.Say.ID] = p.Say
			assert.Regexp(t, `^selector\.(?:[a-z_]+|joins\[\d+\]\.terminal)$`, p.Key)
		}
	}
	try := func(change func(*building.Plan)) {
		p := unequal()
		change(p)
		hear(ringProblems(p))
		hear(NewWheel(p).Problems())
	}
	high, low := 0.8, -6.0
	try(func(p *building.Plan) { p.Selector.TerminalsPerFloor = 1.5 })
	try(func(p *building.Plan) { p.Selector.BrushWidth = 0.3 })
	try(func(p *building.Plan) { p.Selector.BrushWidth = 1.6 })
	try(func(p *building.Plan) { p.Selector.FirstTerminalM = &high })
	try(func(p *building.Plan) { p.Selector.FirstTerminalM = &low })
	try(func(p *building.Plan) { p.Selector.TerminalsPerFloor = 60 })
	try(func(p *building.Plan) { p.Selector.SpanDeg = 350 })
	try(func(p *building.Plan) { p.Selector.SpanDeg = 20 })
	try(func(p *building.Plan) { p.Selector.RollerHysteresisM = 0.05 })
	try(func(p *building.Plan) { p.Selector.CrossoverHalfM = 0.2 })
	try(func(p *building.Plan) { p.Floors = p.Floors[:3] })
	try(func(p *building.Plan) { p.Selector.Joins = []building.Join{{Terminal: 99, Floor: "1"}} })
	try(func(p *building.Plan) {
		p.Selector.Joins = []building.Join{{Terminal: 0, Floor: building.Blank}, {Terminal: 1, Floor: building.Blank}}
	})
	ring := ringOf(t, unequal())
	for _, r := range []*Ring{ring, ring.Join(12, Blank), ring.Join(5, 3), ring.Join(13, 3), ring.Join(14, Blank).Join(15, Blank)} {
		for _, p := range r.Anomalies() {
			spoken[p.ID] = p
		}
	}
	file, err := os.ReadFile("../../assets/words/en/selector.yaml")
	require.NoError(t, err)
	worded := map[string]bool{}
	for _, line := range regexp.MustCompile(`(?m)^((?:ring|wheel)\.[a-z-]+): (.*)$`).FindAllStringSubmatch(string(file), -1) {
		id, words := line[1], line[2]
		worded[id] = true
		said, ok := spoken[id]
		if !assert.True(t, ok, "%s is worded and never spoken", id) {
			continue
		}
		has := map[string]bool{}
		for _, s := range said.Slots {
			has[s.Name] = true
		}
		for _, slot := range regexp.MustCompile(`\{([a-z]+)\}`).FindAllStringSubmatch(words, -1) {
			assert.True(t, has[slot[1]], "%s has no slot %s", id, slot[1])
		}
	}
	for id := range spoken {
		assert.True(t, worded[id], "%s has no words", id)
	}
}
