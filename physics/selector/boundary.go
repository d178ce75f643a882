package selector

import "math"

// A Boundary is what the brush meets between the lamps of two neighbouring
// floors: a stretch where neither lamp is lit, or one where both are.
type Boundary struct {
	Below, Above   int     // floors
	BlankTerminals int     // between the highest of the one and the lowest of the other
	DarkM          float64 // car travel with neither lamp lit, 0 if none
	OverlapM       float64 // car travel with both lit, 0 if none
}

// Boundaries returns the boundaries from the lowest up. With b blank terminals
// the dark interval is (b + 1 - s) pitches and the overlap the same below
// zero, s being the widths of brush and terminal together. A floor without a
// terminal has no lamp and is passed over.
func (r *Ring) Boundaries() []Boundary {
	var out []Boundary
	below := Blank
	for above := range r.lit {
		if len(r.lit[above]) == 0 {
			continue
		}
		if below != Blank {
			out = append(out, r.boundary(below, above))
		}
		below = above
	}
	return out
}

func (r *Ring) boundary(below, above int) Boundary {
	b := Boundary{Below: below, Above: above}
	for _, lower := range r.lit[below] {
		for _, upper := range r.lit[above] {
			shared := math.Min(lower.UpBreak, upper.UpBreak) - math.Max(lower.UpMake, upper.UpMake)
			if shared > tieInPitch*r.pitchM {
				b.OverlapM += shared
			}
		}
	}
	leaves := r.lit[below][len(r.lit[below])-1].UpBreak
	meets := r.lit[above][0].UpMake
	if dark := meets - leaves; dark > tieInPitch*r.pitchM {
		b.DarkM = dark
	}
	last, first := -1, len(r.terminals)
	for i, t := range r.terminals {
		switch t.Floor {
		case below:
			last = i
		case above:
			first = min(first, i)
		}
	}
	for i := last + 1; i < first; i++ {
		if r.terminals[i].Floor == Blank {
			b.BlankTerminals++
		}
	}
	return b
}
