package session

import (
	"encoding/json"
	"slices"
)

// A work is long work that a worker of the page does. The page takes the task
// to the worker, tells here how it goes, and shows what comes of it.
type work struct {
	done, of int
	state    string // of those below
	reason   string // why it failed
}

// The states of a work.
const (
	underWay  = "running"
	finished  = "done"
	cancelled = "cancelled"
	failed    = "failed"
)

// A WorkStep is what a page does about a work: "start" it; tell that so
// much is "done", the "report", or why there is none, "failed"; "cancel" it; or
// "look" at it.
type WorkStep struct {
	Do       string
	Done, Of int
	Report   json.RawMessage
	Reason   string
}

// take takes in what is told of a work; a report is read into to. What is told
// after its end is late and means nothing.
func (w *work) take(q WorkStep, to any) error {
	if w.state != underWay {
		return nil
	}
	switch q.Do {
	case "done":
		w.done, w.of = q.Done, q.Of
	case "report":
		if err := json.Unmarshal(q.Report, to); err != nil {
			return refuse("stage.bad-arguments", "question", err.Error())
		}
		w.state = finished
	case "failed":
		w.state, w.reason = failed, q.Reason
	case "cancel":
		w.state = cancelled
	}
	return nil
}

// known reports whether a step is one of those there are.
func (q *WorkStep) known() bool {
	return slices.Contains([]string{"start", "done", "report", "failed", "cancel", "look"}, q.Do)
}
