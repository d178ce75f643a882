package building

import (
	"math"

	"wheelroom/physics/document"
)

// advanceMarginM is what an advance must stay under the smallest storey by:
// its contact must break before the zone of the landing behind is reached.
const advanceMarginM = 0.05

// An Advance is the advance of one direction, or of both, under the key that a
// file gives it.
type Advance struct {
	Path string // "selector.advance_m", or "selector.advance_up_m" and its like
	M    float64
}

// Advances returns the one advance that both directions have, or both, up
// first.
func Advances(s Selector) []Advance {
	if s.AdvanceUpM == s.AdvanceDownM {
		return []Advance{{"selector.advance_m", s.AdvanceUpM}}
	}
	return []Advance{{"selector.advance_up_m", s.AdvanceUpM}, {"selector.advance_down_m", s.AdvanceDownM}}
}

// MostAdvanceM returns the longest advance, metres in hundredths, for which
// the plan's storeys have room.
func MostAdvanceM(p *Plan) float64 {
	storey, _ := SmallestStorey(p)
	// What is under the bound by less than a hundredth is still under it.
	return (math.Ceil(100*(storey-advanceMarginM)-1e-6) - 1) / 100
}

// SmallestStorey returns the least height between two landings, metres, and
// the index of the lower one. The plan must have two floors.
func SmallestStorey(p *Plan) (storeyM float64, below int) {
	storeyM = math.Inf(1)
	for i := 1; i < len(p.Floors); i++ {
		if h := p.Floors[i].HeightM - p.Floors[i-1].HeightM; h < storeyM {
			storeyM, below = h, i-1
		}
	}
	return storeyM, below
}

// Cause returns the path in a building file to point at for a problem of the
// value at path: the path itself, or the key that stands for it in this file.
// An advance of one direction may be given for both, and an advance or a vane
// left to its default can only misfit the handwheel.
func Cause(text []byte, path string) string {
	const both = "selector.advance_m"
	switch path {
	case handwheelInertia:
		if !document.Has(text, path) && document.Has(text, handwheelMade) {
			return handwheelMade
		}
		return path
	case "selector.advance_up_m", "selector.advance_down_m", both, "shaft.vane_half_m":
	default:
		return path
	}
	stand := []string{path, handwheelInertia, handwheelMade}
	if path != "shaft.vane_half_m" {
		stand = []string{path, both, handwheelInertia, handwheelMade}
	}
	for _, p := range stand {
		if document.Has(text, p) {
			return p
		}
	}
	return path
}
