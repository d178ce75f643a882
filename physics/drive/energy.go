package drive

// Energy is what has flowed since the start, joules, all counters rising from
// zero but FieldJ and HandJ, which have a sign. At any instant
//
//	DrawnJ − ReturnedJ + FieldJ + HandJ =
//	    rise of StoredJ + RotorHeatJ + StatorHeatJ + BrakeHeatJ + GearHeatJ + FrictionJ
type Energy struct {
	DrawnJ      float64 // from the supply
	ReturnedJ   float64 // to the supply, by a motor driven above its field
	FieldJ      float64 // work of the airgap torque while it dies away unfed
	HandJ       float64 // work by hand at the handwheel
	RotorHeatJ  float64
	StatorHeatJ float64
	BrakeHeatJ  float64
	GearHeatJ   float64
	FrictionJ   float64 // shaft bearings and guides
}

// StoredJ returns the energy in the moving and the raised masses, joules; its
// zero is at rest with the car at the lowest landing.
func (t *Train) StoredJ(s *State) float64 { return t.KineticJ(s) + t.raisedJ(s) }

// KineticJ returns the energy of everything that moves, joules.
func (t *Train) KineticJ(s *State) float64 {
	return 0.5 * t.InertiaKGM2(s.LoadKG) * s.OmegaRadS * s.OmegaRadS
}

// HandwheelJ returns the share of handwheel and rotor in KineticJ, joules.
func (t *Train) HandwheelJ(s *State) float64 {
	return 0.5 * t.motorJ * s.OmegaRadS * s.OmegaRadS
}

// InertiaKGM2 returns the inertia of the whole train at the motor shaft with a
// load in the car, the moving masses reflected by the square of MetresPerRad.
func (t *Train) InertiaKGM2(loadKG float64) float64 {
	return t.motorJ + (t.massKG+loadKG)*t.leverM*t.leverM
}

func (t *Train) raisedJ(s *State) float64 {
	out := t.balanceKG + s.LoadKG + t.ropeKGPerM*(t.travelM-s.CarM)
	return GravityMS2 * out * s.CarM
}
