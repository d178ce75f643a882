package session

import (
	"slices"

	"wheelroom/lessons/tutor"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/lift"
)

// A Record is a whole session as plain data: what was opened, what was done to
// it and when, how far it has run. Played again it comes to the same state.
// It leaves out the picture's size, which belongs to whoever shows it.
type Record struct {
	Building string       `json:"building,omitempty"` // one that ships
	Text     string       `json:"text"`               // the building file
	Inputs   []lift.Input `json:"inputs"`
	TimeS    float64      `json:"time_s"`
	Events   int          `json:"events"` // had happened; some may share the instant
	Running  bool         `json:"running"`
	Speed    float64      `json:"speed"`
	Chosen   string       `json:"chosen,omitempty"`
	Lesson   tutor.State  `json:"lesson"`
}

// Record writes the session down.
func (s *Session) Record() Record {
	return Record{
		Building: s.id, Text: string(s.text), Inputs: slices.Clone(s.free.Inputs()), TimeS: s.free.TimeS(), Events: len(s.free.Events()),
		Running: s.running, Speed: s.speed, Chosen: s.picture.Chosen, Lesson: s.tutor.State(),
	}
}

// Restore brings a record back. If it cannot be played the session stays as
// it was.
func (s *Session) Restore(r Record) error {
	plan, problems := building.Read("", []byte(r.Text))
	if document.Failed(problems) {
		return FileError{problems}
	}
	if !slices.Contains(Speeds, r.Speed) || !(r.TimeS >= 0) {
		return refuse("stage.bad-record")
	}
	m, err := lift.New(&plan, lift.Options{})
	if err != nil {
		return err
	}
	for _, in := range r.Inputs {
		if p := m.Do(in); p.ID != "" {
			return Refusal{p}
		}
	}
	if err := s.tutor.Restore(r.Lesson); err != nil {
		return err
	}
	s.id, s.text, s.plan, s.free = r.Building, []byte(r.Text), &plan, m
	s.running, s.speed = r.Running, r.Speed
	s.picture.Chosen = ""
	s.replay(r.TimeS, r.Events)
	if r.Chosen != "" {
		_ = s.Choose(r.Chosen) // a part of another picture is simply not chosen
	}
	s.touch()
	return nil
}

// replay runs the reader's machine to a time and a number of events. The chart
// sees what it saw, unless the machine stands aside for a lesson.
func (s *Session) replay(timeS float64, events int) {
	aside := s.lesson()
	for t := 0.0; t < timeS && s.free.Stopped() == ""; {
		t = min(timeS, t+lookS)
		s.free.RunTo(t)
		if !aside {
			s.look()
		}
	}
	// A step ends on an event, between two points of the machine's grid.
	for len(s.free.Events()) < events && s.free.Step(2*lift.GridS) {
	}
	s.look()
}
