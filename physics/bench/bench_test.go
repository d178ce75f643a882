package bench

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/building"
	"wheelroom/physics/lamp"
	"wheelroom/physics/phrase"
	"wheelroom/physics/selector"
)

func words(t testing.TB) *phrase.Catalogue {
	t.Helper()
	c, err := phrase.ReadCatalogue(assets.Words("en")...)
	require.NoError(t, err)
	return c
}

func shipped(t testing.TB, id string) *building.Plan {
	t.Helper()
	for _, b := range assets.Buildings() {
		if b.ID == id {
			p, problems := building.Read(id, b.Text)
			require.Empty(t, problems)
			return &p
		}
	}
	t.Fatalf("no building %s", id)
	return nil
}

func said(phrases []phrase.Phrase) string {
	var lines []string
	for _, p := range phrases {
		lines = append(lines, p.String())
	}
	return strings.Join(lines, "\n")
}

func TestReportOfUnequalStoreys(t *testing.T) {
	r := Lay(shipped(t, "tidemill-house"))
	// By hand: six landings over 16.8 m, 2.8 terminals a floor: pitch 1.2 m,
	// terminal 0 half a pitch below the lowest landing; widths 1.15 pitch.
	require.Len(t, r.Terminals, 16)
	assert.Equal(t, "G", r.Terminals[0].Floor)
	assert.Equal(t, "", r.Terminals[2].Floor)
	assert.InDelta(t, 1.8, r.Terminals[2].HeightM, 1e-9)
	assert.InDelta(t, 1.8*270/16.8, r.Terminals[2].AngleDeg, 1e-9)
	require.Len(t, r.Boundaries, 5)
	b := r.Boundaries[0]
	assert.Equal(t, [2]string{"G", "1"}, [2]string{b.Below, b.Above})
	assert.Equal(t, 1, b.BlankTerminals)
	assert.InDelta(t, 1.02, b.DarkM, 1e-9)
	assert.InDelta(t, 1.02, b.DarkS, 1e-9, "at 1 m/s")
	// 2·50/16 turns a second through 1:41 on a sheave of 0.55 m: 0.2634 m/s.
	assert.InDelta(t, 0.2634, r.SlowMS, 5e-5)
	assert.InDelta(t, 1.02/0.2634, b.DarkSlowS, 1e-3)
	assert.InDelta(t, 0.18, r.Boundaries[3].OverlapM, 1e-9)
	assert.Zero(t, r.Boundaries[3].DarkM)
	assert.Equal(t, "ring.no-dark-interval[below=3 above=4 overlap=0.180]", said(r.Notes))
}

func TestDarkIntervalsTooShortToBeSeen(t *testing.T) {
	p := shipped(t, "tidemill-house")
	p.Selector.BrushWidth = 1.42 // sum 1.97: dark for 0.03 pitch, 36 mm
	r := Lay(p)
	assert.Contains(t, said(r.Notes), "bench.dark-doubtful[below=G above=1 dark=36 quick=20 slow=50]")
	p.Selector.BrushWidth = 1.44 // 12 mm
	r = Lay(p)
	assert.Contains(t, said(r.Notes), "bench.dark-hidden[below=G above=1 dark=12 quick=20 slow=50]")

	p = shipped(t, "tidemill-house")
	ring := r.Ring
	ring, _ = selector.NewRing(p)
	p.Selector.TerminalWidth, p.Selector.BrushWidth = 0.1, 0.05
	p.Selector.LiveTerminals, p.Selector.TerminalsPerFloor, p.Machine.RatedSpeedMS = 1, 8, 1
	r = Lay(p)
	assert.Contains(t, said(r.Notes), "bench.lamp-flash[floor=G lit=63 rise=100]") // 0.15 pitch of 0.42 m
	assert.NotEmpty(t, ring.Terminals())
}

// A walked is what a walk meets between two floors.
type walked struct {
	dark, longest, both float64
	pieces              int // of dark
	blanks              int
	others              map[string]bool
}

// walk goes from one floor's terminal to another's, millimetre by millimetre and
// with nothing but the schedule, laying the brush on each terminal in turn.
func walk(p *building.Plan, terminals []Terminal, below, above string) walked {
	s := p.Selector
	pitch := terminals[1].HeightM - terminals[0].HeightM
	reach := (s.TerminalWidth + s.BrushWidth) / 2 * pitch
	litAt := func(y float64) string {
		lit := ""
		for _, t := range terminals {
			if t.Floor != "" && math.Abs(y-t.HeightM) < reach && !strings.HasSuffix(lit, "|"+t.Floor) {
				lit += "|" + t.Floor
			}
		}
		return lit
	}
	// The floors' terminals nearest to their landings, the lower of two.
	end := func(floor string) float64 {
		at, away := 0.0, math.Inf(1)
		for _, t := range terminals {
			if d := math.Abs(t.HeightM - p.Floors[p.Floor(floor)].HeightM); t.Floor == floor && d < away-1e-9 {
				at, away = t.HeightM, d
			}
		}
		return at
	}
	w := walked{others: map[string]bool{}}
	from, to := min(end(below), end(above)), max(end(below), end(above))
	within := func(one, other string) bool { return one == other && (one == below || one == above) }
	shown, last := "", "" // the lamp lit last, the floor of the terminal passed last
	dark, blanks := 0.0, 0
	next := 0
	for mm := 0; float64(mm) < 1000*(to-from); mm++ {
		y := from + (float64(mm)+0.5)/1000
		for ; next < len(terminals) && terminals[next].HeightM < y+0.001; next++ {
			switch t := terminals[next]; {
			case t.HeightM < from-0.001:
			case t.Floor == "":
				blanks++
			default:
				if last != "" && !within(last, t.Floor) {
					w.blanks += blanks
				}
				if t.Floor != below && t.Floor != above {
					w.others[t.Floor] = true
				}
				last, blanks = t.Floor, 0
			}
		}
		lit := strings.Split(litAt(y), "|")[1:]
		if len(lit) == 0 {
			dark += 0.001
			continue
		}
		if dark > 0 && !within(shown, lit[0]) {
			w.dark += dark
			w.pieces++
			w.longest = max(w.longest, dark)
		}
		shown, dark = lit[len(lit)-1], 0
	}
	for mm := int(-8000 * pitch); mm < int(1000*(p.TravelM()+8*pitch)); mm++ {
		lit := litAt((float64(mm)+0.5)/1000) + "|"
		if strings.Contains(lit, "|"+below+"|") && strings.Contains(lit, "|"+above+"|") {
			w.both += 0.001
		}
	}
	return w
}

func TestScheduleAgreesWithAWalk(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 0))
	var plans []*building.Plan
	for _, b := range assets.Buildings() {
		plans = append(plans, shipped(t, b.ID))
	}
	hand := shipped(t, "kestrel-court")
	hand.Selector.Joins = []building.Join{{Terminal: 5, Floor: "2"}, {Terminal: 6, Floor: "2"}, {Terminal: 7, Floor: building.Blank}}
	plans = append(plans, hand)
	for k := range 24 {
		p := building.Evenly("x", 2+r.IntN(10), 2.2+2*r.Float64())
		p.Selector.TerminalsPerFloor = 2 + 4*r.Float64()
		p.Selector.BrushWidth = 0.5 + 0.9*r.Float64()
		// A hand joins anything to anything, here and there or all over.
		count := len(Lay(&p).Terminals)
		for range []int{0, 2, count}[k%3] {
			floor := building.Blank
			if f := r.IntN(len(p.Floors) + 1); f < len(p.Floors) {
				floor = p.Floors[f].Name
			}
			p.Selector.Joins = append(p.Selector.Joins, building.Join{Terminal: r.IntN(count), Floor: floor})
		}
		plans = append(plans, &p)
	}
	among, parted := 0, 0
	for _, p := range plans {
		report := Lay(p)
		for _, b := range report.Boundaries {
			want := walk(p, report.Terminals, b.Below, b.Above)
			key := b.Below + " to " + b.Above + " of " + p.Name
			longest := b.LongestDarkS * report.FullMS
			assert.InDelta(t, want.dark, b.DarkM, 0.0021*float64(max(1, want.pieces)), "dark %s, joins %v", key, p.Selector.Joins)
			assert.InDelta(t, want.longest, longest, 0.0021, "longest dark %s, joins %v", key, p.Selector.Joins)
			assert.InDelta(t, want.both, b.OverlapM, 0.0021*float64(1+len(p.Selector.Joins)), "both %s, joins %v", key, p.Selector.Joins)
			assert.Equal(t, want.blanks, b.BlankTerminals, "blanks %s, joins %v", key, p.Selector.Joins)
			for f := range want.others {
				among++
				assert.Contains(t, said(report.Notes), fmt.Sprintf("ring.lit-between[below=%s above=%s floor=%s]", b.Below, b.Above, f))
			}
			if want.pieces > 1 {
				parted++
			}
		}
	}
	assert.Greater(t, among, 20)
	assert.Greater(t, parted, 5, "dark intervals with another's lamp in their middle")
}

// A blank terminal joined to a floor further up lights that floor's lamp on the
// way, and leaves its own landing as it was.
func TestReportOfAJoinFarFromItsLanding(t *testing.T) {
	p := shipped(t, "tidemill-house")
	p.Selector.Joins = []building.Join{{Terminal: 5, Floor: "3"}}
	r := Lay(p)
	// By hand: terminal 5 stands between those of 1 and 2, a pitch of 1.2 m from
	// each, and brush and terminal reach over 1.15 pitch.
	b := r.Boundaries[1]
	assert.Zero(t, b.BlankTerminals)
	assert.Zero(t, b.DarkM)
	assert.Zero(t, b.OverlapM, "1 and 2 are never lit together")
	b = r.Boundaries[2]
	assert.Equal(t, 1, b.BlankTerminals, "terminal 8")
	assert.InDelta(t, 1.02, b.DarkM, 1e-9)
	assert.Equal(t, lamp.Seen, b.Sight)
	notes := said(r.Notes)
	assert.Contains(t, notes, "ring.lit-between[below=1 above=2 floor=3]")
	assert.Contains(t, notes, "ring.never-dark-between[below=1 above=2]")
	assert.NotContains(t, notes, "below=2 above=3")
}

func TestJSON(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, WriteJSON(&out, Lay(shipped(t, "tidemill-house"))))
	assert.True(t, strings.HasPrefix(out.String(), `{
  "terminals": [
    {
      "index": 0,
      "angle_deg": -9.642857,
      "height_m": -0.6,
      "floor": "G"
    },`), out.String())
	var got map[string][]map[string]any
	require.NoError(t, json.Unmarshal(out.Bytes(), &got))
	assert.Len(t, got, 2)
	assert.Equal(t, map[string]any{"index": 2.0, "angle_deg": 28.928571, "height_m": 1.8, "floor": ""}, got["terminals"][2])
	assert.Equal(t, map[string]any{"below": "G", "above": "1", "blank_terminals": 1.0, "dark_m": 1.02, "dark_s": 1.02,
		"overlap_m": 0.0}, got["boundaries"][0])
}

func TestCSV(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, WriteCSV(&out, Lay(shipped(t, "tidemill-house"))))
	lines := strings.Split(out.String(), "\r\n")
	assert.Equal(t, []string{"index,angle_deg,height_m,floor", "0,-9.643,-0.600,G", "1,9.643,0.600,G", "2,28.929,1.800,"}, lines[:4])
	assert.Len(t, lines, 18, "a head, 16 terminals, the last line end")
}

func TestText(t *testing.T) {
	c := words(t)
	p := shipped(t, "tidemill-house")
	var out bytes.Buffer
	require.NoError(t, WriteText(&out, Lay(p), c.Text))
	for _, want := range []string{"a ring of 16 terminals", "2.8", "blank", "3 to 4", "0.180", "floor 4 follows floor 3 without a dark interval"} {
		assert.Contains(t, out.String(), want)
	}
	p.Selector.BrushWidth = 1.44
	require.NoError(t, WriteText(&out, Lay(p), c.Text))
	for _, p := range adviceKinds(t) {
		a := Propose(p)
		for _, s := range a.Argument {
			c.Text(s)
		}
		for _, q := range a.Proposals {
			for _, s := range q.Says {
				c.Text(s)
			}
		}
	}
	assert.Empty(t, c.Missing())
}
