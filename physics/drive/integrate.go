package drive

// A way is the train under conditions that change smoothly: one winding or
// none, the brake's ramp under way or over.
type way struct {
	*bound
	curve  *curve // nil: no winding makes torque
	field  float64
	ramp   float64 // fall of the brake's torque, N·m/s
	handNM float64
}

// advance moves the state on by dt, or to the instant before that at which the
// shaft comes to rest or breaks away, and returns the time it took.
func (w *way) advance(s *State, dt float64) float64 {
	brake := w.t.brakeLeft(s)
	dir := sign(s.OmegaRadS)
	if dir == 0 {
		if dir = w.breaks(w.airgap(s.OmegaRadS, s.AirgapNM)+w.handNM, brake, s.CarM); dir == 0 {
			return w.rest(s, brake, dt)
		}
	}
	n := *s
	w.runge(&n, dir, brake, dt)
	if float64(dir*n.OmegaRadS) > 0 {
		*s = n
		return dt
	}
	if s.OmegaRadS == 0 {
		w.hold(s, dt)
		return dt
	}
	return w.halt(s, dir, brake, dt, n.OmegaRadS)
}

// halt moves the state on to the instant within dt at which the speed, after
// dt beyond zero at end, passes zero: regula falsi with the Illinois weight.
func (w *way) halt(s *State, dir, brake, dt, end float64) float64 {
	const sharp = 1e-12
	lo, hi := 0.0, dt
	fLo, fHi := dir*s.OmegaRadS, dir*end
	at := hi
	var n State
	side := 0
	for range 60 {
		if hi-lo <= sharp {
			break
		}
		at = lo + float64((hi-lo)*fLo/(fLo-fHi))
		n = *s
		w.runge(&n, dir, brake, at)
		f := dir * n.OmegaRadS
		if f > 0 {
			lo, fLo = at, f
			if side == 1 {
				fHi /= 2
			}
			side = 1
		} else {
			hi, fHi = at, f
			if side == -1 {
				fLo /= 2
			}
			side = -1
		}
		if f < sharp && f > -sharp {
			break
		}
	}
	n = *s
	w.runge(&n, dir, brake, at)
	n.OmegaRadS = 0
	*s = n
	return at
}

// rest lets a shaft that is held stand for dt, or until it breaks away.
func (w *way) rest(s *State, brake, dt float64) float64 {
	free := func(h float64) bool {
		torque, _ := w.settle(s.AirgapNM, h)
		return w.breaks(torque+w.handNM, brake-float64(w.ramp*h), s.CarM) != 0
	}
	if free(dt) {
		// Held at 0, free at dt: halve down to the instant.
		lo, hi := 0.0, dt
		for hi-lo > 1e-9 {
			if mid := lo + float64((hi-lo)/2); free(mid) {
				hi = mid
			} else {
				lo = mid
			}
		}
		dt = hi
	}
	w.hold(s, dt)
	return dt
}

// hold keeps the shaft still for dt; only the airgap torque changes.
func (w *way) hold(s *State, dt float64) {
	var impulse float64
	s.AirgapNM, impulse = w.settle(s.AirgapNM, dt)
	if w.curve == nil {
		return
	}
	heat := float64(impulse * w.field * w.curve.syncRadS)
	stator := float64(w.curve.a * max(heat, 0))
	s.RotorHeatJ += heat
	s.StatorHeatJ += stator
	s.DrawnJ += max(heat+stator, 0)
	s.ReturnedJ -= min(heat+stator, 0)
}

// settle returns the airgap torque of a shaft at rest after h, and its integral
// over h: an exponential towards the steady torque.
func (w *way) settle(torque, h float64) (end, impulse float64) {
	target, lag := w.target(0), w.t.lagS
	if lag == 0 {
		return target, float64(target * h)
	}
	fade := exp(-h / lag)
	gap := torque - target
	return target + float64(gap*fade), float64(target*h) + float64(gap*lag*(1-fade))
}

// target returns the steady airgap torque at a speed.
func (w *way) target(omega float64) float64 {
	if w.curve == nil {
		return 0
	}
	return w.curve.torque(omega, w.field)
}

// airgap returns the airgap torque in force: the state's own, or the steady
// one where the plan gives no lag.
func (w *way) airgap(omega, torque float64) float64 {
	if w.t.lagS == 0 {
		return w.target(omega)
	}
	return torque
}

// runge moves the state on by h with the classical Runge-Kutta method of fourth
// order, the shaft turning in direction dir throughout. Heat and work are
// integrated with the weights of the same stages, so the balance of energy
// holds as closely as the motion does.
func (w *way) runge(s *State, dir, brake, h float64) {
	half := h / 2
	omega, car, torque := s.OmegaRadS, s.CarM, s.AirgapNM
	k := w.t.leverM
	var turn [4]float64
	var alpha, pull [4]float64
	e := s.Energy

	stage := [...]struct{ step, weight float64 }{{0, h / 6}, {half, h / 3}, {half, h / 3}, {h, h / 6}}
	for i, st := range &stage {
		o, y, a := omega, car, torque
		if i > 0 {
			o += float64(st.step * alpha[i-1])
			y += float64(st.step * k * turn[i-1])
			a += float64(st.step * pull[i-1])
		}
		b := brake - float64(w.ramp*st.step)
		target := w.target(o)
		if w.t.lagS == 0 {
			a = target
		} else {
			pull[i] = (target - a) / w.t.lagS
		}
		turn[i] = o
		var gearNM float64
		alpha[i], gearNM = w.accel(dir, a+w.handNM, b, y)
		w.flow(&e, st.weight, dir, o, alpha[i], gearNM, a, b, y)
	}
	sum := func(v *[4]float64) float64 { return float64(h / 6 * (v[0] + float64(2*(v[1]+v[2])) + v[3])) }
	s.OmegaRadS = omega + sum(&alpha)
	swept := sum(&turn)
	s.ShaftRad += swept
	s.CarM = car + float64(k*swept)
	s.AirgapNM = w.airgap(s.OmegaRadS, torque+sum(&pull))
	s.Energy = e
}

// flow adds to the counters what flows in the time span at one stage.
func (w *way) flow(e *Energy, span, dir, omega, alpha, gearNM, airgapNM, brakeNM, carM float64) {
	t := w.t
	turned := span * omega
	e.HandJ += float64(w.handNM * turned)
	// At a last stage beyond standstill dir still stands for the sense of
	// friction: what counts is friction's own work, signed.
	sweep := dir * turned
	e.BrakeHeatJ += float64(brakeNM * sweep)
	e.FrictionJ += float64((t.shaftNM + t.guideNM) * sweep)
	through := w.loadNM - float64(w.ropeNMPerM*carM) + float64(dir*t.guideNM) + float64(w.loadJ*alpha)
	e.GearHeatJ += float64((gearNM - through) * turned)
	if w.curve == nil {
		return
	}
	shaft := float64(airgapNM * turned)
	field := float64(airgapNM * span * w.field * w.curve.syncRadS)
	rotor := field - shaft
	stator := float64(w.curve.a * max(rotor, 0))
	e.RotorHeatJ += rotor
	e.StatorHeatJ += stator
	e.DrawnJ += max(field+stator, 0)
	e.ReturnedJ -= min(field+stator, 0)
}
