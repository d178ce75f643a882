package building

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

// A Handwheel is what a file says of the wheel instead of its inertia; nil is
// not given. The disc reaches to the rim.
type Handwheel struct {
	RimKG, OuterM, InnerM *float64 // diameters of the rim, metres
	DiscKG                *float64
}

// Wheel returns the wheel, and whether the file gave one whole.
func (h *Handwheel) Wheel() (Wheel, bool) {
	if h.RimKG == nil || h.OuterM == nil || h.InnerM == nil {
		return Wheel{}, false
	}
	w := Wheel{RimKG: *h.RimKG, RimOuterM: *h.OuterM, RimInnerM: *h.InnerM, DiscDiameterM: *h.InnerM}
	if h.DiscKG != nil {
		w.DiscKG = *h.DiscKG
	}
	return w, true
}

// The paths of a handwheel's two forms in a file.
const (
	handwheelMade    = "machine.handwheel"
	handwheelInertia = "machine.handwheel_kg_m2"
)

// weigh makes the inertia of a plan follow the form of handwheel that its file
// gives: masses and diameters alone work it out, an inertia alone does away
// with those of the building it changes.
func weigh(p *Plan, given func(path string) bool) {
	switch made, inertia := given(handwheelMade), given(handwheelInertia); {
	case made && !inertia:
		if w, whole := p.Machine.Handwheel.Wheel(); whole {
			p.Machine.HandwheelKGM2 = w.KGM2()
		}
	case inertia && !made:
		p.Machine.Handwheel = Handwheel{}
	}
}
