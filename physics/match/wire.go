package match

import (
	"encoding/json"
	"math"

	"wheelroom/physics/building"
)

// A result goes from the program that fits to the one that shows as JSON. The
// plan and the observation do not travel: whoever asked has them.

// Bind gives a result that came as JSON its plan and its observation.
func (r *Result) Bind(p *building.Plan, o *Observation) { r.Plan, r.Observation = p, o }

// A real is a float64 in JSON that may be no number or without end: null, "+"
// and "-".
type real float64

// MarshalJSON writes the value.
func (r real) MarshalJSON() ([]byte, error) {
	switch v := float64(r); {
	case math.IsNaN(v):
		return []byte("null"), nil
	case math.IsInf(v, 1):
		return []byte(`"+"`), nil
	case math.IsInf(v, -1):
		return []byte(`"-"`), nil
	default:
		return json.Marshal(v)
	}
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (r *real) UnmarshalJSON(text []byte) error {
	switch string(text) {
	case "null":
		*r = real(math.NaN())
	case `"+"`:
		*r = real(math.Inf(1))
	case `"-"`:
		*r = real(math.Inf(-1))
	default:
		return json.Unmarshal(text, (*float64)(r))
	}
	return nil
}

// MarshalJSON writes the interval as [on, off].
func (i Interval) MarshalJSON() ([]byte, error) {
	return json.Marshal([2]real{real(i.OnS), real(i.OffS)})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (i *Interval) UnmarshalJSON(text []byte) error {
	var w [2]real
	err := json.Unmarshal(text, &w)
	*i = Interval{float64(w[0]), float64(w[1])}
	return err
}

// A wiredEdge is a FitEdge on its way.
type wiredEdge struct {
	Edge
	Fitted [2]real // ModelS, ResidualS
	Used   bool
}

// MarshalJSON writes the edge.
func (e FitEdge) MarshalJSON() ([]byte, error) {
	return json.Marshal(wiredEdge{e.Edge, [2]real{real(e.ModelS), real(e.ResidualS)}, e.Used})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (e *FitEdge) UnmarshalJSON(text []byte) error {
	var w wiredEdge
	err := json.Unmarshal(text, &w)
	*e = FitEdge{w.Edge, float64(w.Fitted[0]), float64(w.Fitted[1]), w.Used}
	return err
}

// A wiredUnknown is an Unknown on its way.
type wiredUnknown struct {
	Quantity Quantity
	Values   [3]real // Value, Low, High
	Told     bool
}

// MarshalJSON writes the unknown.
func (u Unknown) MarshalJSON() ([]byte, error) {
	return json.Marshal(wiredUnknown{u.Quantity, [3]real{real(u.Value), real(u.Low), real(u.High)}, u.Told})
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (u *Unknown) UnmarshalJSON(text []byte) error {
	var w wiredUnknown
	err := json.Unmarshal(text, &w)
	*u = Unknown{w.Quantity, float64(w.Values[0]), float64(w.Values[1]), float64(w.Values[2]), w.Told}
	return err
}
