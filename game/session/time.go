package session

import (
	"slices"

	"wheelroom/game/timeline"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/phrase"
)

// Speeds are the speeds there are, machine seconds to one of the viewer's.
var Speeds = []float64{0.25, 1, 4, 16}

// A step without an event ends after this long: the circuit may be waiting for
// a door, never longer.
const longestStepS = 60.0

// In key frames the picture changes no oftener than this, seconds of the
// viewer's clock.
const frameS = 0.5

// Run lets time pass with every Tick: looking back, what has been is shown
// again up to the end. A lesson waits for its own moment: in one, Run begins
// the stretch that may be run now.
func (s *Session) Run() error {
	phase := s.tutor.Phase()
	switch {
	case s.line().Looking():
	case phase == tutor.Closed:
		if why := s.machine().Stopped(); why != "" {
			return refuse(why)
		}
	case phase == tutor.Committed, phase == tutor.Paused:
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
	s.exact()
	s.touch()
}

// pace is how many seconds of the machine pass in one of the viewer's.
func (s *Session) pace() float64 {
	if s.lesson() {
		return s.speed * s.tutor.Speed()
	}
	return s.speed
}

// Speed sets how fast Tick lets time pass; other than the Speeds it refuses.
func (s *Session) Speed(speed float64) error {
	if !slices.Contains(Speeds, speed) {
		return refuse("stage.unknown-speed", "speed", phrase.Num(speed, 2))
	}
	s.speed = speed
	s.touch()
	return nil
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
	s.calm.clockS += dt
	switch {
	case !s.lesson():
		s.advance(dt * s.speed)
	case s.line().Looking():
		s.show(dt * s.pace())
		if !s.line().Looking() {
			s.Pause()
		}
	default:
		s.tutor.Tick(dt * s.speed)
		s.look()
		if !s.tutor.Moving() {
			s.Pause()
		}
	}
	return true
}

// show plays what has been, to the end at the most, and returns the seconds
// left over.
func (s *Session) show(seconds float64) float64 {
	line := s.line()
	for seconds > 0 && line.Looking() {
		seconds = line.Advance(seconds)
		s.look()
	}
	if !line.Looking() {
		s.touch()
	}
	return seconds
}

// advance moves the reader's own machine: first what has been, then on.
func (s *Session) advance(seconds float64) {
	if s.free.Looking() {
		seconds = s.show(seconds)
	}
	for seconds > 0 && s.machine().Stopped() == "" {
		seconds = s.free.Advance(seconds)
		s.look()
	}
	if why := s.machine().Stopped(); why != "" && s.running && !s.free.Looking() {
		s.say(phrase.Of(why))
		s.Pause()
	}
}

// Advance lets machine time pass at once: of a lesson no more than the stretch
// that may be run now, and while one looks back in it no more than has been.
func (s *Session) Advance(seconds float64) error {
	if !(seconds >= 0 && seconds <= 86400) {
		return refuse("stage.bad-seconds", "seconds", phrase.Num(seconds, 1))
	}
	defer s.touch()
	defer s.exact()
	switch {
	case !s.lesson():
		s.advance(seconds)
		return nil
	case s.line().Looking():
		s.show(seconds)
		return nil
	case !s.tutor.Moving():
		return refuse("stage.answer-first")
	}
	for seconds > 0 && s.tutor.Moving() {
		d := min(seconds, timeline.LookS)
		s.tutor.Tick(d / s.tutor.Speed())
		seconds -= d
		s.look()
	}
	return nil
}

// Step goes to the next event and stops there: looking back, to the next one
// of what has been.
func (s *Session) Step() error {
	defer s.touch()
	s.running = false
	line := s.line()
	switch {
	case line.Looking():
		s.stand(line.Forward(counts))
		return nil
	case s.lesson():
		if !s.tutor.Panel().CanStep {
			return refuse("stage.answer-first")
		}
		s.tutor.Step()
		s.look()
		return nil
	case line.End().Stopped() != "":
		return refuse(line.End().Stopped())
	case line.End().Idle() && line.End().AllDone():
		s.say(phrase.Of("stage.at-rest"))
		return nil
	}
	// What cannot be put into words, such as the brush leaving a terminal, is
	// no step of its own.
	for line.Step(longestStepS) && !s.look() {
	}
	s.look()
	if why := line.End().Stopped(); why != "" {
		s.say(phrase.Of(why))
	}
	return nil
}
