// Package session is one person's time with a machine: a clock that runs it at
// a chosen speed, steps from event to event, the lesson that may have the
// machine to itself, and the drawing of what there is to see.
//
// It has no screen and no clock of its own: somebody calls Tick. A session can
// be written down as a Record and brought back, so that a page may lose the
// frame that holds it. Times are seconds of the machine unless they say
// otherwise.
package session

import (
	"wheelroom/game/scene"
	"wheelroom/lessons/script"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// In key frames the picture changes no oftener than this, seconds of the
// viewer's clock.
const frameS = 0.5

// Speeds are the speeds there are, machine seconds to one of the viewer's.
var Speeds = []float64{0.25, 1, 4, 16}

// A step without an event ends after this long: the circuit may be waiting for
// a door, never longer.
const longestStepS = 60.0

// The machine is looked at this often while it runs, for the chart, seconds.
const lookS = 0.02

// Building is a building that ships.
type Building struct {
	ID   string // name of its file without the suffix
	Text []byte
}

// Options are what a session works with. Buildings must not be empty and each
// must be sound: they ship with the program.
type Options struct {
	Words     func(phrase.Phrase) string
	Buildings []Building
	Lessons   []*script.Lesson
}

// A Session is one machine, its clock and its picture. Make it with New.
type Session struct {
	o     Options
	tutor *tutor.Tutor

	id   string // of the shipped building, "" for one from a file
	text []byte // the building file
	plan *building.Plan
	free *lift.Machine // the reader's own, beside any lesson

	running bool
	speed   float64
	said    phrase.Phrase
	saying  int // grows with each sentence
	told    int // events of the machine that have been put into words

	view    lift.View
	shown   *lift.Machine // whose view, chart and scene these are
	chart   *scene.Record
	scene   *scene.Scene
	picture scene.Options
	changed bool // something has changed since Changed was last asked
	looked  int  // grows with each look at the machine that is to be drawn
	frames  bool // key frames instead of motion
	stillS  float64
}

// New returns a session with the first building at rest.
func New(o Options) (*Session, error) {
	s := &Session{o: o, speed: 1}
	s.picture = scene.Options{Width: 960, Height: 560, Words: o.Words}
	s.tutor = tutor.New(o.Lessons, tutor.Lift, o.Words)
	return s, s.Open(o.Buildings[0].ID)
}

// machine is the machine on the stage: the lesson's while one is open.
func (s *Session) machine() *lift.Machine {
	if m, ok := s.tutor.Machine().(*lift.Machine); ok {
		return m
	}
	return s.free
}

// Machine returns the machine on the stage. It must only be looked at.
func (s *Session) Machine() *lift.Machine { return s.machine() }

// lesson reports whether a lesson is open.
func (s *Session) lesson() bool { return s.tutor.Phase() != tutor.Closed }

// Run lets time pass with every Tick. A lesson waits for its own moment: in
// one, Run begins the stretch that may be run now.
func (s *Session) Run() error {
	switch s.tutor.Phase() {
	case tutor.Closed:
		if s.free.Stopped() != "" {
			return refuse(s.free.Stopped())
		}
	case tutor.Committed, tutor.Paused:
		if err := s.tutor.Do("continue", ""); err != nil {
			return err
		}
	default:
		if !s.tutor.Moving() {
			return refuse("stage.answer-first")
		}
	}
	s.running = true
	s.touch()
	return nil
}

// Pause stops time.
func (s *Session) Pause() {
	s.running = false
	s.touch()
}

// Speed sets how fast Tick lets time pass; other than the Speeds it refuses.
func (s *Session) Speed(speed float64) error {
	for _, known := range Speeds {
		if speed == known {
			s.speed = speed
			s.touch()
			return nil
		}
	}
	return refuse("stage.unknown-speed", "speed", phrase.Num(speed, 2))
}

// KeyFrames shows events instead of motion: the picture changes only when
// something has happened, for people whom motion disturbs.
func (s *Session) KeyFrames(on bool) { s.frames = on }

// Tick lets dt seconds of the viewer's clock pass. While paused it does
// nothing. It reports whether anything moved.
func (s *Session) Tick(dt float64) bool {
	if !s.running {
		return false
	}
	s.stillS += dt
	if s.lesson() {
		s.tickLesson(dt)
		return true
	}
	s.advance(dt * s.speed)
	return true
}

// tickLesson lets the tutor move its machine; at the end of a stretch it
// stops by itself.
func (s *Session) tickLesson(dt float64) {
	s.tutor.Tick(dt * s.speed)
	s.look()
	if !s.tutor.Moving() {
		s.running = false
		s.touch()
	}
}

// advance moves the reader's own machine in steps short enough for the chart.
func (s *Session) advance(seconds float64) {
	for seconds > 0 && s.free.Stopped() == "" {
		d := min(seconds, lookS)
		s.free.Advance(d)
		seconds -= d
		s.look()
	}
	if s.free.Stopped() != "" && s.running {
		s.running = false
		s.say(phrase.Of(s.free.Stopped()))
		s.touch()
	}
}

// Advance lets machine time pass at once: of a lesson no more than the stretch
// that may be run now.
func (s *Session) Advance(seconds float64) error {
	if !(seconds >= 0 && seconds <= 86400) {
		return refuse("stage.bad-seconds", "seconds", phrase.Num(seconds, 1))
	}
	if !s.lesson() {
		s.advance(seconds)
		s.touch()
		return nil
	}
	if !s.tutor.Moving() {
		return refuse("stage.answer-first")
	}
	for seconds > 0 && s.tutor.Moving() {
		d := min(seconds, lookS)
		s.tutor.Tick(d / s.tutor.Speed())
		seconds -= d
		s.look()
	}
	s.touch()
	return nil
}

// Step lets time pass to the next event and stops there.
func (s *Session) Step() error {
	s.running = false
	if s.lesson() {
		if !s.tutor.Panel().CanStep {
			return refuse("stage.answer-first")
		}
		s.tutor.Step()
		s.look()
		s.touch()
		return nil
	}
	if s.free.Stopped() != "" {
		return refuse(s.free.Stopped())
	}
	if s.free.Idle() && s.free.AllDone() {
		s.say(phrase.Of("stage.at-rest"))
		s.touch()
		return nil
	}
	// What cannot be put into words, such as the brush leaving a terminal, is
	// no step of its own.
	for s.free.Step(longestStepS) && !s.look() {
	}
	s.look()
	s.touch()
	return nil
}

// Call presses the call button of a landing.
func (s *Session) Call(floor string) error {
	f := s.plan.Floor(floor)
	switch {
	case s.lesson():
		// A finger on the picture hears no refusal: it is said.
		s.say(phrase.Of("stage.lesson-calls"))
		s.touch()
		return refuse("stage.lesson-calls")
	case f < 0:
		return refuse("stage.unknown-floor", "floor", floor)
	}
	s.free.Press(f)
	// The button is down at once, also while time stands still.
	s.say(phrase.Of("stage.pressed", "floor", floor))
	s.look()
	s.touch()
	return nil
}

// Reset puts the reader's machine back to its start; in a lesson the item
// begins again.
func (s *Session) Reset() error {
	s.running = false
	if s.lesson() {
		p := s.tutor.Panel()
		return s.LessonDo("open", itemAddress(p.ID, p.Item))
	}
	m, err := lift.New(s.plan, lift.Options{})
	if err != nil {
		return err
	}
	s.free = m
	s.said = phrase.Phrase{}
	s.look()
	s.touch()
	return nil
}
