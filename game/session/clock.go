package session

import (
	"wheelroom/physics/trace"
)

// A Clock is what a page shows of time, and what may be done now.
type Clock struct {
	TimeS     float64 `json:"time_s"`
	Running   bool    `json:"running"`
	Speed     float64 `json:"speed"`
	CanRun    bool    `json:"canRun"`
	CanStep   bool    `json:"canStep"`
	CanCall   bool    `json:"canCall"`
	Said      string  `json:"said"`      // the last sentence
	SaidCount int     `json:"saidCount"` // grows with each
	Chosen    string  `json:"chosen"`    // part
}

// Clock returns the clock as it stands.
func (s *Session) Clock() Clock {
	c := Clock{
		TimeS: s.view.TimeS, Running: s.running, Speed: s.speed,
		Said: s.o.Words(s.said), SaidCount: s.saying, Chosen: s.picture.Chosen,
	}
	if s.lesson() {
		p := s.tutor.Panel()
		c.CanRun, c.CanStep = p.CanRun, p.CanStep
		return c
	}
	alive := s.free.Stopped() == ""
	c.CanRun, c.CanStep, c.CanCall = alive, alive, alive
	return c
}

// Snapshot returns the state of the machine on the stage.
func (s *Session) Snapshot() trace.Snapshot { return trace.Look(s.machine()) }
