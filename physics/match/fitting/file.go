package fitting

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"wheelroom/physics/match"
	"wheelroom/physics/selector"
)

// A fileRing is the building file's ring with only start and speed to fit.
type fileRing struct {
	*question
	course course
	edges  []fileEdge
}

// A fileEdge is an observed edge and the place at which the ring makes it,
// metres from the trip's first landing.
type fileEdge struct{ timeS, awayM float64 }

// gather pairs the observed edges with the ring's, lamp by lamp in the order of
// travel; it returns how many have no partner.
func (f *fileRing) gather(ring *selector.Ring) (missing int) {
	for _, l := range f.trip.Lamps {
		ons, offs := f.places(ring, l.Floor)
		pair := func(seen []match.Edge, places []float64) {
			shift := 0
			if l.FromEnd {
				shift = len(places) - len(seen)
			}
			for i, e := range seen {
				k := i + shift
				if k < 0 || k >= len(places) {
					missing++
					continue
				}
				f.edges = append(f.edges, fileEdge{e.TimeS, places[k]})
			}
		}
		pair(l.On, ons)
		pair(l.Off, offs)
	}
	return missing
}

// places returns where a floor's lamp comes on and goes out, in the order of
// travel.
func (f *fileRing) places(ring *selector.Ring, floor int) (ons, offs []float64) {
	spans := ring.Lit(floor)
	for i := range spans {
		s := spans[i]
		lo, hi := s.UpMake, s.UpBreak
		if f.way < 0 {
			s = spans[len(spans)-1-i]
			lo, hi = s.DownMake, s.DownBreak
		}
		ons = append(ons, f.way*(lo-f.fromM))
		offs = append(offs, f.way*(hi-f.fromM))
	}
	return ons, offs
}

func (f *fileRing) timeOf(awayM float64, x []float64) float64 {
	t, _, _ := f.course.at(awayM/x[1], f.wholeM/x[1])
	return x[0] + t
}

// lamps returns when the ring's lamps are lit during the trip.
func (f *fileRing) lamps(ring *selector.Ring, x []float64) [][]match.Interval {
	out := make([][]match.Interval, len(f.heights))
	for floor := range f.heights {
		ons, offs := f.places(ring, floor)
		for i := range ons {
			if offs[i] < 0 || ons[i] > f.wholeM {
				continue
			}
			lit := match.Interval{OnS: math.Inf(-1), OffS: math.Inf(1)}
			if ons[i] >= 0 {
				lit.OnS = f.timeOf(ons[i], x)
			}
			if offs[i] <= f.wholeM {
				lit.OffS = f.timeOf(offs[i], x)
			}
			out[floor] = append(out[floor], lit)
		}
	}
	return out
}

// size and fill implement system.
func (f *fileRing) size() (int, int) { return len(f.edges) + 3, 2 }

func (f *fileRing) fill(x, r []float64, j *mat.Dense) {
	set := func(i int, value, byStart, bySpeed, slack float64) {
		r[i] = value / slack
		if j != nil {
			j.Set(i, 0, byStart/slack)
			j.Set(i, 1, bySpeed/slack)
		}
	}
	v := x[1]
	for i, e := range f.edges {
		t, byX, byWhole := f.course.at(e.awayM/v, f.wholeM/v)
		set(i, x[0]+t-e.timeS, 1, -(e.awayM*byX+f.wholeM*byWhole)/(v*v), usualScatterS)
	}
	n := len(f.edges)
	set(n, 0, 0, 0, 1)
	set(n+1, 0, 0, 0, 1)
	set(n+2, 0, 0, 0, 1)
	if d := f.obs.Depart; d != nil {
		set(n, x[0]-d.TimeS, 1, 0, usualScatterS)
	}
	if a := f.obs.Arrive; a != nil {
		t, _, _ := f.course.at(f.wholeM/v, f.wholeM/v)
		set(n+1, x[0]+t-a.TimeS, 1, -f.wholeM/(v*v), usualScatterS)
	}
	if s := f.obs.SpeedMS; s > 0 {
		set(n+2, v-s, 0, 1, max(f.obs.SpeedErrorMS, 1e-4*s))
	}
}
