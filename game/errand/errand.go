// Package errand is what a page and its worker say to each other about a long
// piece of work, which the worker does so that the page waits for nobody. The
// page hands over a Task and is sent lines, each a JSON object.
package errand

import (
	"encoding/json"

	"wheelroom/physics/building"
)

// A Task is one piece of work: to Prove the circuit of a building, or to Match
// its ring to what a passenger saw.
type Task struct {
	Do       string `json:"do"`
	Building string `json:"building"` // a building file

	// Of Match: what was seen, CSV as physics/match reads it, and the measured
	// speed with its error, m/s; 0: not measured.
	Observed     string  `json:"observed,omitempty"`
	SpeedMS      float64 `json:"speed_ms,omitempty"`
	SpeedErrorMS float64 `json:"speed_error_ms,omitempty"`
}

// What a task may do.
const (
	Prove = "prove"
	Match = "match"
)

// A Line is one line of an answer: how much is done of how much, as the work
// goes on; at last a Report, or the Error for what cannot be done.
type Line struct {
	Done   int             `json:"done,omitempty"`
	Of     int             `json:"of,omitempty"`
	Report json.RawMessage `json:"report,omitempty"` // proof.Report or match.Result
	Error  string          `json:"error,omitempty"`
}

// ToProve is the task of proving a plan's circuit.
func ToProve(p *building.Plan) Task {
	return Task{Do: Prove, Building: string(building.Write(*p))}
}
