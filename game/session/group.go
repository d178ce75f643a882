package session

import (
	"strings"

	"wheelroom/physics/phrase"
)

// groups are the groups of the parts that no single floor has.
var groups = map[string]string{
	"handwheel": "machine", "motor": "machine", "brake": "machine", "gear": "machine", "sheave": "machine",
	"rope": "shaft", "car": "shaft", "counterweight": "shaft", "car-door": "shaft", "cam": "shaft", "lock": "shaft",
	"vane-switch": "shaft", "door-open": "shaft", "at-rest": "shaft", "landing-door": "shaft",
	"slow-down-top": "shaft", "slow-down-bottom": "shaft", "stop-limit-top": "shaft", "stop-limit-bottom": "shaft",
	"final-limit-top": "shaft", "final-limit-bottom": "shaft",
	"wheel": "wheel", "ring": "wheel", "brush": "wheel", "crossover": "wheel", "track": "wheel",
	"advance-up-ramp": "wheel", "centre-ramp": "wheel", "advance-down-ramp": "wheel",
	"safety-line": "safety", "stop-switch": "safety", "governor": "safety", "safety-gear": "safety", "overload": "safety",
	"relay": "relays", "terminal": "terminals",
}

// partGroup names the group in which a list shows a part: what belongs to one
// floor stands together.
func (s *Session) partGroup(id string) phrase.Phrase {
	kind, which, several := strings.Cut(id, ".")
	if g, ok := groups[kind]; ok {
		return phrase.Of("part.group-" + g)
	}
	if several && s.machine().Plan().Floor(which) >= 0 {
		return phrase.Of("part.group-floor", "which", which)
	}
	return phrase.Of("part.group-machine")
}
