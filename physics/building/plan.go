// Package building holds what a building file says: the plan of one lift, and
// the limits that make a plan possible.
//
// Heights are metres above the lowest landing, up positive. All quantities are
// SI; a field's name carries its unit as the file's key does. The package
// reads and checks; it computes no motion.
package building

import "strconv"

// A Plan is one building as its file gives it, every default filled in.
type Plan struct {
	Version  int
	Name     string
	Floors   []Floor // lowest first
	Lift     Lift
	Machine  Machine
	Motor    Motor
	Brake    Brake
	Selector Selector
	Shaft    Shaft
	Door     Door
	Control  Control
}

// A Floor is one landing.
type Floor struct {
	Name    string  // unique, 1 to 4 characters
	HeightM float64 // above the lowest landing
}

// Lift is the suspended masses.
type Lift struct {
	CarKG          float64 // empty car
	RatedLoadKG    float64
	LoadKG         float64 // in the car now
	Balance        float64 // share of the rated load the counterweight carries, 0..1
	RopeKGPerM     float64 // all ropes together, per metre of one fall
	GuideFrictionN float64 // car and counterweight guides together
}

// Machine is the winding machine: gear, sheave and handwheel.
type Machine struct {
	RatedSpeedMS    float64
	SheaveDiameterM float64
	GearRatio       float64 // motor turns to one sheave turn
	GearEfficiency  float64 // driving forward, 0..1
	Roping          int     // 1 or 2 falls
	SupplyHz        float64
	FastPoles       int
	SlowPoles       int
	HandwheelKGM2   float64
	Handwheel       Handwheel // by masses and diameters; HandwheelKGM2 agrees with it
	RotorKGM2       float64
	ShaftFrictionNM float64
}

// Motor is the two windings' torque curves and the change between them.
type Motor struct {
	FastBreakdownNM   float64
	FastBreakdownSlip float64
	FastStatorRatio   float64 // a = R1'/R2 of the generalised Kloss equation
	SlowBreakdownNM   float64
	SlowBreakdownSlip float64
	SlowStatorRatio   float64
	TorqueLagS        float64 // first-order lag of the airgap torque
	ChangeS           float64 // no winding fed between fast and slow
}

// Brake is the spring-applied brake on the motor shaft.
type Brake struct {
	TorqueNM  float64
	LiftS     float64 // from its coil's current to the first movement of the shoes
	LiftRampS float64
	SetS      float64
	SetRampS  float64
}

// Selector is the wheel geared to the car: ring, rim and direction track.
type Selector struct {
	SpanDeg           float64  // turned from the lowest to the highest landing
	TerminalsPerFloor float64  // to the mean floor height
	LiveTerminals     int      // joined for one floor
	FirstTerminalM    *float64 // nil: (LiveTerminals-1)/2 pitch below the lowest landing
	TerminalWidth     float64  // in pitches
	BrushWidth        float64  // in pitches
	Joins             []Join   // terminals joined by hand, otherwise than they are laid out
	AdvanceUpM        float64  // slow-down contact before a landing, going up
	AdvanceDownM      float64
	AdvanceContactM   float64 // car travel for which an advance contact is made
	ZoneHalfM         float64 // half-width of the centre contact
	CrossoverHalfM    float64 // half-width of the direction track's crossover
	RollerHysteresisM float64 // between make and break of a roller contact
}

// A Join is one terminal of the ring joined by hand to a floor's lamp, or to
// none: then Floor is Blank.
type Join struct {
	Terminal int    // from 0, the lowest
	Floor    string // a floor's name, or Blank
}

// Blank is what a join says of a terminal that feeds no lamp. It is longer than
// any floor's name.
const Blank = "blank"

// Shaft is what is fixed beside the car's way.
type Shaft struct {
	VaneHalfM   float64 // half-length of a level vane
	StopLimitM  float64 // beyond a terminal landing: the direction is cut off
	FinalLimitM float64 // beyond a terminal landing: the safety line is cut
}

// Door is the door operator.
type Door struct {
	OpenS  float64 // closed to fully open
	CloseS float64
	DwellS float64 // fully open before it closes by itself
	CamS   float64 // locking cam, out to in and back
}

// Control is the circuit: its scheme, supply and the times of its coils.
type Control struct {
	Scheme  string // one of Schemes
	SupplyV float64
	// Operate and release times, seconds.
	RelayOperateS, RelayReleaseS         float64
	DirectionOperateS, DirectionReleaseS float64
	StartOperateS, StartReleaseS         float64
	LevelOperateS, LevelReleaseS         float64
	ContactorOperateS, ContactorReleaseS float64
}

// TravelM returns the height of the highest landing above the lowest, metres.
func (p *Plan) TravelM() float64 { return p.Floors[len(p.Floors)-1].HeightM }

// Names returns the names of the floors, the lowest first.
func (p *Plan) Names() []string {
	names := make([]string, len(p.Floors))
	for i := range p.Floors {
		names[i] = p.Floors[i].Name
	}
	return names
}

// Floor returns the index of the floor with that name, or -1.
func (p *Plan) Floor(name string) int {
	for i, f := range p.Floors {
		if f.Name == name {
			return i
		}
	}
	return -1
}

// Defaults returns a plan without name or floors: the values a file may leave
// out. They work together (levelling within ±8 mm from empty to 110 % load).
func Defaults() Plan {
	return Plan{
		Version: 1,
		Lift:    Lift{CarKG: 900, RatedLoadKG: 630, LoadKG: 150, Balance: 0.45, RopeKGPerM: 0, GuideFrictionN: 150},
		Machine: Machine{RatedSpeedMS: 1.0, SheaveDiameterM: 0.55, GearRatio: 41, GearEfficiency: 0.65, Roping: 1,
			SupplyHz: 50, FastPoles: 4, SlowPoles: 16, HandwheelKGM2: 1.2, RotorKGM2: 0.12, ShaftFrictionNM: 2},
		Motor: Motor{FastBreakdownNM: 160, FastBreakdownSlip: 0.30, FastStatorRatio: 0.6,
			SlowBreakdownNM: 170, SlowBreakdownSlip: 0.90, SlowStatorRatio: 0.2, TorqueLagS: 0.10, ChangeS: 0.05},
		Brake: Brake{TorqueNM: 300, LiftS: 0.12, LiftRampS: 0.15, SetS: 0.04, SetRampS: 0.05},
		Selector: Selector{SpanDeg: 270, TerminalsPerFloor: 2.8, LiveTerminals: 2, TerminalWidth: 0.55, BrushWidth: 0.60,
			AdvanceUpM: 1.1, AdvanceDownM: 1.1, AdvanceContactM: 0.05, ZoneHalfM: 0.15, CrossoverHalfM: 0.10, RollerHysteresisM: 0.006},
		Shaft: Shaft{VaneHalfM: 0.047, StopLimitM: 0.10, FinalLimitM: 0.25},
		Door:  Door{OpenS: 2.0, CloseS: 2.5, DwellS: 3.0, CamS: 0.20},
		Control: Control{Scheme: "directional", SupplyV: 110,
			RelayOperateS: 0.015, RelayReleaseS: 0.010, DirectionOperateS: 0.030, DirectionReleaseS: 0.010,
			StartOperateS: 0.250, StartReleaseS: 0.010, LevelOperateS: 0.008, LevelReleaseS: 0.008,
			ContactorOperateS: 0.030, ContactorReleaseS: 0.020},
	}
}

// Evenly returns a default plan of n floors named "1" to n, storeyM apart.
// n may exceed the limit of a file; it is how large circuits are built.
func Evenly(name string, n int, storeyM float64) Plan {
	p := Defaults()
	p.Name = name
	for i := range n {
		p.Floors = append(p.Floors, Floor{Name: strconv.Itoa(i + 1), HeightM: float64(i) * storeyM})
	}
	p.Selector.SpanDeg = SpanFor(p.TravelM())
	return p
}
