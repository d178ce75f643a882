package drive

// A Wheel is a handwheel by its masses: a web, taken as a plain disc, and a rim
// round it. The zero value has no mass.
type Wheel struct {
	DiscKG, DiscDiameterM       float64
	RimKG, RimInnerM, RimOuterM float64 // diameters, metres
}

// DiscKGM2 returns what the disc adds to the inertia: ½MR².
func (w Wheel) DiscKGM2() float64 {
	r := w.DiscDiameterM / 2
	return 0.5 * w.DiscKG * r * r
}

// RimKGM2 returns what the rim adds to the inertia: ½M(Ri² + Ro²).
func (w Wheel) RimKGM2() float64 {
	i, o := w.RimInnerM/2, w.RimOuterM/2
	return 0.5 * w.RimKG * (i*i + o*o)
}

// KGM2 returns the inertia of the whole wheel, kg·m²: what a plan calls
// handwheel_kg_m2.
func (w Wheel) KGM2() float64 { return w.DiscKGM2() + w.RimKGM2() }
