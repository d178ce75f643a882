package control

import "slices"

// Guard says against what a contact protects. Such a contact is never bridged,
// not even to try what would happen.
type Guard uint8

// The guards. NoGuard is an ordinary contact.
const (
	NoGuard        Guard = iota
	SafetyGuard          // a contact of the safety line
	LockGuard            // a door or lock contact
	LimitGuard           // a slow-down, stop limit or final limit at the end of the travel
	InterlockGuard       // keeps two things from being on together, or the car from moving with its doors in use
)

// String returns the guard's word: "", "safety", "lock", "limit", "interlock".
func (g Guard) String() string {
	return [...]string{"", "safety", "lock", "limit", "interlock"}[g]
}

// Guard returns what leaf i of the wiring guards against.
func (w *Wiring) Guard(i int) Guard {
	l := &w.Leaves[i]
	c, ok := l.Body.(Contact)
	if !ok {
		return NoGuard
	}
	branch := w.Diagram.Branches[l.Branch].Name
	switch c.Part {
	case "car-door", "landing-door", lock:
		return LockGuard
	case "slow-down-top", "slow-down-bottom", "stop-limit-top", "stop-limit-bottom", "final-limit-top", "final-limit-bottom":
		return LimitGuard
	case "stop-switch", "governor", "safety-gear", "overload":
		return SafetyGuard
	case "at-rest":
		return InterlockGuard
	}
	if c.Breaks && slices.Contains(keepsApart[c.Part], branch) {
		return InterlockGuard
	}
	return NoGuard
}

// keepsApart lists, by part, the branches in which its break contact is an
// interlock.
var keepsApart = map[string][]string{
	up:            {"down", "down-contactor", "door"},
	down:          {"up", "up-contactor", "door"},
	upContactor:   {"down-contactor", "direction", "start", "door"},
	downContactor: {"up-contactor", "direction", "start", "door"},
	fast:          {"slow"},
	slow:          {"fast"},
	door:          {"up-pull", "down-pull", "start", "cam", "direction"},
	// Were it closed as the line pulls in, the line would feed what hangs behind
	// a broken safety line.
	start: {"up-hold", "down-hold"},
}
