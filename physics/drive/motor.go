package drive

import "math"

func sqrt(x float64) float64 { return math.Sqrt(x) }

// exp is e^x in the form that gives the same bits on every processor.
func exp(x float64) float64 { return math.Exp2(x * math.Log2E) }

func sign(x float64) float64 {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// SynchronousRadS returns the speed of the rotating field, rad/s, for a supply
// in hertz and a number of poles: 4πf/p, which is 120 f/p turns a minute.
func SynchronousRadS(hz float64, poles int) float64 { return 4 * math.Pi * hz / float64(poles) }

// A curve is torque against speed of one winding, by the generalised Kloss
// equation with stator resistance:
//
//	T/Tb = 2(1 + a·sb) / (s/sb + sb/s + 2a·sb),  a = R1'/R2
//
// It is kept as T = p·s / (s² + q·s + r), which has no pole at s = 0.
type curve struct {
	syncRadS float64
	perSync  float64 // 1/syncRadS
	p, q, r  float64
	a        float64
}

func newCurve(syncRadS, breakdownNM, breakdownSlip, statorRatio float64) curve {
	sb, a := breakdownSlip, statorRatio
	if !(syncRadS > 0 && sb > 0 && a >= 0 && a*sb < 1) {
		panic("drive: no such motor: breakdown slip times stator ratio must be under 1")
	}
	return curve{
		syncRadS: syncRadS, perSync: 1 / syncRadS,
		p: float64(2 * (1 + float64(a*sb)) * sb * breakdownNM), q: float64(2 * a * sb * sb), r: float64(sb * sb), a: a,
	}
}

// at returns the steady torque at a slip, positive with the field.
func (c *curve) at(slip float64) float64 {
	return float64(c.p*slip) / (float64((slip+c.q)*slip) + c.r)
}

// torque returns the steady torque at a shaft speed with the field turning in
// the given direction, +1 or -1.
func (c *curve) torque(omega, dir float64) float64 {
	return float64(dir * c.at(1-float64(dir*omega*c.perSync)))
}

// slope returns the fall of torque for a rise of speed at synchronous speed,
// N·m·s.
func (c *curve) slope() float64 { return c.p / c.r * c.perSync }

// curve returns the winding's curve; w is Fast or Slow.
func (t *Train) curve(w Winding) *curve {
	if w == Slow {
		return &t.slow
	}
	return &t.fast
}

// SynchronousRadS returns the speed of the winding's field, rad/s; 0 for Off.
func (t *Train) SynchronousRadS(w Winding) float64 {
	if w == Off {
		return 0
	}
	return t.curve(w).syncRadS
}

// SteadyNM returns the torque which a winding fed upward settles to at a shaft
// speed, N·m; 0 for Off. It is the curve of torque against speed.
func (t *Train) SteadyNM(w Winding, omegaRadS float64) float64 {
	if w == Off {
		return 0
	}
	return t.curve(w).torque(omegaRadS, 1)
}

// ReverseEfficiency returns the efficiency of a worm gear driven from its
// wheel, 2 − 1/forward (Norton, Machine Design). At or below zero the gear is
// self-locking: no load turns the worm.
func ReverseEfficiency(forward float64) float64 { return 2 - 1/forward }
