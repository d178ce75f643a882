package drive

// Energy is what has flowed since the start, joules. All counters begin at zero
// and rise, but HandJ has a sign, and RotorHeatJ may give a little back in the
// instant in which the slip changes sign and the lagging torque does not yet.
// At any instant
//
//	DrawnJ − ReturnedJ + HandJ =
//	    rise of StoredJ + RotorHeatJ + StatorHeatJ + BrakeHeatJ + GearHeatJ + FrictionJ
//
// The load may change only between two balances: what is carried in or out
// brings its own height with it.
type Energy struct {
	DrawnJ      float64 // from the supply
	ReturnedJ   float64 // to the supply, by a motor driven above its field
	HandJ       float64 // work by hand at the handwheel
	RotorHeatJ  float64
	StatorHeatJ float64 // a = R1'/R2 times the rotor's, both carrying one current
	BrakeHeatJ  float64
	GearHeatJ   float64
	FrictionJ   float64 // shaft bearings and guides
}

// Since returns what has flowed after an earlier moment of the same run.
func (e Energy) Since(b Energy) Energy {
	return Energy{
		DrawnJ: e.DrawnJ - b.DrawnJ, ReturnedJ: e.ReturnedJ - b.ReturnedJ, HandJ: e.HandJ - b.HandJ,
		RotorHeatJ: e.RotorHeatJ - b.RotorHeatJ, StatorHeatJ: e.StatorHeatJ - b.StatorHeatJ,
		BrakeHeatJ: e.BrakeHeatJ - b.BrakeHeatJ, GearHeatJ: e.GearHeatJ - b.GearHeatJ, FrictionJ: e.FrictionJ - b.FrictionJ,
	}
}

// BalanceJ returns what came in less what was stored and lost, joules, between
// two moments of one run with one load, b the earlier: nothing but the error of
// arithmetic.
func (t *Train) BalanceJ(b, s *State) float64 {
	e := s.Energy.Since(b.Energy)
	in := e.DrawnJ - e.ReturnedJ + e.HandJ
	return in - (t.StoredJ(s) - t.StoredJ(b)) - e.RotorHeatJ - e.StatorHeatJ - e.BrakeHeatJ - e.GearHeatJ - e.FrictionJ
}

// StoredJ returns the energy in the moving and the raised masses, joules; its
// zero is at rest with the car at the lowest landing.
func (t *Train) StoredJ(s *State) float64 { return t.KineticJ(s) + t.raisedJ(s) }

// KineticJ returns the energy of everything that moves, joules.
func (t *Train) KineticJ(s *State) float64 {
	return float64(0.5 * t.InertiaKGM2(s.LoadKG) * s.OmegaRadS * s.OmegaRadS)
}

// HandwheelJ returns the share of handwheel and rotor in KineticJ, joules.
func (t *Train) HandwheelJ(s *State) float64 {
	return 0.5 * t.motorJ * s.OmegaRadS * s.OmegaRadS
}

// InertiaKGM2 returns the inertia of the whole train at the motor shaft with a
// load in the car, the moving masses reflected by the square of MetresPerRad.
func (t *Train) InertiaKGM2(loadKG float64) float64 {
	return t.motorJ + float64((t.massKG+loadKG)*t.leverM*t.leverM)
}

func (t *Train) raisedJ(s *State) float64 {
	out := t.balanceKG + s.LoadKG + float64(t.ropeKGPerM*(t.travelM-s.CarM))
	return float64(GravityMS2 * out * s.CarM)
}
