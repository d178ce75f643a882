package session

import (
	"slices"

	"wheelroom/game/timeline"
	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/document"
	"wheelroom/physics/lift"
	"wheelroom/physics/survey"
)

// Open puts a building that ships on the stage.
func (s *Session) Open(id string) error {
	i := slices.IndexFunc(s.o.Buildings, func(b Building) bool { return b.ID == id })
	if i < 0 {
		return refuse("stage.unknown-building", "building", id)
	}
	if err := s.Load(s.o.Buildings[i].Text); err != nil {
		return err
	}
	s.id = id
	return nil
}

// Load puts the building of a file on the stage. If anything is wrong with the
// file the machine stays as it was and the error is a FileError.
func (s *Session) Load(text []byte) error {
	plan, problems := survey.Read("", text)
	if document.Failed(problems) {
		return FileError{problems}
	}
	m, err := lift.New(&plan, lift.Options{})
	if err != nil {
		return err
	}
	if s.lesson() {
		if err := s.tutor.Do("close", ""); err != nil {
			return err
		}
	}
	s.id, s.text, s.plan, s.start = "", slices.Clone(text), &plan, lift.Options{}
	s.free, s.aside = timeline.New(m), nil
	s.running = false
	s.hush()
	s.picture.Chosen = ""
	s.look()
	s.touch()
	return nil
}

// A Summary is the building on the stage, as a page shows it.
type Summary struct {
	ID       string         `json:"id,omitempty"` // of one that ships
	Name     string         `json:"name"`
	Floors   []SummaryFloor `json:"floors"` // lowest first
	Warnings []string       `json:"warnings"`
}

// A SummaryFloor is one landing of a Summary.
type SummaryFloor struct {
	Name    string  `json:"name"`
	HeightM float64 `json:"height_m"`
}

// Building returns the building on the stage, the lesson's while one is open.
func (s *Session) Building() Summary {
	// A page asks often, and the check reads a whole file.
	of := summed{s.machine().Wiring(), s.id, s.lesson()}
	if s.summed != of {
		s.summed, s.summary = of, s.summarise(of)
	}
	return s.summary
}

// summed is what a summary was made from.
type summed struct {
	wiring   *control.Wiring
	building string
	lesson   bool
}

func (s *Session) summarise(of summed) Summary {
	plan := s.machine().Plan()
	b := Summary{ID: s.id, Name: plan.Name, Warnings: []string{}}
	for _, f := range plan.Floors {
		b.Floors = append(b.Floors, SummaryFloor{f.Name, f.HeightM})
	}
	if of.lesson {
		b.ID = s.tutor.Building()
		return b
	}
	for _, p := range append(building.Check(*plan), survey.Survey(plan)...) {
		b.Warnings = append(b.Warnings, s.o.Words(p.Phrase))
	}
	return b
}

// look brings the view up to the moment on the stage, and lays the scene out
// anew when it is another machine's. It reports whether anything has happened
// that can be put into words.
func (s *Session) look() (told bool) {
	line := s.line()
	m := line.Machine()
	if line == s.study && !line.Looking() {
		line.Keep() // the tutor has moved it
	}
	m.Look(&s.view)
	if line != s.shown {
		if s.shown == nil || s.shown.End().Wiring() != m.Wiring() {
			s.scene = nil
		}
		s.shown, s.told = line, len(m.Events())
		s.runs++
	}
	s.ears.hear(m.Events()[min(s.told, len(m.Events())):], &s.view)
	told = s.tell(m.Events())
	if s.owed = s.owed || told; s.running && s.frames && (!s.owed || s.stillS < frameS) {
		return told
	}
	s.stillS, s.owed = 0, false
	s.calm.see(&s.view, s.running)
	s.looked++
	return told
}

// exact shows every mark as it is now, also one that was held back while time
// passed.
func (s *Session) exact() {
	s.calm.see(&s.view, false)
	s.looked++
}

// touch notes that something has changed that a page shows.
func (s *Session) touch() { s.changed = true }

// Changed reports whether anything has changed, other than the time passing,
// since it was last asked.
func (s *Session) Changed() bool {
	c := s.changed
	s.changed = false
	return c
}
