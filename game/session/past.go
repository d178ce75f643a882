package session

import (
	"math"

	"wheelroom/game/timeline"
	"wheelroom/physics/phrase"
)

// LookAt shows the run on the stage as it was at a time, to the machine's
// step; nothing of the run changes. From the end on it shows the end, so
// nothing that has not run yet can be seen. It says nothing, so that a reader
// may slide through the run in silence.
func (s *Session) LookAt(timeS float64) error {
	if math.IsNaN(timeS) {
		return refuse("time.bad-moment")
	}
	s.line().At(timeS)
	s.hush()
	s.jumped()
	return nil
}

// LookAtEvent shows the run as it was right after one of its events, and says
// the event.
func (s *Session) LookAtEvent(i int) error {
	if !s.line().AtEvent(i) {
		return refuse("time.bad-moment")
	}
	s.stand(i)
	return nil
}

// Back goes to the event before this moment; before the first, to the start.
func (s *Session) Back() error {
	i := s.line().Back(counts)
	if i < 0 {
		s.say(phrase.Of("time.start"))
	}
	s.stand(i)
	return nil
}

// Return goes from a moment looked back at to the end of the run.
func (s *Session) Return() {
	s.line().Return()
	s.hush()
	s.jumped()
}

// stand shows what has been jumped to, and says event i where there is one.
func (s *Session) stand(i int) {
	s.jumped()
	if events := s.machine().Events(); i >= 0 && i < len(events) && counts(events, i) {
		s.say(Sentence(events[i]))
	}
}

// jumped brings the picture to another moment, without a word on what lies
// between.
func (s *Session) jumped() {
	s.running = false
	s.told = len(s.machine().Events())
	s.look()
	s.touch()
}

// goOn makes the moment looked back at the end of a new run of the reader's
// machine, and sets the run it belonged to aside. It reports whether one was
// looking back.
func (s *Session) goOn() bool {
	if !s.free.Looking() {
		return false
	}
	s.aside, s.free = s.free, s.free.Branch()
	s.running = false
	return true
}

// Undo brings back the run that was set aside when the reader went on from a
// moment of it, or started again; the other one takes its place.
func (s *Session) Undo() error {
	if s.lesson() || s.aside == nil {
		return refuse("time.nothing-aside")
	}
	s.aside, s.free = s.free, s.aside
	s.jumped()
	s.say(phrase.Of("time.brought-back", "time", phrase.Num(s.free.End().TimeS(), 1)))
	return nil
}

// Strip returns the run on the stage at a glance, as far as it has come.
func (s *Session) Strip() timeline.Strip { return s.line().Strip() }

// An Entry is one event of the run that can be put into words.
type Entry struct {
	Event int     `json:"event"` // its place among all events
	TimeS float64 `json:"time_s"`
	Kind  string  `json:"kind"` // what stands before the point of the part's name
	Part  string  `json:"part"`
	State string  `json:"state"`
	Text  string  `json:"text"`
	Cause int     `json:"cause"` // the nearest event before it, by cause, that can be put into words; -1 for none
}

// Entries lists the events of the run on the stage from one of them on, as far
// as the run has come.
func (s *Session) Entries(from int) []Entry {
	events := s.line().End().Events()
	list := []Entry{}
	for i := max(from, 0); i < len(events); i++ {
		if !counts(events, i) {
			continue
		}
		e := events[i]
		cause := e.Cause
		for cause >= 0 && !counts(events, cause) {
			cause = events[cause].Cause
		}
		list = append(list, Entry{i, e.TimeS, kindOf(e.Part), string(e.Part), e.State, s.o.Words(Sentence(e)), cause})
	}
	return list
}
