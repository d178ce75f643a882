// Package survey looks over a whole plan before a machine is built from it:
// whether ring, wheel and shaft switches find room, whether motor and brake
// master the load, and whether advance and vanes fit the handwheel.
//
// It is the reader to use wherever a person brings a building file: package
// building reads the file and checks what arithmetic can, this package asks the
// parts themselves. It adds no limits of its own beyond the tolerances below.
package survey

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/drive"
	"wheelroom/physics/phrase"
	"wheelroom/physics/selector"
	"wheelroom/physics/shaft"
)

const (
	// An advance may be this much short before anything is to be seen of it.
	advanceToleranceM = 0.005
	// A vane that is longer or shorter than it should be moves every stop by
	// as much. With some 7 mm of spread over all loads, 5 mm keep the lift near
	// the ±10 mm of EN 81-20 5.12.1.1.4 (value from memory).
	vaneToleranceM = 0.005
	// Where the search for a stronger brake ends: more than a file may say.
	mostBrakeNM = 5000
)

// Read reads a building file, known as name in its problems, and surveys the
// plan. With any error among the problems (document.Failed) the plan is the
// zero Plan.
func Read(name string, text []byte) (building.Plan, []document.Problem) {
	p, problems := building.Read(name, text)
	if document.Failed(problems) {
		return p, problems
	}
	for _, found := range Survey(&p) {
		found.Path = building.Cause(text, found.Path)
		problems = append(problems, found)
	}
	document.Place(name, text, problems)
	if document.Failed(problems) {
		return building.Plan{}, problems
	}
	return p, problems
}

// Survey returns what is wrong with a plan that building.Read has let through,
// with the path of the value that would cure each, but no place in a text.
// Errors cannot be built; warnings work badly.
func Survey(p *building.Plan) []document.Problem {
	var out []document.Problem
	_, ring := selector.NewRing(p)
	for _, found := range [][]selector.Problem{ring, selector.NewWheel(p).Problems(), shaft.New(p).Problems()} {
		for _, f := range found {
			out = append(out, document.Problem{Path: f.Key, Phrase: f.Say, Warning: !f.Grave})
		}
	}
	if !document.Failed(out) {
		out = append(out, torque(p)...)
	}
	return out
}

func warning(path, id string, slots ...any) document.Problem {
	return document.Problem{Path: path, Phrase: phrase.Of("survey."+id, slots...), Warning: true}
}

// torque: what motor, brake and handwheel come to. What the motor cannot move
// or the brake cannot stop within a landing's zone has no advance and no vane
// to be judged.
func torque(p *building.Plan) []document.Problem {
	var out []document.Problem
	if share := drive.BrakeHoldShare(p); share < drive.HoldShare {
		out = append(out, warning("brake.torque_nm", "brake-weak", "holds", phrase.Num(100*max(share, 0), 0),
			"wanted", phrase.Num(100*drive.HoldShare, 0), "cure", phrase.Num(math.Ceil(drive.BrakeNeededNM(p)), 0)))
	}
	for _, share := range []float64{1, drive.MostLoad} {
		if heavy := loaded(p, share); drive.LiftMarginNM(&heavy) <= 0 {
			out = append(out, motor(&heavy))
			break
		}
	}
	if len(out) > 0 {
		return out
	}
	stop := drive.VaneHalfNeededM(p)
	if stop >= p.Selector.ZoneHalfM {
		return []document.Problem{warning("brake.torque_nm", "brake-slow", "stop", phrase.Num(stop, 2),
			"zone", document.Plain(p.Selector.ZoneHalfM), "cure", phrase.Num(brakeFor(p), 0))}
	}
	return append(advance(p), vane(p, stop)...)
}

// loaded returns the plan with its rated load at a share of what it was, the
// counterweight unchanged.
func loaded(p *building.Plan, share float64) building.Plan {
	heavy := *p
	heavy.Lift.RatedLoadKG *= share
	heavy.Lift.Balance /= share
	return heavy
}

func motor(p *building.Plan) document.Problem {
	fast, slow := drive.FastBreakdownNeededNM(p), drive.SlowBreakdownNeededNM(p)
	path, cure := "motor.slow_breakdown_nm", slow
	if fast > p.Motor.FastBreakdownNM {
		path, cure = "motor.fast_breakdown_nm", fast
	}
	return warning(path, "motor-weak", "lacks", phrase.Num(math.Ceil(-drive.LiftMarginNM(p)), 0),
		"load", phrase.Num(p.Lift.RatedLoadKG, 0), "cure", phrase.Num(math.Floor(cure)+1, 0))
}

// advance: short of what the handwheel needs, the car meets the vane before it
// creeps. Where the storeys leave no room for that advance, only a lighter
// handwheel helps.
func advance(p *building.Plan) []document.Problem {
	var out []document.Problem
	need, most := drive.AdvanceNeededM(p), building.MostAdvanceM(p)
	for _, way := range building.Advances(p.Selector) {
		if way.M >= need-advanceToleranceM {
			continue
		}
		cure := math.Ceil(100*need-1e-6) / 100
		if cure <= most {
			out = append(out, warning(way.Path, "advance-short", "advance", document.Plain(way.M),
				"handwheel", document.Plain(p.Machine.HandwheelKGM2), "cure", phrase.Num(cure, 2)))
			continue
		}
		lighter := handwheelFor(p, most)
		if lighter == 0 {
			out = append(out, warning(way.Path, "advance-no-room", "need", phrase.Num(cure, 2), "most", phrase.Num(most, 2)))
			continue
		}
		out = append(out, warning("machine.handwheel_kg_m2", "handwheel-heavy", "need", phrase.Num(cure, 2),
			"handwheel", document.Plain(p.Machine.HandwheelKGM2), "most", phrase.Num(most, 2), "cure", phrase.Num(lighter, 1)))
		break
	}
	return out
}

// handwheelFor returns the heaviest handwheel, kg·m² in tenths, that gets along
// with an advance; 0 where none does.
func handwheelFor(p *building.Plan, advanceM float64) float64 {
	try := *p
	for tenths := math.Floor(10 * p.Machine.HandwheelKGM2); tenths > 0; tenths-- {
		try.Machine.HandwheelKGM2 = tenths / 10
		if need := drive.AdvanceNeededM(&try); need > 0 && need <= advanceM {
			return tenths / 10
		}
	}
	return 0
}

// vane: the stops should lie about the landing, not before or beyond it.
func vane(p *building.Plan, need float64) []document.Problem {
	off := p.Shaft.VaneHalfM - need
	if need == 0 || math.Abs(off) <= vaneToleranceM {
		return nil
	}
	id := "vane-long"
	if off < 0 {
		id = "vane-short"
	}
	return []document.Problem{warning("shaft.vane_half_m", id, "vane", document.Plain(p.Shaft.VaneHalfM),
		"off", phrase.Num(math.Abs(1000*off), 0), "cure", phrase.Num(math.Round(1000*need)/1000, 3))}
}

// brakeFor returns the least brake torque, N·m in tens, with which the stops
// lie in the inner half of the landing's zone.
func brakeFor(p *building.Plan) float64 {
	try := *p
	torque := 10 * math.Ceil(p.Brake.TorqueNM/10)
	for drive.VaneHalfNeededM(&try) > p.Selector.ZoneHalfM/2 && torque < mostBrakeNM {
		torque += 10
		try.Brake.TorqueNM = torque
	}
	return torque
}
