package survey

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/phrase"
)

// A Cure is one value of a plan beside what it should be: what to change, and
// by how much.
type Cure struct {
	Path     string  // in the building file
	Is       float64 // in the file's unit
	Wants    float64
	Unit     string
	Decimals int
	Bound    int8 // +1: Wants or more, −1: Wants or less, 0: as near Wants as may be
	Met      bool
}

// Say words the line: what the value is for and what it should be.
func (c *Cure) Say() phrase.Phrase {
	id := map[int8]string{1: "survey.cure-least", -1: "survey.cure-most", 0: "survey.cure-near"}[c.Bound]
	return phrase.Of(id, "wants", phrase.Num(c.Wants, c.Decimals), "unit", c.Unit)
}

// Name is what the value is.
func (c *Cure) Name() phrase.Phrase { return phrase.Of("survey.value-" + c.key()) }

// key is the last part of the path as message identities spell it.
func (c *Cure) key() string {
	out := []byte(c.Path)
	for i, b := range out {
		if b == '.' || b == '_' {
			out[i] = '-'
		}
	}
	return string(out)
}

// Change is how far Wants lies from Is where the value is not met; 0 where it
// is.
func (c *Cure) Change() float64 {
	if c.Met {
		return 0
	}
	return c.Wants - c.Is
}

// Cures lists motor, gear, brake, advance, vanes and handwheel of a plan, each
// with what it should be by the same figures as the warnings. What the motor
// cannot move has no slow-down: then advance, vanes and handwheel are left out.
func Cures(p *building.Plan) []Cure {
	var out []Cure
	add := func(path string, is, wants float64, unit string, decimals int, bound int8, slack float64) {
		scale := math.Pow10(decimals)
		switch bound {
		case 1:
			wants = math.Ceil(wants*scale-1e-6) / scale
		case -1:
			wants = math.Floor(wants*scale+1e-6) / scale
		default:
			wants = math.Round(wants*scale) / scale
		}
		off := is - wants
		met := bound > 0 && off >= -slack-1e-9 || bound < 0 && off <= slack+1e-9 || bound == 0 && math.Abs(off) <= slack+1e-9
		out = append(out, Cure{path, is, wants, unit, decimals, bound, met})
	}
	heavy := loaded(p, drive.MostLoad)
	add("motor.fast_breakdown_nm", p.Motor.FastBreakdownNM, drive.FastBreakdownNeededNM(&heavy), "N·m", 0, 1, 0)
	add("motor.slow_breakdown_nm", p.Motor.SlowBreakdownNM, drive.SlowBreakdownNeededNM(&heavy), "N·m", 0, 1, 0)
	add("brake.torque_nm", p.Brake.TorqueNM, drive.BrakeNeededNM(p), "N·m", 0, 1, 0)
	if sheave := drive.SheaveNeededM(p); sheave > 0 {
		add("machine.sheave_diameter_m", p.Machine.SheaveDiameterM, sheave, "m", 3, 0, speedShare*sheave)
	}
	need := drive.AdvanceNeededM(p)
	if drive.LiftMarginNM(&heavy) <= 0 || need == 0 {
		return out
	}
	least := math.Inf(1)
	for _, way := range building.Advances(p.Selector) {
		add(way.Path, way.M, need, "m", 2, 1, advanceToleranceM)
		least = min(least, way.M)
	}
	add("shaft.vane_half_m", p.Shaft.VaneHalfM, drive.VaneHalfNeededM(p), "m", 3, 0, vaneToleranceM)
	if heaviest := heaviestFor(p, least+advanceToleranceM); heaviest > 0 {
		add("machine.handwheel_kg_m2", p.Machine.HandwheelKGM2, heaviest, "kg·m²", 1, -1, 0)
	}
	return out
}

// heaviestFor returns the heaviest handwheel, kg·m², that gets along with an
// advance; 0 where none does. The advance needed grows with the handwheel, but
// for the coarseness with which it is found.
func heaviestFor(p *building.Plan, advanceM float64) float64 {
	try := *p
	fits := func(kgm2 float64) bool {
		try.Machine.HandwheelKGM2 = kgm2
		need := drive.AdvanceNeededM(&try)
		return need > 0 && need <= advanceM
	}
	lo, hi := 0.0, 6.0 // the heaviest a file may give
	for hi-lo > 0.04 {
		if mid := (lo + hi) / 2; fits(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	if p.Machine.HandwheelKGM2 > lo && fits(p.Machine.HandwheelKGM2) {
		lo = p.Machine.HandwheelKGM2
	}
	return lo
}

// speedShare is how far the speed may lie from the one a plan names.
const speedShare = 0.08
