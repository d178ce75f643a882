package fitting

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/match"
)

// A course turns distance into time. The unit of distance is a second at full
// speed, so that a course is the same for every full speed: setting off takes
// its time and slowing down takes its time, whatever lies between.
type course struct {
	motion     match.Motion
	start, end ramp // setting off, and slowing down seen backwards from rest
}

// A ramp is a stretch that begins at rest: the time to each distance, in even
// steps of it.
type ramp struct {
	stepX, wholeX, wholeS float64
	timeS                 []float64
}

// beyondSlope is how time runs on where there is no course any more, before it
// began and after it ended: slowly enough that such an edge fits badly, evenly
// enough that a search finds back.
const beyondSlope = 4.0

// at returns the time to distance x and its slope.
func (r *ramp) at(x float64) (timeS, slope float64) {
	switch {
	case x < 0:
		return x * beyondSlope, beyondSlope
	case x >= r.wholeX:
		return r.wholeS + x - r.wholeX, 1
	}
	i := min(int(x/r.stepX), len(r.timeS)-2)
	slope = (r.timeS[i+1] - r.timeS[i]) / r.stepX
	return r.timeS[i] + (x-float64(i)*r.stepX)*slope, slope
}

// inverse returns the distance covered in a time.
func (r *ramp) inverse(timeS float64) float64 {
	switch {
	case timeS < 0:
		return timeS / beyondSlope
	case timeS >= r.wholeS:
		return r.wholeX + timeS - r.wholeS
	}
	lo, hi := 0, len(r.timeS)-1
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; r.timeS[mid] <= timeS {
			lo = mid
		} else {
			hi = mid
		}
	}
	return r.stepX * (float64(lo) + (timeS-r.timeS[lo])/(r.timeS[hi]-r.timeS[lo]))
}

// newRamp makes the table of a ramp from distances at even times, which begin
// with rest.
func newRamp(x []float64, sampleS float64) ramp {
	const steps = 200
	r := ramp{wholeX: x[len(x)-1], wholeS: float64(len(x)-1) * sampleS}
	r.stepX = r.wholeX / steps
	i := 0
	for k := range steps + 1 {
		want := float64(k) * r.stepX
		for i < len(x)-2 && x[i+1] < want {
			i++
		}
		share := 0.0
		if d := x[i+1] - x[i]; d > 0 {
			share = min(max((want-x[i])/d, 0), 1)
		}
		r.timeS = append(r.timeS, (float64(i)+share)*sampleS)
	}
	return r
}

// steady is the course at one speed.
func steady() course {
	still := ramp{stepX: 1, timeS: []float64{0, 1}}
	return course{motion: match.Steady, start: still, end: still}
}

// driven runs the plan's machine between two floors; ok is false where it does
// not get there.
func driven(p *building.Plan, from, to int) (c course, ok bool) {
	rec := drive.Try(p, drive.Trip{FromM: p.Floors[from].HeightM, ToM: p.Floors[to].HeightM, LoadKG: p.Lift.LoadKG})
	m := rec.Marks
	if math.IsNaN(m.MoveS) || math.IsNaN(m.AdvanceS) || math.IsNaN(m.RestS) {
		return c, false
	}
	move, slow, rest := int(math.Ceil(m.MoveS/rec.SampleS)), int(m.AdvanceS/rec.SampleS), int(m.RestS/rec.SampleS)
	full := math.Abs(rec.SpeedMS[slow])
	// Setting off ends where the speed has come within a fiftieth of the full one.
	settled := slow
	for settled > move+1 && math.Abs(math.Abs(rec.SpeedMS[settled])-full) < full/50 {
		settled--
	}
	c.motion = match.Driven
	var x []float64
	for i := move; i <= settled; i++ {
		x = append(x, math.Abs(rec.CarM[i]-rec.CarM[move])/full)
	}
	c.start = newRamp(x, rec.SampleS)
	x = x[:0]
	for i := rest; i >= slow; i-- {
		x = append(x, math.Abs(rec.CarM[rest]-rec.CarM[i])/full)
	}
	c.end = newRamp(x, rec.SampleS)
	return c, full > 0
}

// lostS is the time that a whole trip takes longer than at full speed.
func (c *course) lostS() float64 {
	return c.start.wholeS - c.start.wholeX + c.end.wholeS - c.end.wholeX
}

// at returns the time since setting off at distance x of a trip over the whole
// distance, and its slopes by x and by the whole.
func (c *course) at(x, whole float64) (timeS, byX, byWhole float64) {
	if c.motion == match.Steady {
		return x, 1, 0
	}
	if left := whole - x; left < c.end.wholeX {
		t, slope := c.end.at(left)
		return whole + c.lostS() - t, slope, 1 - slope
	}
	t, slope := c.start.at(x)
	return t, slope, 0
}

// inverse returns the distance a time after setting off.
func (c *course) inverse(timeS, whole float64) float64 {
	if c.motion == match.Steady {
		return timeS
	}
	if left := whole + c.lostS() - timeS; left < c.end.wholeS {
		return whole - c.end.inverse(left)
	}
	return c.start.inverse(timeS)
}
