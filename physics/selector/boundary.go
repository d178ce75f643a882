package selector

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
	leaves := r.lit[below][len(r.lit[below])-1].UpBreak
	meets := r.lit[above][0].UpMake
	switch gap := meets - leaves; {
	case gap > tieInPitch*r.pitchM:
		b.DarkM = gap
	case gap < -tieInPitch*r.pitchM:
		b.OverlapM = -gap
	}
	between := false
	for _, t := range r.terminals {
		switch {
		case t.Floor == below:
			between, b.BlankTerminals = true, 0
		case t.Floor == above:
			return b
		case between && t.Floor == Blank:
			b.BlankTerminals++
		}
	}
	return b
}
