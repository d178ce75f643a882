package study

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/phrase"
)

// An Entry is one figure of a table: its key, which is also what its message
// "drive.figure-KEY" is found by, and its value in the unit shown. A figure
// the run never reached is NaN.
type Entry struct {
	Key      string
	Value    float64
	Unit     string // "m/s", "" for none
	Decimals int
}

// Say words the value with its unit.
func (e Entry) Say() phrase.Phrase {
	if math.IsNaN(e.Value) || math.IsInf(e.Value, 0) {
		return phrase.Of("drive.not-reached")
	}
	if e.Unit == "" {
		return phrase.Of("drive.bare", "value", phrase.Num(e.Value, e.Decimals))
	}
	return phrase.Of("drive.value", "value", phrase.Num(e.Value, e.Decimals), "unit", e.Unit)
}

// Name is the figure's name.
func (e Entry) Name() phrase.Phrase { return phrase.Of("drive.figure-" + e.Key) }

// Table lists the figures of a journey in the order in which they arise;
// heatW is the mean rotor heat that limits the starts an hour.
func Table(f drive.Figures, heatW float64) []Entry {
	return []Entry{
		{"time-to-full", f.ToFullS, "s", 2},
		{"peak-speed", f.PeakSpeedMS, "m/s", 3},
		{"peak-acceleration", f.PeakAccelMS2, "m/s²", 2},
		{"peak-deceleration", f.PeakDecelMS2, "m/s²", 2},
		{"brake-deceleration", f.StopDecelMS2, "m/s²", 2},
		{"a95", f.A95MS2, "m/s²", 2},
		{"start-jerk", f.StartJerkMS3, "m/s³", 1},
		{"change-jerk", f.ChangeJerkMS3, "m/s³", 1},
		{"stop-jerk", f.StopJerkMS3, "m/s³", 1},
		{"slow-down-distance", f.SlowDownM, "m", 3},
		{"slow-down-time", f.SlowDownS, "s", 2},
		{"vane-speed", f.VaneSpeedMS, "m/s", 3},
		{"stopping-distance", 1000 * f.StopM, "mm", 1},
		{"levelling-error", 1000 * f.LevelM, "mm", 1},
		{"trip-time", f.TripS, "s", 2},
		{"ideal-time", f.IdealS, "s", 2},
		{"energy-drawn", f.DrawnJ / 1000, "kJ", 1},
		{"energy-returned", f.ReturnedJ / 1000, "kJ", 1},
		{"handwheel-energy", f.HandwheelJ / 1000, "kJ", 1},
		{"rotor-heat", f.RotorHeatJ / 1000, "kJ", 1},
		{"slow-down-heat", f.SlowHeatJ / 1000, "kJ", 1},
		{"starts-per-hour", drive.StartsPerHour(f.RotorHeatJ, heatW), "", 0},
	}
}

// HeatW is the mean rotor heat taken as a limit where none is stated, watts:
// an assumption for a motor of this size, no source. The motor's own papers
// decide.
const HeatW = 500.0

// Make lists what a machine is made of, as far as it decides how it moves.
func Make(p *building.Plan) []Entry {
	t := drive.NewTrain(p)
	out := []Entry{{"handwheel", p.Machine.HandwheelKGM2, "kg·m²", 3}}
	if w, given := p.Machine.Handwheel.Wheel(); given {
		out = append(out, Entry{"handwheel-rim", w.RimKGM2(), "kg·m²", 3}, Entry{"handwheel-disc", w.DiscKGM2(), "kg·m²", 3})
	}
	return append(out, []Entry{
		{"rotor", p.Machine.RotorKGM2, "kg·m²", 3},
		{"masses", t.InertiaKGM2(p.Lift.LoadKG) - p.Machine.HandwheelKGM2 - p.Machine.RotorKGM2, "kg·m²", 3},
		{"ropes", p.Lift.RopeKGPerM * p.TravelM() * float64(p.Machine.Roping), "kg", 0},
		{"per-turn", 2 * math.Pi * t.MetresPerRad() * 1000, "mm", 1},
		{"gear-forward", 100 * p.Machine.GearEfficiency, "%", 0},
		{"gear-reverse", 100 * drive.ReverseEfficiency(p.Machine.GearEfficiency), "%", 0},
		{"synchronous-fast", drive.SynchronousSpeedMS(p, drive.Fast), "m/s", 3},
		{"synchronous-slow", drive.SynchronousSpeedMS(p, drive.Slow), "m/s", 3},
		{"rated-speed", drive.RatedSpeedMS(p), "m/s", 3},
		{"brake-holds", 100 * drive.BrakeHoldShare(p), "%", 0},
	}...)
}
