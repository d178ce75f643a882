package script

import (
	"strconv"
	"strings"

	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// Until is when a stretch of a run ends:
//
//	departs 3            an event (see Event), the first since the stretch began
//	departs 3 + 0.5 s    that long after it
//	2.5 s                that long after the stretch began
//	idle                 nothing is left to do, and has not been for two seconds
type Until struct {
	event  Event
	idle   bool
	afterS float64
	words  string
}

// String returns the condition as it was written.
func (u Until) String() string { return u.words }

// Part returns the part whose event is waited for, "" where it is none.
func (u Until) Part() lift.Part { return u.event.part }

// longestWaitS bounds a time written in a condition, seconds.
const longestWaitS = 600

// until reads a condition. On failure it returns what is wrong and, for a word
// not known, the words that are.
func (v *vocabulary) until(words string) (Until, *phrase.Phrase, []string) {
	u := Until{words: words}
	what := strings.TrimSpace(words)
	if seconds, ok := seconds(what); ok {
		u.afterS = seconds
		return u, nil, nil
	}
	if name, delay, ok := strings.Cut(what, " + "); ok {
		after, ok := seconds(strings.TrimSpace(delay))
		if !ok {
			wrong := phrase.Of("lesson.bad-delay", "found", delay)
			return u, &wrong, nil
		}
		u.afterS, what = after, strings.TrimSpace(name)
	}
	if what == "idle" {
		u.idle = true
		return u, nil, nil
	}
	event, ok := v.events[what]
	if !ok {
		wrong := phrase.Of("lesson.unknown-event", "found", what)
		return u, &wrong, append(sortedKeys(v.events), "idle")
	}
	u.event = event
	return u, nil, nil
}

// seconds reads a time such as "2.5 s", above zero and not too long.
func seconds(s string) (float64, bool) {
	number, ok := strings.CutSuffix(s, " s")
	if !ok {
		return 0, false
	}
	v, err := strconv.ParseFloat(number, 64)
	return v, err == nil && v > 0 && v <= longestWaitS
}

// Reached reports whether a stretch that began at time sinceS, with from
// events in the log, has come to its end.
func (u Until) Reached(l *Log, from int, sinceS float64) bool {
	switch {
	case u.idle:
		return reached(l.NowS, sinceS+quietS+u.afterS) && l.idle(quietS+u.afterS)
	case u.event.part == "":
		return reached(l.NowS, sinceS+u.afterS)
	}
	i := u.event.first(l, from)
	return i >= 0 && reached(l.NowS, l.Events[i].TimeS+u.afterS)
}

// reached compares times that were added up step by step: a nanosecond is far
// under any step and far over the error of the sums.
func reached(nowS, whenS float64) bool { return nowS >= whenS-1e-9 }
