// Package control holds the lift's control circuit as data and wires it as a
// network of package relay.
//
// A scheme is a list of branches. A branch leads from one bus to another
// through contacts in series and in parallel, and ends, where it does
// something, in a coil or a lamp. One description serves the network, the
// diagram, the explanation and the proof; nothing about a relay stands
// anywhere else.
//
// Buses: Plus is the live rail, Minus the other, Safe the end of the safety
// line. The remaining ones are named where a scheme uses them. The package
// leaves out contact bounce, the power circuit of the motor, and wire lengths.
package control

import "strconv"

// A Bus is a named conductor to which several branches are joined.
type Bus string

// The buses every scheme has.
const (
	Plus     Bus = "plus"
	Minus    Bus = "minus"
	Safe     Bus = "safe"      // end of the safety line
	UpLine   Bus = "up-line"   // live while a registered call lies above the car
	DownLine Bus = "down-line" // live while a registered call lies below the car
)

// Row returns the bus behind floor f's call contact, before its direction
// switch.
func Row(f int) Bus { return Bus("row." + strconv.Itoa(f)) }

// A Body is what lies between two buses: a Contact, a Coil, a Lamp, a Series
// or a Parallel.
type Body interface{ body() }

// A Contact opens and closes with its part. A make contact is closed while
// the part is in (pressed, made, in the Pole named); a break contact while it
// is not.
type Contact struct {
	Part   string // "relay.up", "call.3", "rim.3", "button.3", "stop-switch"
	Breaks bool
	Pole   string // "above" or "below" of a direction switch; "" elsewhere
}

// A Coil pulls its part in.
type Coil struct{ Part string }

// A Lamp lights its part.
type Lamp struct{ Part string }

// Series is bodies one behind the other.
type Series []Body

// Parallel is bodies side by side.
type Parallel []Body

func (Contact) body()  {}
func (Coil) body()     {}
func (Lamp) body()     {}
func (Series) body()   {}
func (Parallel) body() {}

// A Branch is one line of the diagram.
type Branch struct {
	Name     string // what it feeds: "up", "call.3", "safety-line"
	From, To Bus
	Body     Body
	Floor    int // landing it belongs to, -1 for none
}

// A Diagram is a whole scheme for the landings named.
type Diagram struct {
	Scheme   string
	Floors   []string // names, lowest first
	Calls    []Call   // by floor, lowest first
	Branches []Branch
}

// A Call is one push-button and the call relay it pulls in.
type Call struct {
	Floor  int
	Kind   CallKind
	Button string // part of the push-button: "button.3", "button-up.3"
	Relay  string // part of the call relay: "call.3", "call-up.3"
}

// CallKind says who calls and for which way.
type CallKind uint8

// The kinds of call. AnyCall is the only kind of a scheme with one button a
// floor, which does not know which way one wants to go.
const (
	AnyCall  CallKind = iota
	UpCall            // landing call for a car going up
	DownCall          // landing call for a car going down
	CarCall           // from inside the car
)

// String returns the word of the kind in the names of parts and on the
// command line: "", "up", "down" or "car".
func (k CallKind) String() string { return [...]string{"", "up", "down", "car"}[k] }

// suffix is how a kind stands in the name of a part.
func (k CallKind) suffix() string {
	if k == AnyCall {
		return ""
	}
	return "-" + k.String()
}

// CallsOf returns the kinds of call that floor f of n has under a scheme: one
// button, or one for either way there is and one in the car.
func CallsOf(scheme string, n, f int) []CallKind {
	if scheme != "two-button" {
		return []CallKind{AnyCall}
	}
	var kinds []CallKind
	if f < n-1 {
		kinds = append(kinds, UpCall)
	}
	if f > 0 {
		kinds = append(kinds, DownCall)
	}
	return append(kinds, CarCall)
}

// addCall lists a call of that kind to floor f and returns it.
func (d *Diagram) addCall(f int, kind CallKind) Call {
	c := Call{Floor: f, Kind: kind, Button: d.Part("button"+kind.suffix(), f), Relay: d.Part("call"+kind.suffix(), f)}
	d.Calls = append(d.Calls, c)
	return c
}

// CallsAt returns the calls of floor f.
func (d *Diagram) CallsAt(f int) []Call {
	var out []Call
	for _, c := range d.Calls {
		if c.Floor == f {
			out = append(out, c)
		}
	}
	return out
}

// Part names floor f's part of that kind: "call.3" on the floor called 3.
func (d *Diagram) Part(kind string, f int) string { return kind + "." + d.Floors[f] }

// makes and breaks are the two contacts of a part.
func makes(part string) Contact  { return Contact{Part: part} }
func breaks(part string) Contact { return Contact{Part: part, Breaks: true} }
