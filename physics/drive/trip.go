package drive

import (
	"math"

	"wheelroom/physics/building"
)

// A Trip is one journey to be tried without a circuit: the contactors and
// relays between vane and motor count as fixed delays, taken from the plan.
type Trip struct {
	FromM, ToM float64 // heights above the lowest landing
	LoadKG     float64
	AdvanceM   float64 // before ToM at which the slow-down begins; 0: the plan's, for the way travelled
	VaneHalfM  float64 // half-length of the level vane; 0: the plan's
	StepS      float64 // of the integrator; 0: SampleS
}

// SampleS is the spacing of a record's samples, seconds.
const SampleS = 0.005

// A Record is a journey as it was run: evenly spaced samples, and marks.
// Motion is signed as the train's is, up positive.
type Record struct {
	SampleS   float64
	CarM      []float64
	SpeedMS   []float64
	AccelMS2  []float64
	AirgapNM  []float64
	MotorRadS []float64
	Running   []Winding // the winding that makes torque
	Marks     Marks
	Slow      Energy // up to the advance contact
	End       State  // at the last sample
}

// Marks are the instants of a journey in seconds since its first sample, NaN
// where it did not get so far, and the heights of the car that go with them.
// At OnS its direction and fast contactors were in; Try begins with that.
type Marks struct {
	OnS, LiftS, MoveS, AdvanceS, SlowS, VaneS, OffS, SetS, RestS float64
	FromM, ToM, AdvanceM, VaneM, RestM                           float64
}

// Try runs the trip on the plan's machine from contactors in until a quarter of
// a second after the car has come to rest; a machine that does not get there
// is left after twice the time the trip takes at creeping speed.
func Try(p *building.Plan, trip Trip) Record {
	t := NewTrain(p)
	dir := sign(trip.ToM - trip.FromM)
	if trip.AdvanceM == 0 {
		trip.AdvanceM = p.Selector.AdvanceUpM
		if dir < 0 {
			trip.AdvanceM = p.Selector.AdvanceDownM
		}
	}
	if trip.VaneHalfM == 0 {
		trip.VaneHalfM = p.Shaft.VaneHalfM
	}
	if trip.StepS == 0 {
		trip.StepS = SampleS
	}
	r := run{train: &t, trip: trip, dir: dir, state: t.Start(trip.FromM), feed: Feed{Winding: Fast, Direction: int8(dir)}}
	r.state.LoadKG = trip.LoadKG
	nan := math.NaN()
	r.rec = Record{SampleS: SampleS, Marks: Marks{0, nan, nan, nan, nan, nan, nan, nan, nan, trip.FromM, trip.ToM, nan, nan, nan}}
	r.plan(p)
	r.sample()
	patience := 20 + 2*dir*(trip.ToM-trip.FromM)/(t.slow.syncRadS*t.leverM)
	for k := 1; r.timeS < patience && !(r.timeS > r.rec.Marks.RestS+0.25); k++ {
		r.until(float64(k) * SampleS)
		r.sample()
	}
	r.rec.End = r.state
	return r.rec
}

// A stage is one thing that happens on a trip, in the order in which things do.
type stage uint8

const (
	brakeLifts stage = iota
	advanceMet
	fastOut
	slowIn
	vaneMet
	allOut
	brakeSets
	done
)

// A run is a trip under way.
type run struct {
	train *Train
	trip  Trip
	dir   float64
	state State
	feed  Feed
	timeS float64
	next  stage
	due   float64 // when next happens, where a delay decides it
	delay [done]float64
	rec   Record
}

// plan lays down the delay of each stage after the one before it.
func (r *run) plan(p *building.Plan) {
	c, b := &p.Control, &p.Brake
	r.delay = [done]float64{
		brakeLifts: b.LiftS,
		fastOut:    c.RelayOperateS + c.ContactorReleaseS,
		slowIn:     c.ContactorOperateS,
		allOut:     c.LevelOperateS + c.RelayReleaseS + c.ContactorReleaseS,
		brakeSets:  b.SetS,
	}
	r.due = r.delay[brakeLifts]
}

// place returns the height that decides the next stage; ok is false where a
// delay does.
func (r *run) place() (heightM float64, ok bool) {
	switch r.next {
	case advanceMet:
		return r.trip.ToM - r.dir*r.trip.AdvanceM, true
	case vaneMet:
		return r.trip.ToM - r.dir*r.trip.VaneHalfM, true
	}
	return 0, false
}

// until runs to a time, with every stage at its own instant.
func (r *run) until(timeS float64) {
	const least = 1e-9
	for timeS-r.timeS > least {
		h := min(timeS-r.timeS, r.trip.StepS)
		at, byPlace := r.place()
		if byPlace && r.dir*(at-r.state.CarM) <= 0 {
			r.happen()
			continue
		}
		if !byPlace && r.next < done {
			if r.due-r.timeS <= least {
				r.happen()
				continue
			}
			h = min(h, r.due-r.timeS)
		}
		h = r.step(h, func(s *State) bool { return byPlace && r.dir*(at-s.CarM) <= 0 })
		r.timeS += h
	}
}

// step moves on by h, or to the instant within it at which the car is there or
// the shaft sets off or comes to rest, and returns the time it took.
func (r *run) step(h float64, there func(*State) bool) float64 {
	before := r.state
	still := r.train.AtRest(&before)
	try := func(h float64) bool {
		r.state = before
		r.train.Step(&r.state, r.feed, h)
		return there(&r.state) || r.train.AtRest(&r.state) != still
	}
	if try(h) {
		lo := 0.0
		for h-lo > 1e-9 {
			if mid := lo + (h-lo)/2; try(mid) {
				h = mid
			} else {
				lo = mid
			}
		}
		try(h)
	}
	m := &r.rec.Marks
	switch now := r.train.AtRest(&r.state); {
	case still && !now && math.IsNaN(m.MoveS):
		m.MoveS = r.timeS + h
	case !still && now && r.next >= brakeSets:
		m.RestS, m.RestM = r.timeS+h, r.state.CarM
	}
	return h
}

// happen brings the next stage about.
func (r *run) happen() {
	m := &r.rec.Marks
	switch r.next {
	case brakeLifts:
		r.feed.BrakeCurrent, m.LiftS = true, r.timeS
	case advanceMet:
		m.AdvanceS, m.AdvanceM, r.rec.Slow = r.timeS, r.state.CarM, r.state.Energy
	case fastOut:
		r.feed.Winding = Off
	case slowIn:
		r.feed.Winding, m.SlowS = Slow, r.timeS
	case vaneMet:
		m.VaneS, m.VaneM = r.timeS, r.state.CarM
	case allOut:
		r.feed.Winding, r.feed.Direction, m.OffS = Off, 0, r.timeS
	case brakeSets:
		r.feed.BrakeCurrent, m.SetS = false, r.timeS
	}
	r.next++
	if r.next < done {
		r.due = r.timeS + r.delay[r.next]
	}
}

func (r *run) sample() {
	c := &r.rec
	c.CarM = append(c.CarM, r.state.CarM)
	c.SpeedMS = append(c.SpeedMS, r.train.SpeedMS(&r.state))
	c.AccelMS2 = append(c.AccelMS2, r.train.AccelMS2(&r.state))
	c.AirgapNM = append(c.AirgapNM, r.state.AirgapNM)
	c.MotorRadS = append(c.MotorRadS, r.state.OmegaRadS)
	c.Running = append(c.Running, r.state.Running)
}
