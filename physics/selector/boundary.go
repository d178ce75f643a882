package selector

import (
	"math"
	"slices"
)

// A Boundary is what the brush meets between the lamps of two neighbouring
// floors: stretches where no lamp is lit, stretches where both are, and on a
// ring joined by hand the lamps of other floors.
type Boundary struct {
	Below, Above   int       // floors
	BlankTerminals int       // between the two floors
	DarkM          float64   // car travel between the two floors with no lamp lit, 0 if none
	OverlapM       float64   // car travel with both lit, 0 if none
	Dark, Both     []Stretch // where that is, from the lowest up
	Others         []int     // floors whose lamps are lit between the two, from the lowest terminal up
}

// A Stretch is a piece of car travel, metres, FromM < ToM.
type Stretch struct{ FromM, ToM float64 }

// LengthM returns how long the stretch is, metres.
func (s Stretch) LengthM() float64 { return s.ToM - s.FromM }

// LongestDarkM returns the longest stretch without a lamp, metres: what can be
// seen of several is seen of the longest.
func (b *Boundary) LongestDarkM() float64 {
	longest := 0.0
	for _, s := range b.Dark {
		longest = math.Max(longest, s.LengthM())
	}
	return longest
}

// Boundaries returns the boundaries from the lowest up. With b blank terminals
// the dark interval is (b + 1 - s) pitches and the overlap the same below
// zero, s being the widths of brush and terminal together. A floor without a
// terminal has no lamp and is passed over.
//
// Between two floors lies what lies between their terminals nearest to their
// landings, whoever it is joined to. A gap that one of the two lamps has within
// itself is none between them.
func (r *Ring) Boundaries() []Boundary {
	own := r.nearestOwn()
	var out []Boundary
	below := Blank
	for above := range r.lit {
		if len(r.lit[above]) == 0 {
			continue
		}
		if below != Blank {
			out = append(out, r.boundary(below, above, own))
		}
		below = above
	}
	return out
}

// nearestOwn returns of each floor the terminal nearest to its landing among
// those joined to its lamp, the lower of two; none where there is none.
func (r *Ring) nearestOwn() []int {
	own := make([]int, len(r.landingsM))
	for f := range own {
		own[f] = Blank
	}
	for i, t := range r.terminals {
		if t.Floor == Blank {
			continue
		}
		away := func(i int) float64 { return math.Abs(r.terminals[i].HeightM - r.landingsM[t.Floor]) }
		if n := own[t.Floor]; n == Blank || away(i) < away(n)-tieInPitch*r.pitchM {
			own[t.Floor] = i
		}
	}
	return own
}

func (r *Ring) boundary(below, above int, own []int) Boundary {
	b := Boundary{Below: below, Above: above}
	for _, lower := range r.lit[below] {
		for _, upper := range r.lit[above] {
			both := Stretch{math.Max(lower.UpMake, upper.UpMake), math.Min(lower.UpBreak, upper.UpBreak)}
			if shared := both.LengthM(); shared > tieInPitch*r.pitchM {
				b.Both = append(b.Both, both)
				b.OverlapM += shared
			}
		}
	}
	// A hand may have put the upper floor's terminal below the lower one's.
	last, end := min(own[below], own[above]), max(own[below], own[above])
	for i := last + 1; i <= end; i++ {
		f := r.terminals[i].Floor
		if f == Blank {
			continue
		}
		ofBoth := f == below || f == above
		if !ofBoth && !slices.Contains(b.Others, f) {
			b.Others = append(b.Others, f)
		}
		if !ofBoth || f != r.terminals[last].Floor {
			b.BlankTerminals += i - last - 1
			dark := Stretch{r.Touch(last).UpBreak, r.Touch(i).UpMake}
			if gap := dark.LengthM(); gap > tieInPitch*r.pitchM {
				b.Dark = append(b.Dark, dark)
				b.DarkM += gap
			}
		}
		last = i
	}
	return b
}
