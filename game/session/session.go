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
	"slices"

	"wheelroom/game/figure"
	"wheelroom/game/scene"
	"wheelroom/game/timeline"
	"wheelroom/lessons/script"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

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
	Scenes    []*script.Lesson       // of the exhibit, the one that attracts first; no part of the course
	Written   func(id string) []byte // the file of a lesson that ships, nil for none; nil if there is no such thing
}

// A Session is one machine, its clock and its picture. Make it with New.
type Session struct {
	o     Options
	tutor *tutor.Tutor

	id    string // of the shipped building, "" for one from a file
	text  []byte // the building file
	plan  *building.Plan
	start lift.Options  // how the reader's runs begin
	free  *timeline.Run // the reader's own, beside any lesson
	aside *timeline.Run // the one that was left for free, to be brought back; nil for none
	study *timeline.Run // the lesson's, while one is open

	running bool
	speed   float64
	said    phrase.Phrase
	saying  int // grows with each sentence
	told    int // events of the machine that have been put into words

	ears    ears
	view    lift.View
	calm    calm          // what is drawn of the view
	shown   *timeline.Run // whose view and scene these are
	runs    int           // grows with each other run that is shown
	scene   *scene.Scene
	picture scene.Options
	lens    Lens             // what is seen of it
	through [2]figure.Figure // what still and what moves, seen through it
	close   *closeup         // nil until one is asked for
	summed  summed           // what the summary was made from
	summary Summary
	desks   desks // what screens keep between two questions

	changed bool // something has changed since Changed was last asked
	looked  int  // grows with each look at the machine that is to be drawn
	frames  bool // key frames instead of motion
	owed    bool // something has happened that no key frame has shown
	stillS  float64
}

// New returns a session with the first building at rest.
func New(o Options) (*Session, error) {
	s := &Session{o: o, speed: 1}
	s.picture = scene.Options{Width: 960, Height: 560, Words: o.Words}
	s.tutor = tutor.New(slices.Concat(o.Lessons, o.Scenes), tutor.Lift, o.Words)
	return s, s.Open(o.Buildings[0].ID)
}

// line is the run on the stage: the lesson's while one is open.
func (s *Session) line() *timeline.Run {
	m, ok := s.tutor.Machine().(*lift.Machine)
	if !ok {
		return s.free
	}
	if s.study == nil || s.study.End() != m {
		s.study = timeline.Follow(m)
	}
	return s.study
}

// machine is the machine on the stage, at the moment that is looked at.
func (s *Session) machine() *lift.Machine { return s.line().Machine() }

// Machine returns the machine on the stage. It must only be looked at.
func (s *Session) Machine() *lift.Machine { return s.machine() }

// lesson reports whether a lesson is open.
func (s *Session) lesson() bool { return s.tutor.Phase() != tutor.Closed }

// Do does something to the reader's own machine, now. Whoever looks back goes
// on from there.
func (s *Session) Do(in lift.Input) error {
	if s.lesson() {
		return refuse("stage.lesson-calls")
	}
	in.TimeS = s.free.Machine().TimeS()
	// What the machine does not take leaves the run as it is.
	if p := s.free.Machine().Clone().Do(in); p.ID != "" {
		return Refusal{p}
	}
	if s.goOn() {
		s.say(phrase.Of("time.goes-on", "time", phrase.Num(in.TimeS, 1)))
	}
	s.free.End().Do(in)
	s.look()
	s.touch()
	return nil
}

// Reset puts the reader's machine back to its start and sets the run so far
// aside; in a lesson the item begins again.
func (s *Session) Reset() error {
	s.running = false
	if s.lesson() {
		p := s.tutor.Panel()
		return s.LessonDo("open", itemAddress(p.ID, p.Item))
	}
	m, err := lift.New(s.plan, s.start)
	if err != nil {
		return err
	}
	if s.free.End().TimeS() > 0 {
		s.aside = s.free
	}
	s.free = timeline.New(m)
	s.hush()
	s.look()
	s.touch()
	return nil
}
