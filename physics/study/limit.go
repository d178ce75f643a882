package study

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/phrase"
)

// Bounds by which a ride is judged, from memory: the acceleration usual up to
// 1 m/s and the most that is borne, m/s²; the jerk of a smooth ride, m/s³
// (Barney; CIBSE Guide D, both values from memory).
const (
	UsualMS2  = 0.8
	MostMS2   = 1.5
	SmoothMS3 = 2.2
)

// A Limit is what stands beside a figure: words, and whether the figure keeps
// to it where it can be judged.
type Limit struct {
	Say         phrase.Phrase // empty where there is nothing to say
	Judged, Met bool
}

// Beside returns what a figure of Table or Make is to be read against on a
// plan. A figure that was not reached is judged by nothing.
func Beside(p *building.Plan, e Entry) Limit {
	l := beside(p, e)
	if math.IsNaN(e.Value) {
		l.Judged, l.Met = false, false
	}
	return l
}

func beside(p *building.Plan, e Entry) Limit {
	judged := func(met bool, id string, pairs ...any) Limit {
		return Limit{Say: phrase.Of("drive.limit-"+id, pairs...), Judged: true, Met: met}
	}
	told := func(id string, pairs ...any) Limit { return Limit{Say: phrase.Of("drive.limit-"+id, pairs...)} }
	switch e.Key {
	case "peak-speed":
		return told("rated", "speed", phrase.Num(p.Machine.RatedSpeedMS, 2))
	case "peak-acceleration", "peak-deceleration", "brake-deceleration", "a95":
		return judged(e.Value <= MostMS2, "acceleration", "usual", phrase.Num(UsualMS2, 1), "most", phrase.Num(MostMS2, 1))
	case "start-jerk", "change-jerk":
		return judged(e.Value <= SmoothMS3, "jerk", "most", phrase.Num(SmoothMS3, 1))
	case "stop-jerk":
		return told("stop-jerk")
	case "slow-down-distance":
		has := min(p.Selector.AdvanceUpM, p.Selector.AdvanceDownM) - p.Shaft.VaneHalfM
		return judged(e.Value <= has, "slow-down", "has", phrase.Num(has, 2))
	case "vane-speed":
		creep := drive.SynchronousSpeedMS(p, drive.Slow)
		// Braking, the slow winding settles a little above its synchronous speed.
		return judged(e.Value <= 1.1*creep, "creep", "speed", phrase.Num(creep, 2))
	case "levelling-error":
		size := math.Abs(e.Value)
		return judged(size <= LevelMM, "level", "wanted", phrase.Num(LevelMM, 0), "usual", phrase.Num(OpenLoopMM, 0))
	case "rated-speed":
		return told("rated", "speed", phrase.Num(p.Machine.RatedSpeedMS, 2))
	case "brake-holds":
		return judged(e.Value >= 100*drive.HoldShare, "brake", "percent", phrase.Num(100*drive.HoldShare, 0))
	case "gear-reverse":
		if e.Value <= 0 {
			return told("locks")
		}
	}
	return Limit{}
}
