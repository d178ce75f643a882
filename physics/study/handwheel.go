package study

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
)

// A Choice is a handwheel to try in a plan.
type Choice struct {
	HandwheelKGM2 float64
	Fit           bool // give it the advance and the vanes it needs; false: those of the file
}

// A Fitting is what a handwheel asks of the shaft and what it was given.
type Fitting struct {
	HandwheelKGM2      float64
	NeedM, NeedVaneM   float64 // advance and half-length of the vanes; 0 where the motor does not carry the load
	AdvanceM, VaneM    float64 // given: the lesser of both ways, and the half-length
	RoomM              float64 // longest advance the storeys have room for
	Short, Cramped     bool    // less advance than needed; because there is no room for it
	Fitted             bool    // given what it needs, as far as there is room
	OfFileM, OfFileVan float64
}

// With returns the plan with another handwheel. A fitted one gets the advance
// it needs in whole centimetres, as far as the storeys have room, and vanes in
// whole millimetres.
func With(p *building.Plan, c Choice) (building.Plan, Fitting) {
	q := *p
	q.Machine.HandwheelKGM2 = c.HandwheelKGM2
	if c.HandwheelKGM2 != p.Machine.HandwheelKGM2 {
		q.Machine.Handwheel = building.Handwheel{}
	}
	f := Fitting{
		HandwheelKGM2: c.HandwheelKGM2, NeedM: drive.AdvanceNeededM(&q), NeedVaneM: drive.VaneHalfNeededM(&q),
		RoomM: building.MostAdvanceM(p), Fitted: c.Fit,
		OfFileM: min(p.Selector.AdvanceUpM, p.Selector.AdvanceDownM), OfFileVan: p.Shaft.VaneHalfM,
	}
	if c.Fit && f.NeedM > 0 {
		// The zone contact must break before the advance contact makes.
		least := q.Selector.ZoneHalfM + q.Selector.AdvanceContactM
		advance := min(max(math.Ceil(100*f.NeedM-1e-6)/100, least), f.RoomM)
		q.Selector.AdvanceUpM, q.Selector.AdvanceDownM = advance, advance
		q.Shaft.VaneHalfM = min(math.Round(1000*f.NeedVaneM)/1000, q.Selector.ZoneHalfM-0.001)
	}
	f.AdvanceM, f.VaneM = min(q.Selector.AdvanceUpM, q.Selector.AdvanceDownM), q.Shaft.VaneHalfM
	// Half a centimetre is not to be felt.
	f.Short = f.AdvanceM < f.NeedM-0.005
	f.Cramped = f.Short && f.NeedM > f.RoomM
	return q, f
}

// Handwheels are the inertias of the table of advances, kg·m².
var Handwheels = []float64{0.1, 0.2, 0.3, 0.45, 0.6, 0.8, 1.0, 1.2, 1.5, 1.8, 2.1, 2.4, 2.8, 3.2}

// A Weighed is one handwheel with what it needs and what it gives.
type Weighed struct {
	Fitting
	drive.Figures
}

// Weigh tries handwheels, each given the advance it needs whether or not the
// storeys have room for it, on the same trip. The trip is made without the
// circuit, its delays taken from the plan, since the circuit of a plan without
// room would not work. A handwheel for which the motor is too weak is left out.
func Weigh(p *building.Plan, handwheels []float64, t Trip) []Weighed {
	var out []Weighed
	for _, j := range handwheels {
		q, f := With(p, Choice{HandwheelKGM2: j})
		if f.NeedM == 0 {
			continue
		}
		train := drive.NewTrain(&q)
		r := drive.Try(&q, drive.Trip{FromM: p.Floors[t.From].HeightM, ToM: p.Floors[t.To].HeightM,
			LoadKG: t.LoadKG, AdvanceM: f.NeedM, VaneHalfM: f.NeedVaneM})
		out = append(out, Weighed{f, r.Figures(&train)})
	}
	return out
}
