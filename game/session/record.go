package session

import (
	"slices"

	"wheelroom/game/timeline"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// A Record is a whole session as plain data: what was opened, what was done to
// it and when, how far it has run. Played again it comes to the same state.
// It leaves out the picture's size, which belongs to whoever shows it.
type Record struct {
	Building string       `json:"building,omitempty"` // one that ships
	Text     string       `json:"text"`               // the building file
	Start    string       `json:"start,omitempty"`    // floor at which the run began, the lowest if none
	HeightM  *float64     `json:"height_m,omitempty"` // where it began instead, metres above the lowest floor
	Inputs   []lift.Input `json:"inputs"`
	TimeS    float64      `json:"time_s"`
	Events   int          `json:"events"` // had happened; some may share the instant
	Running  bool         `json:"running"`
	Speed    float64      `json:"speed"`
	Look     *Moment      `json:"look,omitempty"` // the moment looked back at
	Chosen   string       `json:"chosen,omitempty"`
	Lesson   tutor.State  `json:"lesson"`
}

// A Moment is one moment of a run: the last point of the machine's grid that
// it had passed, and the events that had happened.
type Moment struct {
	TimeS  float64 `json:"time_s"`
	Events int     `json:"events"`
}

// Record writes the session down.
func (s *Session) Record() Record {
	end := s.free.End()
	r := Record{
		Building: s.id, Text: string(s.text), Start: s.startFloor(), HeightM: s.start.HeightM, Inputs: slices.Clone(end.Inputs()), TimeS: end.TimeS(), Events: len(end.Events()),
		Running: s.running, Speed: s.speed, Chosen: s.picture.Chosen, Lesson: s.tutor.State(),
	}
	if m := s.free.Machine(); s.free.Looking() {
		r.Look = &Moment{m.TimeS(), len(m.Events())}
	}
	return r
}

// startFloor names the floor at which the reader's runs begin, "" for the
// lowest.
func (s *Session) startFloor() string {
	if s.start.Start == 0 {
		return ""
	}
	return s.plan.Floors[s.start.Start].Name
}

// begins says where on a plan the run of a record begins.
func (r *Record) begins(plan *building.Plan) (o lift.Options, err error) {
	if r.HeightM != nil && !(*r.HeightM >= 0 && *r.HeightM <= plan.TravelM()) {
		return o, refuse("stage.unknown-height", "found", phrase.Num(*r.HeightM, 3), "most", phrase.Num(plan.TravelM(), 3))
	}
	o.HeightM = r.HeightM
	if r.Start != "" {
		if o.Start = plan.Floor(r.Start); o.Start < 0 {
			return o, refuse("stage.unknown-floor", "floor", r.Start)
		}
	}
	return o, nil
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
	start, err := r.begins(&plan)
	if err != nil {
		return err
	}
	m, err := lift.New(&plan, start)
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
	s.id, s.text, s.plan, s.start = r.Building, []byte(r.Text), &plan, start
	s.free, s.aside = timeline.New(m), nil
	s.running, s.speed = r.Running, r.Speed
	s.picture.Chosen = ""
	s.replay(r.TimeS, r.Events)
	if r.Look != nil {
		s.free.AtMoment(r.Look.TimeS, r.Look.Events)
		s.look()
	}
	if r.Chosen != "" {
		_ = s.Choose(r.Chosen) // a part of another picture is simply not chosen
	}
	s.touch()
	return nil
}

// replay runs the reader's machine to a time and a number of events.
func (s *Session) replay(timeS float64, events int) {
	end := s.free.End()
	for left := timeS; left > 0 && end.Stopped() == ""; {
		left = s.free.Advance(left)
	}
	// A step ends on an event, between two points of the machine's grid.
	for len(end.Events()) < events && s.free.Step(2*lift.GridS) {
	}
	s.look()
}
