package session

import (
	"wheelroom/physics/trace"
)

// A Clock is what a page shows of time, and what may be done now.
type Clock struct {
	TimeS     float64 `json:"time_s"`
	EndS      float64 `json:"endS"`    // how far the run has come
	Looking   bool    `json:"looking"` // back, at a moment before the end
	Run       int     `json:"run"`     // another number for another run
	Events    int     `json:"events"`  // that have happened
	Running   bool    `json:"running"`
	Speed     float64 `json:"speed"`
	CanRun    bool    `json:"canRun"`
	CanStep   bool    `json:"canStep"`
	CanBack   bool    `json:"canBack"`
	CanCall   bool    `json:"canCall"`
	CanUndo   bool    `json:"canUndo"`   // a run was set aside
	Said      string  `json:"said"`      // the last sentence
	SaidCount int     `json:"saidCount"` // grows with each
	Chosen    string  `json:"chosen"`    // part
	Scale     float64 `json:"scale"`     // of the picture, 1 for the whole
}

// Clock returns the clock as it stands.
func (s *Session) Clock() Clock {
	line := s.line()
	c := Clock{
		TimeS: s.view.TimeS, EndS: line.End().TimeS(), Looking: line.Looking(), Run: s.runs, Events: len(line.Machine().Events()), Running: s.running, Speed: s.speed,
		Said: s.o.Words(s.said), SaidCount: s.saying, Chosen: s.picture.Chosen, Scale: s.Lens().Scale,
	}
	alive := line.Machine().Stopped() == ""
	c.CanRun, c.CanStep, c.CanCall, c.CanUndo = alive, alive, alive, s.aside != nil
	c.CanBack = c.TimeS > 0 || len(line.Machine().Events()) > 0
	if s.lesson() {
		p := s.tutor.Panel()
		c.CanRun, c.CanStep, c.CanCall, c.CanUndo = p.CanRun || c.Looking, p.CanStep || c.Looking, false, false
	}
	return c
}

// Snapshot returns the state of the machine on the stage.
func (s *Session) Snapshot() trace.Snapshot { return trace.Look(s.machine()) }
