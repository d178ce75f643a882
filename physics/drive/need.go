package drive

import (
	"math"

	"wheelroom/physics/building"
)

// MostLoad is the load up to which a lift must level, as a share of the rated
// load.
const MostLoad = 1.1

// HoldShare is the share of the rated load a brake must stop and hold
// (Washington WAC 296-96-05150).
const HoldShare = 1.25

// RatedSpeedMS returns the speed, m/s, which motor, gear and sheave give going
// up with the rated load on the fast winding; 0 where the motor does not carry
// that load.
func RatedSpeedMS(p *building.Plan) float64 {
	t := NewTrain(p)
	omega, _ := t.steady(Fast, 1, p.Lift.RatedLoadKG, t.travelM/2)
	return omega * t.leverM
}

// SheaveNeededM returns the sheave diameter, metres, at which RatedSpeedMS would
// be the plan's rated speed, all else unchanged; 0 where the motor does not
// carry the load.
func SheaveNeededM(p *building.Plan) float64 {
	q := *p
	// A wider sheave loads the motor more, so the proportion is taken again.
	for range 6 {
		given := RatedSpeedMS(&q)
		if given == 0 {
			return 0
		}
		q.Machine.SheaveDiameterM *= p.Machine.RatedSpeedMS / given
	}
	return q.Machine.SheaveDiameterM
}

// SynchronousSpeedMS returns the car's speed, m/s, at the speed of a winding's
// field.
func SynchronousSpeedMS(p *building.Plan, w Winding) float64 {
	t := NewTrain(p)
	return t.SynchronousRadS(w) * t.leverM
}

// LiftMarginNM returns the torque, N·m, which the motor has to spare in the
// worst of four cases: rated load up from the lowest landing and empty car down
// from the highest, to start on the fast winding and to creep on the slow one.
// Negative: that much is missing.
func LiftMarginNM(p *building.Plan) float64 {
	fast, slow := margins(p)
	return min(fast, slow)
}

// FastBreakdownNeededNM returns the breakdown torque of the fast winding, N·m,
// with which LiftMarginNM would be zero for it, its slip unchanged.
func FastBreakdownNeededNM(p *building.Plan) float64 {
	fast, _ := margins(p)
	t := NewTrain(p)
	return p.Motor.FastBreakdownNM * (1 - fast/t.fast.at(1))
}

// SlowBreakdownNeededNM is FastBreakdownNeededNM for the slow winding.
func SlowBreakdownNeededNM(p *building.Plan) float64 {
	_, slow := margins(p)
	t := NewTrain(p)
	return p.Motor.SlowBreakdownNM * (1 - slow/t.slow.most())
}

func margins(p *building.Plan) (fast, slow float64) {
	t := NewTrain(p)
	need := max(t.HandNM(p.Lift.RatedLoadKG, 1, 0), t.HandNM(0, -1, t.travelM))
	return t.fast.at(1) - need, t.slow.most() - need
}

// most returns the greatest torque of the curve between standstill and
// synchronous speed.
func (c *curve) most() float64 { return c.at(min(sqrt(c.r), 1)) }

// HandNM returns the torque at the handwheel, N·m, that just turns it in a
// direction, +1 up or −1 down, with the brake open and no winding fed. Zero or
// less: the load turns it by itself.
func (t *Train) HandNM(loadKG float64, dir int8, carM float64) float64 {
	b := t.bind(loadKG)
	return -b.excess(float64(dir), 0, 0, carM)
}

// Drift returns the direction in which the car sets off by itself when its
// brake is opened with no winding fed: +1 up, −1 down, 0 it stays.
func (t *Train) Drift(loadKG, carM float64) int8 {
	b := t.bind(loadKG)
	return int8(b.breaks(0, 0, carM))
}

// BrakeHoldShare returns the greatest load the brake holds with the car at the
// lowest landing, as a share of the rated load, with no help from friction.
func BrakeHoldShare(p *building.Plan) float64 {
	t := NewTrain(p)
	heavy := t.brakeNM/(GravityMS2*t.leverM) - t.balanceKG - t.ropeKGPerM*t.travelM
	return heavy / p.Lift.RatedLoadKG
}

// BrakeNeededNM returns the brake torque, N·m, at which BrakeHoldShare is
// HoldShare.
func BrakeNeededNM(p *building.Plan) float64 {
	t := NewTrain(p)
	return (HoldShare*p.Lift.RatedLoadKG + t.balanceKG + t.ropeKGPerM*t.travelM) * GravityMS2 * t.leverM
}

// AdvanceNeededM returns the advance, metres, which the plan's handwheel needs:
// the car comes within Settled of its creeping speed before the vane, both
// ways, at every load up to MostLoad. It is found by running the slow-downs;
// 0 where the motor does not carry the load.
func AdvanceNeededM(p *building.Plan) float64 {
	slow := 0.0
	whole := eachWay(p, func(t *Train, s State, dir float64) {
		slow = max(slow, slowDownM(p, t, s, dir))
	})
	if !whole {
		return 0
	}
	return slow + VaneHalfNeededM(p)
}

// VaneHalfNeededM returns the half-length of the level vanes, metres, which
// centres the stops on the landing: the mean of the shortest and the longest
// travel from a vane's edge to rest, both ways, up to MostLoad. It is found by
// running the stops; 0 where the motor does not carry the load.
func VaneHalfNeededM(p *building.Plan) float64 {
	lo, hi := math.Inf(1), 0.0
	whole := eachWay(p, func(t *Train, s State, dir float64) {
		stop := stopM(p, t, s, dir)
		lo, hi = min(lo, stop), max(hi, stop)
	})
	if !whole {
		return 0
	}
	return (lo + hi) / 2
}

// eachWay calls try with the car at its steady fast speed half-way up, in both
// directions, empty, balanced and at MostLoad. It stops and reports false
// where the motor does not carry a load.
func eachWay(p *building.Plan, try func(t *Train, s State, dir float64)) bool {
	t := NewTrain(p)
	for _, share := range [...]float64{0, p.Lift.Balance, MostLoad} {
		for _, dir := range [...]float64{1, -1} {
			s := t.Start(t.travelM / 2)
			s.LoadKG, s.BrakeLift, s.Fed, s.Running = share*p.Lift.RatedLoadKG, 1, Fast, Fast
			omega, ok := t.steady(Fast, dir, s.LoadKG, s.CarM)
			if _, slow := t.steady(Slow, dir, s.LoadKG, s.CarM); !ok || !slow {
				return false
			}
			s.OmegaRadS, s.AirgapNM = omega, t.fast.torque(omega, dir)
			try(&t, s, dir)
		}
	}
	return true
}

// slowDownM runs from the advance contact and returns the travel until the
// speed is within Settled of the creeping one, the contactors' times included.
func slowDownM(p *building.Plan, t *Train, s State, dir float64) float64 {
	c := &p.Control
	from, home := s.CarM, 0.0
	creep, _ := t.steady(Slow, dir, s.LoadKG, s.CarM)
	t.run(&s, Feed{Winding: Fast, Direction: int8(dir), BrakeCurrent: true}, c.RelayOperateS+c.ContactorReleaseS)
	t.run(&s, Feed{BrakeCurrent: true}, c.ContactorOperateS)
	const calm, fineS, longest = 1e-3, 1e-3, 60.0
	for at := 0.0; at < longest; at += fineS {
		t.Step(&s, Feed{Winding: Slow, Direction: int8(dir), BrakeCurrent: true}, fineS)
		off := math.Abs(s.OmegaRadS/creep - 1)
		if off > Settled {
			home = dir * (s.CarM - from)
		} else if off < Settled/10 && math.Abs(t.AccelMS2(&s)) < calm {
			break
		}
	}
	return home
}

// stopM runs from a vane's edge, met at creeping speed, and returns the travel
// to rest.
func stopM(p *building.Plan, t *Train, s State, dir float64) float64 {
	c := &p.Control
	omega, _ := t.steady(Slow, dir, s.LoadKG, s.CarM)
	s.OmegaRadS, s.AirgapNM, s.Fed, s.Running = omega, t.slow.torque(omega, dir), Slow, Slow
	from := s.CarM
	t.run(&s, Feed{Winding: Slow, Direction: int8(dir), BrakeCurrent: true}, c.LevelOperateS+c.RelayReleaseS+c.ContactorReleaseS)
	t.run(&s, Feed{BrakeCurrent: true}, p.Brake.SetS)
	const longest = 5.0
	for at := 0.0; at < longest && !t.AtRest(&s); at += SampleS {
		t.Step(&s, Feed{}, SampleS)
	}
	return dir * (s.CarM - from)
}

// run steps for a time under one feed.
func (t *Train) run(s *State, f Feed, forS float64) {
	for ; forS > 1e-9; forS -= SampleS {
		t.Step(s, f, min(forS, SampleS))
	}
}

// steady returns the speed, rad/s, at which a winding fed in a direction turns
// the train steadily with the brake lifted; ok is false, and the speed 0, where
// the winding does not carry the load between breakdown and breakdown.
func (t *Train) steady(w Winding, dir, loadKG, carM float64) (omega float64, ok bool) {
	b, c := t.bind(loadKG), t.curve(w)
	alpha := func(along float64) float64 {
		a, _ := b.accel(dir, c.torque(dir*along, dir), 0, carM)
		return dir * a
	}
	breakdown := sqrt(c.r)
	lo, hi := c.syncRadS*(1-min(breakdown, 1)), c.syncRadS*(1+breakdown)
	if !(alpha(lo) > 0 && alpha(hi) < 0) {
		return 0, false
	}
	for range 60 {
		if mid := lo + (hi-lo)/2; alpha(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return dir * lo, true
}
