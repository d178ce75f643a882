package drive

// A bound is the train with a load in the car: what the equation of motion
// needs at every stage of a step.
//
// Counted in the direction of turning, the gear has to pass on the torque
// W = load + guides + loadJ·α, as it would be at the motor shaft without loss.
// Where W > 0 the motor drives and gives W/η for it; where W < 0 the load
// drives and W·η' of it arrives, η' being the reverse efficiency, or 0 for a
// self-locking gear, which lets nothing through. So
//
//	motorJ·α = T − shaft − brake − (W/η or W·η')
type bound struct {
	t                  *Train
	loadJ              float64 // car, counterweight, load and ropes, kg·m²
	perForward, perRev float64 // 1/inertia as the motor feels it
	loadNM, ropeNMPerM float64 // torque of the unbalanced load with the car at 0, and its fall for each metre
}

func (t *Train) bind(loadKG float64) bound {
	j := float64((t.massKG + loadKG) * t.leverM * t.leverM)
	g := float64(GravityMS2 * t.leverM)
	return bound{
		t: t, loadJ: j,
		perForward: 1 / (t.motorJ + float64(j*t.forward)),
		perRev:     1 / (t.motorJ + float64(j*t.reverse)),
		loadNM:     float64(g * (t.balanceKG + loadKG + float64(t.ropeKGPerM*t.travelM))),
		ropeNMPerM: float64(2 * g * t.ropeKGPerM),
	}
}

// accel returns the angular acceleration while the shaft turns in direction
// dir, and the torque that goes into the gear, both raising the car positive.
func (b *bound) accel(dir, torque, brake, carM float64) (alpha, gearNM float64) {
	t := b.t
	load := float64(dir*(b.loadNM-float64(b.ropeNMPerM*carM))) + t.guideNM
	drive := float64(dir*torque) - t.shaftNM - brake
	// The sign of W decides which way the gear works; W is linear in α and
	// its sign is the same whichever way is assumed.
	ratio, per := t.forward, b.perForward
	if float64(load*t.motorJ)+float64(b.loadJ*drive) < 0 {
		ratio, per = t.reverse, b.perRev
	}
	a := (drive - float64(load*ratio)) * per
	return dir * a, dir * ratio * (load + float64(b.loadJ*a))
}

// breaks returns the direction in which a shaft at rest sets off, or 0 where
// friction, gear and brake hold it.
func (b *bound) breaks(torque, brake, carM float64) float64 {
	for _, dir := range [...]float64{1, -1} {
		if b.excess(dir, torque, brake, carM) > 0 {
			return dir
		}
	}
	return 0
}

// excess returns how far the torque in direction dir exceeds what holds a shaft
// at rest.
func (b *bound) excess(dir, torque, brake, carM float64) float64 {
	t := b.t
	load := float64(dir*(b.loadNM-float64(b.ropeNMPerM*carM))) + t.guideNM
	if load > 0 {
		load = float64(load * t.forward)
	} else {
		load = float64(load * t.reverse)
	}
	return float64(dir*torque) - t.shaftNM - brake - load
}

// Step moves the machine on by h seconds, 0 < h ≤ 5 ms, under a feed that holds
// for the whole step. The instants at which the brake's ramp ends, the pause
// between windings is over, or the shaft comes to rest or breaks away lie
// inside the step and are located there.
//
// The pause between windings belongs to the motor: a winding other than the
// one fed last makes no torque until Motor.ChangeS has passed since that one
// went, however soon it is fed. Whatever the contactors took counts towards it.
func (t *Train) Step(s *State, f Feed, h float64) {
	b := t.bind(s.LoadKG)
	s.HandNM = f.HandNM
	lifting := f.BrakeCurrent || f.HeldOpen
	fed := f.Winding
	if f.Direction == 0 {
		fed = Off
	}
	const least = 1e-12 // a rest shorter than this is rounding
	for h > least {
		dt := min(h, t.finestS)
		s.Running = fed
		if fed != Off && s.Fed != fed && s.Fed != Off && t.changeS-s.UnfedS > least {
			s.Running = Off
			dt = min(dt, t.changeS-s.UnfedS)
		}
		ramp := t.ramp(s.BrakeLift, lifting, &dt)
		w := way{bound: &b, ramp: t.brakeNM * ramp, handNM: f.HandNM}
		if s.Running != Off {
			w.curve, w.field = t.curve(s.Running), float64(f.Direction)
		} else {
			s.AirgapNM = 0
		}
		dt = w.advance(s, dt)

		s.BrakeLift = snap(s.BrakeLift + float64(ramp*dt))
		if s.Running != Off {
			s.Fed, s.UnfedS = s.Running, 0
		} else {
			s.UnfedS = min(s.UnfedS+dt, t.changeS)
		}
		h -= dt
	}
}

// ramp returns the rate at which the brake lifts, 1/s, and shortens dt to the
// end of the ramp.
func (t *Train) ramp(lift float64, lifting bool, dt *float64) float64 {
	span, left, dir := t.setRampS, lift, -1.0
	if lifting {
		span, left, dir = t.liftRampS, 1-lift, 1
	}
	if left == 0 {
		return 0
	}
	const soonest = 1e-9 // a brake without a ramp still needs a rate
	rate := 1 / max(span, soonest)
	*dt = min(*dt, left/rate)
	return dir * rate
}

// snap keeps a lift within 0 and 1 and takes up rounding at either end.
func snap(lift float64) float64 {
	const close = 1e-12
	switch {
	case lift < close:
		return 0
	case lift > 1-close:
		return 1
	}
	return lift
}
