package session

import (
	"strings"

	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// Of the events of one step the weightiest is said. What the passenger would
// notice comes first, then the relays that decide, then the rest.
var weights = map[string]int{"stop": 6, "call": 5, "door": 4, "relay": 3, "direction": 2, "lamp": 1, "rim": 1, "advance-up": 1, "advance-down": 1}

// counts reports whether an event is a step of its own: it can be put into
// words, and is of account. The advance contact of the other direction is not:
// it is wired through a relay that is out.
func counts(events []lift.Event, i int) bool {
	kind := kindOf(events[i].Part)
	switch kind {
	case "advance-up":
		return way(events[:i]) != "relay.down-contactor"
	case "advance-down":
		return way(events[:i]) != "relay.up-contactor"
	}
	return weights[kind] > 0
}

// way is the direction contactor that came in last, "" for none.
func way(events []lift.Event) lift.Part {
	for i := len(events) - 1; i >= 0; i-- {
		if e := &events[i]; e.State == "1" && (e.Part == "relay.up-contactor" || e.Part == "relay.down-contactor") {
			return e.Part
		}
	}
	return ""
}

// tell puts what has happened since it was last asked into one sentence, and
// reports whether there was anything.
func (s *Session) tell(events []lift.Event) bool {
	s.told = min(s.told, len(events))
	best := -1
	for i := s.told; i < len(events); i++ {
		if counts(events, i) && (best < 0 || weights[kindOf(events[i].Part)] >= weights[kindOf(events[best].Part)]) {
			best = i
		}
	}
	s.told = len(events)
	if best < 0 {
		return false
	}
	s.say(Sentence(events[best]))
	s.touch()
	return true
}

// say makes a sentence the last one said.
func (s *Session) say(p phrase.Phrase) {
	s.said = p
	s.saying++
}

// hush takes back the last sentence, which was about another moment.
func (s *Session) hush() {
	if s.said.ID != "" {
		s.said = phrase.Phrase{}
		s.saying++
	}
}

// Sentence says an event in one short sentence.
func Sentence(e lift.Event) phrase.Phrase {
	kind, name, _ := strings.Cut(string(e.Part), ".")
	switch kind {
	case "stop":
		if e.State == "-" {
			return phrase.Of("said.departs")
		}
		return phrase.Of("said.stops", "floor", e.State)
	case "door":
		return phrase.Of("said.door-" + e.State)
	case "direction":
		return phrase.Of("said.direction-"+e.State, "floor", name)
	case "relay":
		return phrase.Of("said.relay-"+onOff(e.State), "relay", phrase.Of("part.relay-"+name))
	}
	return phrase.Of("said."+kind+"-"+onOff(e.State), "floor", name)
}

// onOff is the last word of a message about a thing that is on or off.
func onOff(state string) string {
	if state == "1" {
		return "on"
	}
	return "off"
}

// kindOf is what stands before the point of a part's name.
func kindOf(p lift.Part) string {
	kind, _, _ := strings.Cut(string(p), ".")
	return kind
}
