package lift

// Stand is where a direction switch stands.
type Stand uint8

// The stands of a direction switch. The floor lies above the car, below it,
// or the car is inside the crossover and both contacts are open.
const (
	Between Stand = iota
	Above
	Below
)

// String returns the trace's word for the stand.
func (s Stand) String() string { return [...]string{"between", "above", "below"}[s] }

// A View is what there is to see of a machine at one instant. Slices indexed
// by floor have one entry a landing, lowest first. Look fills a View and
// reuses its slices, so that looking sixty times a second allocates nothing.
type View struct {
	TimeS float64

	CarM         float64 // height above the lowest landing
	SpeedMS      float64 // up positive
	AccelMS2     float64
	AtFloor      int     // landing at which the car rests, level; -1 elsewhere or moving
	NearFloor    int     // the nearest landing
	WheelRad     float64 // selector wheel, 0 at the lowest landing, clockwise as seen while going up
	HandwheelRad float64 // motor shaft angle
	MotorRadS    float64
	TorqueNM     float64 // airgap torque
	BrakeLift    float64 // 0 set, 1 fully lifted
	DoorOpen     float64 // 0 closed, 1 fully open
	CamIn        float64 // 0 dropped (landing door unlocked), 1 in (locked)
	Moving       bool

	Pressed     []bool // a push-button of the floor held
	Calls       []bool // a call relay of the floor in
	Lamps       []bool // position lamp lit
	Rim         []bool // centre contact made
	AdvanceUp   []bool
	AdvanceDown []bool
	Direction   []Stand
	Terminal    []bool // brush on terminal

	// By kind of call, by floor; all of length 0 where a floor has one button
	// only. There is no up call at the highest landing and no down call at
	// the lowest.
	PressedUp, PressedDown, PressedCar []bool
	CallsUp, CallsDown, CallsCar       []bool

	Relays   []bool    // by Wiring().Coils: armature in
	Contacts []bool    // by Wiring().Leaves: a contact that is closed
	Amperes  []float64 // by Wiring().Leaves: current from the leaf's From to its To
	Switches []bool    // by Machine.Switch: made, pressed or actuated
	Volts    []float64 // by node of the network, to the minus rail

	Stopped string // why the model stopped for good ("" while it runs), a message identity
}
