package script

// A Claim is what an option says of the asked run, so that the machine can
// decide it. Every field that is set must hold; a claim with none set says
// nothing and is refused when a lesson is read.
type Claim struct {
	Stops   *[]string // the floors at which the car stops, in order, all of them
	Goes    Way       // which way the car first sets off after the frozen frame, or goes on
	Happens []Event   // each occurs
	Never   []Event   // none occurs
	Order   []Event   // each occurs, the first time in this order
}

// Way is a direction of travel.
type Way uint8

// The ways. AnyWay says nothing; Nowhere means the car does not move.
const (
	AnyWay Way = iota
	GoesUp
	GoesDown
	Nowhere
)

// ways spells the ways in a file.
var ways = map[string]Way{"up": GoesUp, "down": GoesDown, "nowhere": Nowhere}

// Empty reports whether the claim says nothing.
func (c Claim) Empty() bool {
	return c.Stops == nil && c.Goes == AnyWay && len(c.Happens)+len(c.Never)+len(c.Order) == 0
}

// Holds reports whether the claim is true of the asked part of the log. It is
// meant for a finished run: a claim about what never happens can only be
// judged at the end.
func (c Claim) Holds(l *Log) bool {
	if c.Stops != nil && !equal(*c.Stops, l.Stops()) {
		return false
	}
	if c.Goes != AnyWay && c.Goes != l.goes() {
		return false
	}
	for _, e := range c.Happens {
		if e.first(l, l.Before) < 0 {
			return false
		}
	}
	for _, e := range c.Never {
		if e.first(l, l.Before) >= 0 {
			return false
		}
	}
	last := -1
	for _, e := range c.Order {
		i := e.first(l, l.Before)
		if i < 0 || i <= last {
			return false
		}
		last = i
	}
	return true
}

// Stops returns the floors at which the car stopped after the frozen frame,
// in order.
func (l *Log) Stops() []string {
	var floors []string
	for _, e := range l.asked() {
		if e.Part == "stop" && e.State != "-" {
			floors = append(floors, e.State)
		}
	}
	return floors
}

// travelM is how far the car must come from the frozen frame before a way
// counts, metres: more than it sags or is pulled while a brake lifts.
const travelM = 0.02

// goes returns the way the car first took after the frozen frame.
func (l *Log) goes() Way {
	from, _ := l.place(l.FrozenS)
	for _, p := range l.Path {
		switch {
		case !l.Asked || p.TimeS <= l.FrozenS:
		case p.HeightM > from+travelM:
			return GoesUp
		case p.HeightM < from-travelM:
			return GoesDown
		}
	}
	return Nowhere
}

func equal(a, b []string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}
