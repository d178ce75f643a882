package bench

import (
	"math"
	"slices"

	"wheelroom/physics/building"
)

// A ring's phase is how far, in pitches, the middle of the lowest landing's
// terminals lies below that landing, from over −½ to ½; beyond that the ring
// repeats itself. As the phase grows each floor's terminals change once, from
// one place to the next higher one, so the ring has at most as many different
// patterns as floors, and all of them can be looked at.

// tie is how nearly equal two places count as equal, in pitches: what the ring
// itself takes for a tie, and far above rounding.
const tie = 1e-9

// layout is the storeys in pitches with so many terminals joined to a floor.
type layout struct {
	places []float64 // of the landings, pitches above the lowest
	pitchM float64
	live   int
}

func newLayout(p *building.Plan, perFloor float64, live int) layout {
	l := layout{pitchM: p.TravelM() / float64(len(p.Floors)-1) / perFloor, live: live}
	for _, f := range p.Floors {
		l.places = append(l.places, f.HeightM/l.pitchM)
	}
	return l
}

// firstM returns where terminal 0 stands at a phase, metres.
func (l layout) firstM(phase float64) float64 { return -(float64(l.live-1)/2 + phase) * l.pitchM }

// start returns the lowest terminal of floor f at a phase, as the ring lays it
// out.
func (l layout) start(f int, phase float64) int {
	return int(math.Ceil(l.places[f] + phase - 0.5 - tie))
}

// A stretch is phases from a to b between which the ring's pattern is one.
type stretch struct{ a, b float64 }

func (s stretch) width() float64  { return s.b - s.a }
func (s stretch) middle() float64 { return (s.a + s.b) / 2 }

// stretches returns all phases, cut where a floor's terminals change.
func (l layout) stretches() []stretch {
	cuts := []float64{-0.5, 0.5}
	for _, x := range l.places {
		// It changes where place + phase − ½ is whole.
		c := math.Mod(0.5-x, 1) // from over −1 to ½
		if c <= -0.5 {
			c++
		}
		cuts = append(cuts, c)
	}
	slices.Sort(cuts)
	var out []stretch
	for i := 1; i < len(cuts); i++ {
		if s := (stretch{cuts[i-1], cuts[i]}); s.width() > 4*tie {
			out = append(out, s)
		}
	}
	return out
}

// parted reports whether a blank terminal lies between floor f and the next
// one up at a phase.
func (l layout) parted(f int, phase float64) bool {
	return l.start(f+1, phase)-l.start(f, phase) > l.live
}

// allParted returns the widest stretch of phases at which a blank terminal
// parts the lamps of every boundary, and whether there is one.
func (l layout) allParted() (best stretch, ok bool) {
	var now stretch
	for _, s := range l.stretches() {
		whole := true
		for f := range len(l.places) - 1 {
			whole = whole && l.parted(f, s.middle())
		}
		switch {
		case !whole:
			now = stretch{}
			continue
		case now.width() > 0:
			now.b = s.b
		default:
			now = s
		}
		if now.width() > best.width() {
			best, ok = now, true
		}
	}
	return best, ok
}
