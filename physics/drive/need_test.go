package drive

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/physics/building"
)

func TestRatedSpeed(t *testing.T) {
	p := house()
	// Synchronous: 1500 rpm on 0.55 m behind 41:1.
	assert.InDelta(t, 1500./60*math.Pi*0.55/41, SynchronousSpeedMS(&p, Fast), 1e-12)
	assert.InDelta(t, SynchronousSpeedMS(&p, Fast)/4, SynchronousSpeedMS(&p, Slow), 1e-12)
	assert.Zero(t, SynchronousSpeedMS(&p, Off))

	// The steady speed is where a long trip ends up.
	tr := NewTrain(&p)
	s := tr.Start(0)
	s.LoadKG = p.Lift.RatedLoadKG
	tr.run(&s, Feed{Winding: Fast, Direction: 1, BrakeCurrent: true}, 20)
	assert.InDelta(t, tr.SpeedMS(&s), RatedSpeedMS(&p), 1e-6)
	assert.InDelta(t, 0, tr.AccelMS2(&s), 1e-6)
	// A plan's limit: within 8 % of the speed it names.
	assert.InEpsilon(t, p.Machine.RatedSpeedMS, RatedSpeedMS(&p), 0.08)

	for _, rated := range []float64{0.6, 1.0, 1.4} {
		q := house()
		q.Machine.RatedSpeedMS = rated
		q.Machine.SheaveDiameterM = SheaveNeededM(&q)
		assert.InDelta(t, rated, RatedSpeedMS(&q), 1e-4)
	}

	p.Motor.FastBreakdownNM = 20
	assert.Zero(t, SheaveNeededM(&p))
	assert.Zero(t, RatedSpeedMS(&p), "a motor that does not carry the load")
}

func TestLiftMargin(t *testing.T) {
	p := house()
	assert.Positive(t, LiftMarginNM(&p))
	starts := func(p building.Plan, load float64, dir int8) bool {
		tr := NewTrain(&p)
		s := tr.Start(0)
		if dir < 0 {
			s = tr.Start(p.TravelM())
		}
		s.LoadKG = load
		tr.run(&s, Feed{Winding: Fast, Direction: dir, BrakeCurrent: true}, 3)
		return float64(dir)*tr.SpeedMS(&s) > 0
	}
	for _, balance := range []float64{0.45, 0.7} { // the load, then the counterweight, is the harder
		p.Lift.Balance = balance
		need := FastBreakdownNeededNM(&p)
		for _, k := range []struct {
			share float64
			want  bool
		}{{1.01, true}, {0.99, false}} {
			p.Motor.FastBreakdownNM = need * k.share
			assert.Equal(t, k.want, LiftMarginNM(&p) > 0)
			assert.Equal(t, k.want, starts(p, p.Lift.RatedLoadKG, 1) && starts(p, 0, -1), "balance %v", balance)
		}
		p.Motor.FastBreakdownNM = need
		assert.InDelta(t, 0, LiftMarginNM(&p), 1e-9)
		p.Motor.FastBreakdownNM = 160
		p.Motor.SlowBreakdownNM = SlowBreakdownNeededNM(&p)
		assert.InDelta(t, 0, LiftMarginNM(&p), 1e-9)
		p.Motor.SlowBreakdownNM = 170
	}
}

func TestBrakeHold(t *testing.T) {
	p := house()
	assert.Greater(t, BrakeHoldShare(&p), HoldShare)
	// Washington WAC 296-96-05150: 125 % of the rated load. A brake of the
	// needed torque holds that in a machine without friction, and no more.
	p.Lift.GuideFrictionN, p.Machine.ShaftFrictionNM, p.Machine.GearEfficiency = 0, 0, 1
	p.Lift.RopeKGPerM = 2
	p.Brake.TorqueNM = BrakeNeededNM(&p)
	assert.InDelta(t, HoldShare, BrakeHoldShare(&p), 1e-12)
	for _, k := range []struct {
		share float64
		holds bool
	}{{1.249, true}, {1.251, false}} {
		tr := NewTrain(&p)
		s := tr.Start(0)
		s.LoadKG = k.share * p.Lift.RatedLoadKG
		tr.run(&s, Feed{}, 1)
		assert.Equal(t, k.holds, tr.AtRest(&s), "%v of the rated load", k.share)
	}
}

func TestAdvanceAndVaneNeeded(t *testing.T) {
	// Advance ≈ 0.50 + 0.50 J m and vane half ≈ 27.5 + 16.5 J mm came from a
	// prototype of this model.
	for _, wheel := range []float64{0.05, 0.3, 0.6, 1.2, 2.4} {
		p := withWheel(wheel)
		assert.InDelta(t, 0.50+0.50*wheel, AdvanceNeededM(&p), 0.04, "wheel %v", wheel)
		assert.LessOrEqual(t, AdvanceNeededM(&p), p.Selector.AdvanceUpM+0.01, "wheel %v", wheel)
		assert.InDelta(t, 27.5+16.5*wheel, 1000*VaneHalfNeededM(&p), 2, "wheel %v", wheel)

		// With what is needed, whole trips settle before the vane and their
		// stops straddle the landing.
		p.Selector.AdvanceUpM, p.Selector.AdvanceDownM = AdvanceNeededM(&p), AdvanceNeededM(&p)
		p.Shaft.VaneHalfM = VaneHalfNeededM(&p)
		tr := NewTrain(&p)
		lo, hi, _, _ := spread(&p, 9.6)
		assert.InDelta(t, 0, lo+hi, 0.003, "wheel %v", wheel)
		trips(&p, 9.6, func(trip Trip, dir float64) {
			r := Try(&p, trip)
			creep, _ := tr.steady(Slow, dir, trip.LoadKG, 9.6)
			assert.InEpsilon(t, dir*creep*tr.MetresPerRad(), r.Figures(&tr).VaneSpeedMS, Settled+1e-3, "wheel %v, %+v", wheel, trip)
		})
	}
	p := house()
	p.Motor.SlowBreakdownNM = 20
	assert.Zero(t, AdvanceNeededM(&p))
	assert.Zero(t, VaneHalfNeededM(&p))
}

func TestHandWinding(t *testing.T) {
	p := house()
	tr := NewTrain(&p)
	for _, k := range []struct {
		load float64
		want int8
	}{{0, 1}, {0.45 * 630, 0}, {630, -1}} {
		assert.Equal(t, k.want, tr.Drift(k.load, 8), "load %v", k.load)
		up, down := tr.HandNM(k.load, 1, 8), tr.HandNM(k.load, -1, 8)
		assert.Equal(t, k.want > 0, up <= 0)
		assert.Equal(t, k.want < 0, down <= 0)
		// A hair more than that torque moves the car, a hair less does not.
		if up > 0 {
			for _, hand := range []struct {
				nm    float64
				moves bool
			}{{up + 0.01, true}, {up - 0.01, false}} {
				s := tr.Start(8)
				s.LoadKG, s.BrakeLift = k.load, 1
				tr.Step(&s, open(hand.nm), 0.005)
				assert.Equal(t, hand.moves, s.OmegaRadS > 0)
			}
		}
	}
	// One turn of the handwheel: π·0.55 m / 41 of car.
	assert.InDelta(t, 0.04214, 2*math.Pi*tr.MetresPerRad(), 1e-5)

	// Held open and let go, the empty car runs away upward ever faster; the
	// brake, let go in its turn, stops it.
	s := tr.Start(3)
	s.LoadKG = 0
	tr.run(&s, Feed{HeldOpen: true}, 2)
	early := tr.SpeedMS(&s)
	tr.run(&s, Feed{HeldOpen: true}, 2)
	assert.Greater(t, tr.SpeedMS(&s), 1.9*early)
	tr.run(&s, Feed{}, 2)
	assert.True(t, tr.AtRest(&s))
}

func TestReverseEfficiency(t *testing.T) {
	// 2 − 1/forward (Norton, Machine Design, from memory).
	assert.InDelta(t, 0.461538, ReverseEfficiency(0.65), 1e-6)
	assert.InDelta(t, 0, ReverseEfficiency(0.5), 1e-15)
	assert.Negative(t, ReverseEfficiency(0.4))

	// A self-locking gear holds any load with the brake open; the motor moves
	// it both ways.
	for _, eff := range []float64{0.3, 0.45, 0.5} {
		p := house()
		p.Machine.GearEfficiency = eff
		tr := NewTrain(&p)
		for _, load := range []float64{0, 630, 1000} {
			s := tr.Start(8)
			s.LoadKG = load
			tr.run(&s, Feed{HeldOpen: true}, 1)
			assert.True(t, tr.AtRest(&s))
			assert.Equal(t, 8.0, s.CarM)
			assert.Zero(t, tr.Drift(load, 8))
			if load > 630 {
				continue
			}
			for _, dir := range []int8{1, -1} {
				n := s
				tr.run(&n, Feed{Winding: Slow, Direction: dir, BrakeCurrent: true}, 3)
				assert.InDelta(t, 0.24, float64(dir)*tr.SpeedMS(&n), 0.04, "efficiency %v, load %v", eff, load)
			}
		}
	}
}
