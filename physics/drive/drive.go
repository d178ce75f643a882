// Package drive models what moves the car: a two-speed pole-changing induction
// motor, the handwheel on its shaft, a worm gear, the traction sheave, car,
// counterweight and ropes, and a spring-applied brake on the motor shaft.
//
// All of it is one rigid train with one degree of freedom. Angles and torques
// are those of the motor shaft, positive when they raise the car; heights are
// metres above the lowest landing, up positive. It knows nothing of relays,
// floors, vanes or limits: it is told which winding is fed and whether the
// brake's coil is on, and it answers with motion.
//
// Left out: rope stretch and slip, the magnetizing current and iron losses,
// the change of resistance with heat, the buffers at the ends of the way.
package drive

import (
	"strconv"

	"wheelroom/physics/building"
)

// GravityMS2 is standard gravity, m/s².
const GravityMS2 = 9.80665

// Winding is a winding of the motor. The zero value is none fed.
type Winding uint8

// The windings.
const (
	Off Winding = iota
	Fast
	Slow
)

// String names the winding.
func (w Winding) String() string {
	if w > Slow {
		return "winding " + strconv.Itoa(int(w))
	}
	return [...]string{"off", "fast", "slow"}[w]
}

// A Feed is what reaches the machine from outside for the length of a step.
// The zero value is a machine left alone: nothing fed, brake set.
type Feed struct {
	Winding      Winding
	Direction    int8    // order of the phases: +1 up, -1 down, 0 not fed
	BrakeCurrent bool    // the brake magnet's armature is attracted
	HeldOpen     bool    // brake held open by hand
	HandNM       float64 // torque by hand at the handwheel, raising the car positive
}

// A Train is the machine of one plan: everything about it that stays the same
// while it runs. It is not changed by a step and may be shared.
type Train struct {
	fast, slow curve
	motorJ     float64 // handwheel and rotor, kg·m²
	leverM     float64 // metres of car for one radian of the motor shaft
	carKG      float64 // empty
	massKG     float64 // car, counterweight and ropes as they move with the car
	balanceKG  float64 // empty car less counterweight
	ropeKGPerM float64 // all falls, for each metre of car travel
	travelM    float64
	guideNM    float64 // guides' friction at the motor shaft of a gear without loss
	shaftNM    float64
	forward    float64 // torque wanted of the motor for 1 N·m of load it drives
	reverse    float64 // torque left at the motor of 1 N·m of load that drives it
	lagS       float64
	changeS    float64
	brakeNM    float64
	liftRampS  float64
	setRampS   float64
	finestS    float64 // longest step of the integrator
	loadKG     float64 // the plan's load in the car
}

// NewTrain derives the train of a plan whose values have been checked. It
// panics where the plan holds what no motor is: a breakdown slip times stator
// ratio of 1 or more, or no inertia.
func NewTrain(p *building.Plan) Train {
	m, l := &p.Machine, &p.Lift
	roping := float64(max(m.Roping, 1))
	travel := p.TravelM()
	t := Train{
		fast:       newCurve(SynchronousRadS(m.SupplyHz, m.FastPoles), p.Motor.FastBreakdownNM, p.Motor.FastBreakdownSlip, p.Motor.FastStatorRatio),
		slow:       newCurve(SynchronousRadS(m.SupplyHz, m.SlowPoles), p.Motor.SlowBreakdownNM, p.Motor.SlowBreakdownSlip, p.Motor.SlowStatorRatio),
		motorJ:     m.HandwheelKGM2 + m.RotorKGM2,
		leverM:     m.SheaveDiameterM / 2 / (m.GearRatio * roping),
		carKG:      l.CarKG,
		balanceKG:  -float64(l.Balance * l.RatedLoadKG),
		ropeKGPerM: l.RopeKGPerM * roping,
		travelM:    travel,
		shaftNM:    m.ShaftFrictionNM,
		forward:    1 / m.GearEfficiency,
		reverse:    max(ReverseEfficiency(m.GearEfficiency), 0),
		lagS:       p.Motor.TorqueLagS,
		changeS:    p.Motor.ChangeS,
		brakeNM:    p.Brake.TorqueNM,
		liftRampS:  p.Brake.LiftRampS,
		setRampS:   p.Brake.SetRampS,
		loadKG:     l.LoadKG,
	}
	t.guideNM = l.GuideFrictionN * t.leverM
	// Of two falls one hangs still and the other runs at twice the car's
	// speed, so the rope's energy grows with the square of the roping.
	t.massKG = float64(2*l.CarKG) + float64(l.Balance*l.RatedLoadKG) + float64(l.RopeKGPerM*travel*roping*roping)
	if !(t.motorJ > 0) {
		panic("drive: motor shaft without inertia")
	}
	t.lagS, t.finestS = steps(t.lagS, max(t.fast.slope(), t.slow.slope()), t.motorJ)
	return t
}

// steps returns the lag the integrator works with and the longest step it may
// take: a quarter of the shortest time constant of shaft and airgap torque
// together. A lag too short to matter at any step is taken as none.
func steps(lagS, slopeNMS, inertia float64) (lag, finest float64) {
	const longest, shortest = 5e-3, 5e-5
	rate := slopeNMS / inertia
	if lagS < 4*shortest {
		return 0, min(max(0.25/rate, shortest), longest)
	}
	return lagS, min(max(0.25*min(lagS, sqrt(lagS/rate)), shortest), longest)
}

// A State is the machine at one instant, a plain value: copy it to go back.
type State struct {
	OmegaRadS float64 // motor shaft, raising the car positive
	ShaftRad  float64 // motor shaft and handwheel, 0 where the run began
	CarM      float64 // height above the lowest landing
	AirgapNM  float64 // torque of the motor on its shaft; 0 while no winding makes any
	BrakeLift float64 // 0 set, 1 fully lifted
	LoadKG    float64 // load in the car; change it at rest
	HandNM    float64 // torque by hand in the last step

	Fed     Winding // the winding fed last
	UnfedS  float64 // since it went, up to the pause between windings; 0 while it is fed
	Running Winding // the winding that makes torque now; Off in the pause
	Energy
}

// Start returns the machine at rest with the brake set, the car carM above the
// lowest landing and the plan's load in it.
func (t *Train) Start(carM float64) State { return State{CarM: carM, LoadKG: t.loadKG} }

// SpeedMS returns the car's speed, m/s, up positive.
func (t *Train) SpeedMS(s *State) float64 { return s.OmegaRadS * t.leverM }

// MetresPerRad returns the car's travel for one radian of the motor shaft.
func (t *Train) MetresPerRad() float64 { return t.leverM }

// AtRest tells whether the shaft stands still. A shaft held by friction or the
// brake stands exactly still; one that reverses does so for no length of time.
func (t *Train) AtRest(s *State) bool { return s.OmegaRadS == 0 }

// AccelMS2 returns the car's acceleration, m/s², up positive. It is 0 while
// friction and brake hold the shaft.
func (t *Train) AccelMS2(s *State) float64 {
	b := t.bind(s.LoadKG)
	dir := sign(s.OmegaRadS)
	if dir == 0 {
		dir = b.breaks(s.AirgapNM+s.HandNM, t.brakeLeft(s), s.CarM)
	}
	if dir == 0 {
		return 0
	}
	a, _ := b.accel(dir, s.AirgapNM+s.HandNM, t.brakeLeft(s), s.CarM)
	return a * t.leverM
}

// brakeLeft returns the torque with which the brake still grips, N·m.
func (t *Train) brakeLeft(s *State) float64 { return float64(t.brakeNM * (1 - s.BrakeLift)) }
