package selector

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/phrase"
)

// Blank is the floor of a terminal that no floor's lamp is joined to.
const Blank = -1

// tieInPitch is how nearly equal two distances from a landing, in pitches,
// count as equal. It is far above the rounding of heights typed in
// millimetres and far below anything that could be filed on a terminal.
const tieInPitch = 1e-9

// A Terminal is one stud of the ring.
type Terminal struct {
	HeightM  float64 // car height at which the brush stands on its middle
	AngleRad float64 // place on the ring, clockwise from the lowest landing
	Floor    int     // whose position lamp it feeds; Blank for none
}

// A Ring is the evenly spaced terminals in the middle of the selector and the
// brush that wipes them. It does not change once made.
type Ring struct {
	terminals []Terminal
	pitchM    float64
	radPerM   float64
	reachM    float64 // from a terminal's middle to where the brush leaves it
	landingsM []float64
	names     []string
	lit       [][]Span
	laidOut   []int // the floor of each terminal before any join by hand
}

// NewRing lays out the ring of a plan. Terminals stand a pitch apart, the
// first where the plan says or (m-1)/2 pitch below the lowest landing; the m
// terminals nearest to a landing are joined to its lamp, and of two equally
// near the lower one is taken. The ring ends with the last joined terminal.
// Joins that the plan says were made by hand are then made.
//
// A terminal wanted by two floors goes to the lower one and is a grave
// problem, unless it is joined by hand. The ring is returned in any case, so that it can be shown. NewRing
// panics on a plan whose numbers are no numbers of a ring (no travel, no
// terminals), which the reader of building files refuses.
func NewRing(p *building.Plan) (*Ring, []Problem) {
	sel := &p.Selector
	pitch := p.TravelM() / float64(len(p.Floors)-1) / sel.TerminalsPerFloor
	live := sel.LiveTerminals
	if !(pitch > 0) || math.IsInf(pitch, 0) || live < 1 {
		panic("selector: a ring needs a pitch above zero and at least one live terminal")
	}
	first := -float64(live-1) / 2 * pitch
	if sel.FirstTerminalM != nil {
		first = *sel.FirstTerminalM
	}

	r := &Ring{
		pitchM:  pitch,
		radPerM: radPerM(p),
		reachM:  (sel.TerminalWidth + sel.BrushWidth) / 2 * pitch,
	}
	starts := make([]int, len(p.Floors))
	count := 0
	for f, floor := range p.Floors {
		r.landingsM = append(r.landingsM, floor.HeightM)
		r.names = append(r.names, floor.Name)
		starts[f] = nearest((floor.HeightM-first)/pitch, live)
		count = max(count, starts[f]+live)
	}
	for i := range count {
		y := first + float64(float64(i)*pitch)
		r.terminals = append(r.terminals, Terminal{HeightM: y, AngleRad: y * r.radPerM, Floor: Blank})
	}

	var problems []Problem
	byHand := r.terminalsOf(sel.Joins)
	for f, start := range starts {
		for i := start; i < start+live; i++ {
			t := &r.terminals[i]
			if t.Floor == Blank {
				t.Floor = f
				continue
			}
			if byHand[i] {
				continue
			}
			problems = append(problems, Problem{
				Key: "selector.terminals_per_floor", Grave: true,
				Say: phrase.Of("ring.terminal-wanted-twice", "terminal", i,
					"below", p.Floors[t.Floor].Name, "above", p.Floors[f].Name,
					"cure", phrase.Num(ceil(roomyTerminals(p), 2), 2)),
			})
		}
	}
	shared := len(problems) > 0
	for _, t := range r.terminals {
		r.laidOut = append(r.laidOut, t.Floor)
	}
	problems = append(problems, r.joinByHand(p)...)
	r.light()
	return r, append(problems, r.problems(p, shared)...)
}

// nearest returns the lowest of the n terminals nearest to a place given in
// pitches above terminal 0. The n form a window one pitch apart, so the
// nearest are those of the window whose middle is nearest; half way the lower
// window is taken. No terminal exists below 0.
func nearest(place float64, n int) int {
	start := math.Ceil(place - float64(n-1)/2 - 0.5 - tieInPitch)
	return max(0, int(start))
}

// roomyTerminals returns the terminals per floor from which on no terminal can
// be wanted twice: the smallest storey is then as many pitches as a floor
// joins terminals.
func roomyTerminals(p *building.Plan) float64 {
	least := math.Inf(1)
	for f := 1; f < len(p.Floors); f++ {
		least = math.Min(least, p.Floors[f].HeightM-p.Floors[f-1].HeightM)
	}
	mean := p.TravelM() / float64(len(p.Floors)-1)
	return float64(p.Selector.LiveTerminals) * mean / least
}

// light works out over which heights each floor's lamp is lit.
func (r *Ring) light() {
	r.lit = make([][]Span, len(r.landingsM))
	for i, t := range r.terminals {
		if t.Floor == Blank {
			continue
		}
		s := r.Touch(i)
		spans := r.lit[t.Floor]
		// Joined neighbours whose touches meet light the lamp without a break.
		if n := len(spans); n > 0 && s.UpMake-spans[n-1].UpBreak <= tieInPitch*r.pitchM {
			spans[n-1] = Between(spans[n-1].UpMake, s.UpBreak)
			continue
		}
		r.lit[t.Floor] = append(spans, s)
	}
}

// Terminals returns the terminals from the lowest up. They are the ring's own:
// read, do not write.
func (r *Ring) Terminals() []Terminal { return r.terminals }

// PitchM returns the car travel from one terminal to the next, metres.
func (r *Ring) PitchM() float64 { return r.pitchM }

// Touch returns the heights over which the brush touches terminal i. Copper on
// copper has no hysteresis.
func (r *Ring) Touch(i int) Span {
	y := r.terminals[i].HeightM
	return Between(y-r.reachM, y+r.reachM)
}

// Lit returns the heights over which the floor's position lamp is fed, from
// the lowest up: one span where brush and terminal together are wider than a
// pitch, none if the floor has no terminal. Read, do not write.
func (r *Ring) Lit(floor int) []Span { return r.lit[floor] }

// Feeds reports whether the floor's lamp is fed with the car at y.
func (r *Ring) Feeds(floor int, y float64) bool {
	for _, s := range r.lit[floor] {
		if s.Made(y) {
			return true
		}
	}
	return false
}
