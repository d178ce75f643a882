package lift

// An Input is one thing done to the machine from outside, at one instant.
// A run is its plan, its start and its inputs: nothing else reaches it.
type Input struct {
	TimeS float64
	Kind  InputKind
	Part  Part    // button, switch or overridden part, or ContactPart for one contact
	State string  // for Override: "stuck", "open", "welded", "slow", or "" to lift it; the part's own word where it has more
	Value float64 // for Slow: the factor on its times; for Load: kg; for Wind: N·m
}

// InputKind says what is done.
type InputKind uint8

// The kinds of input.
const (
	Press     InputKind = iota // the push-button is pushed for HoldS
	Override                   // the part is forced into a state, or freed
	Switch                     // a switch of the safety line is opened (State "open") or closed ("")
	Load                       // the load in the car becomes Value kg (at rest only)
	Isolate                    // the main isolator, Part "isolator", is opened (State "open") or closed ("")
	EaseBrake                  // the brake, Part "brake-lever", is eased open by hand (State "open") or let go (""); while isolated only
	Wind                       // the torque by hand at the Part "handwheel" becomes Value N·m, raising the car positive; while isolated only
)

// HoldS is how long a pressed button is held, seconds.
const HoldS = 0.2

const holdTicks = int64(HoldS / GridS)
