package study

import (
	"strings"

	"wheelroom/physics/lift"
)

// A Link is one thing that happens in a sequence of causes.
type Link struct {
	Event  int // index into the machine's events
	Part   lift.Part
	State  string
	TimeS  float64 // since the sequence began
	Cause  int     // the link that brought it about; -1: an input, or the car's travel
	AfterS float64 // since its cause; since the sequence began where there is none
}

// Sequence follows what event from sets off: with the car at rest then until
// it sets off, with the car on its way until it stands with its doors open. A
// lamp or a contact that brings nothing about is left out. The links are in
// causal order and time never runs back.
func Sequence(events []lift.Event, from int) []Link {
	if from < 0 || from >= len(events) {
		return nil
	}
	to := ending(events, from)
	keep := make([]bool, to-from)
	for i := to - 1; i >= from; i-- {
		e := &events[i]
		k := &keep[i-from]
		// An effect outside the window does not make a cause worth telling.
		*k = *k || i == from || telling(e.Part) && e.Cause >= from
		if *k && e.Cause >= from {
			keep[e.Cause-from] = true
		}
	}
	var out []Link
	place := make([]int, to-from)
	for i := from; i < to; i++ {
		if !keep[i-from] {
			continue
		}
		e := &events[i]
		l := Link{Event: i, Part: e.Part, State: e.State, TimeS: e.TimeS - events[from].TimeS, Cause: -1}
		l.AfterS = l.TimeS
		if e.Cause >= from {
			l.Cause = place[e.Cause-from]
			l.AfterS = e.TimeS - events[e.Cause].TimeS
		}
		place[i-from] = len(out)
		out = append(out, l)
	}
	return out
}

// ending is the index behind the last event of the sequence that begins with
// event from.
func ending(events []lift.Event, from int) int {
	moving := false
	for _, e := range events[:from] {
		if e.Part == "at-rest" {
			moving = e.State == "0"
		}
	}
	for i := from; i < len(events); i++ {
		e := &events[i]
		if !moving && e.Part == "at-rest" && e.State == "0" || moving && e.Part == "door-open" && e.State == "1" {
			// What follows at the same instant belongs to it.
			for i++; i < len(events) && events[i].TimeS == e.TimeS; i++ {
			}
			return i
		}
		if moving && e.Part == "at-rest" && e.State == "0" && i > from {
			return i
		}
	}
	return len(events)
}

// telling tells whether a part's events are worth telling for themselves.
func telling(part lift.Part) bool {
	kind, _, _ := strings.Cut(string(part), ".")
	switch kind {
	case "lamp", "call-lamp", "terminal", "rim", "direction", "advance-up", "advance-down", "button":
		return false
	}
	return true
}

// StartOf returns the event that began a run's departure, the press of the
// button, and StopOf the one that began its slow-down; -1 for none.
func (r *Run) StartOf() int {
	events := r.Machine.Events()
	move := after(events, 0, "0", "at-rest")
	if move < 0 {
		return -1
	}
	return 0
}

// StopOf returns the event that began the run's slow-down, -1 for none.
func (r *Run) StopOf() int { return find(r.Machine.Events()).advance }

// Stops lists the events that began the slow-downs of a whole history of a
// machine, and Starts those that began its departures; the last ones last.
func Stops(events []lift.Event) []int {
	return roots(events, func(e *lift.Event) bool { return e.Part == "relay.fast" && e.State == "0" })
}

// Starts lists the events that began the departures of a machine.
func Starts(events []lift.Event) []int {
	return roots(events, func(e *lift.Event) bool { return e.Part == "at-rest" && e.State == "0" })
}

func roots(events []lift.Event, is func(*lift.Event) bool) []int {
	var out []int
	for i := range events {
		if !is(&events[i]) {
			continue
		}
		if r := root(events, i); len(out) == 0 || out[len(out)-1] != r {
			out = append(out, r)
		}
	}
	return out
}
