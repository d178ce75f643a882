package lift

// An Event is one change of one part. Events of a run are in causal order;
// equal times keep that order.
type Event struct {
	TimeS float64
	Part  Part
	State string // the trace's value: "1", "0", "above", "between", "below", "open", "closed", a floor's name, "-"
	Cause int    // index of the event that brought this one about; -1 for an input or the car's travel
}
