package selector

import (
	"math"
	"sort"
	"testing"

	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
)

// slowRing is the ring done the slow, obvious way: every landing sorts all
// terminals by distance, and the brush is laid on each terminal in turn.
type slowRing struct {
	pitch, first  float64
	brush, copper float64 // widths, metres
	owner         []int
}

func newSlowRing(p *building.Plan) *slowRing {
	sel := p.Selector
	s := &slowRing{pitch: p.TravelM() / float64(len(p.Floors)-1) / sel.TerminalsPerFloor}
	s.first = -float64(sel.LiveTerminals-1) / 2 * s.pitch
	if sel.FirstTerminalM != nil {
		s.first = *sel.FirstTerminalM
	}
	s.brush, s.copper = sel.BrushWidth*s.pitch, sel.TerminalWidth*s.pitch
	for i := 0; s.first+float64(i-2*sel.LiveTerminals)*s.pitch < p.TravelM(); i++ {
		s.owner = append(s.owner, Blank)
	}
	for f, floor := range p.Floors {
		order := make([]int, len(s.owner))
		for i := range order {
			order[i] = i
		}
		away := func(i int) float64 {
			return math.Abs(s.first+float64(i)*s.pitch-floor.HeightM) / s.pitch
		}
		sort.SliceStable(order, func(a, b int) bool { return away(order[a])+1e-9 < away(order[b]) })
		for _, i := range order[:sel.LiveTerminals] {
			s.owner[i] = f
		}
	}
	return s
}

// lamps returns which floors are lit with the car at y, and how near the
// nearest edge of a touch is.
func (s *slowRing) lamps(y float64, lit []bool) (edge float64) {
	clear(lit)
	edge = math.Inf(1)
	for i, f := range s.owner {
		mid := s.first + float64(i)*s.pitch
		overlap := math.Min(mid+s.copper/2, y+s.brush/2) - math.Max(mid-s.copper/2, y-s.brush/2)
		edge = math.Min(edge, math.Abs(overlap))
		if f != Blank && overlap > 0 {
			lit[f] = true
		}
	}
	return edge
}

// The ring agrees with a car that is walked along it millimetre by millimetre.
func TestRingAgreesWithAWalk(t *testing.T) {
	r := random()
	plans := []*building.Plan{unequal(), evenly(3, 3.1), evenly(10, 3.3), evenly(32, 2.9)}
	for range 6 {
		plans = append(plans, anyPlan(r))
	}
	for _, p := range plans {
		ring, slow := ringOf(t, p), newSlowRing(p)
		n := len(p.Floors)
		lit := make([]bool, n)
		dark, both, on := make([]float64, n), make([]float64, n), make([]float64, n)
		from := int(math.Floor((slow.first - 2*slow.pitch) * 1000))
		to := int(math.Ceil((p.TravelM() + 4*slow.pitch) * 1000))
		below := Blank // the floor whose lamp was lit last
		for mm := from; mm <= to; mm++ {
			y := float64(mm) / 1000
			near := slow.lamps(y, lit) < 1e-9
			any := false
			for f, want := range lit {
				if want {
					on[f] += 0.001
					any = true
					if f > 0 && lit[f-1] {
						both[f] += 0.001
					}
					below = f
				}
				if !near && want != ring.Feeds(f, y) {
					require.Fail(t, "ring and walk differ", "floor %d at %.3f m, walk says %v, %v", f, y, want, p.Selector)
				}
			}
			if !any && below != Blank && below < n-1 {
				dark[below+1] += 0.001
			}
		}
		const tolerance = 0.0021 // a millimetre of the walk at each end
		for f := range n {
			require.InDelta(t, on[f], ring.LitM(f), tolerance, "lit, floor %d of %v", f, p.Selector)
		}
		for _, b := range ring.Boundaries() {
			require.InDelta(t, dark[b.Above], b.DarkM, tolerance, "dark below %d of %v", b.Above, p.Selector)
			require.InDelta(t, both[b.Above], b.OverlapM, tolerance, "overlap below %d of %v", b.Above, p.Selector)
		}
	}
}
