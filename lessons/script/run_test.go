package script

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/lift"
)

// journey is a run written by hand: from floor 2 up to 3, frozen just after
// the departure at 2 s, then down to 1.
func journey() *Log {
	l := &Log{Start: "2"}
	add := func(timeS float64, part lift.Part, state string) {
		l.Events = append(l.Events, lift.Event{TimeS: timeS, Part: part, State: state, Cause: -1})
		l.NowS = timeS
	}
	for _, p := range []Place{{0, 3, 0, 0}, {2, 3, 0, 0}, {4, 4, 1, 0.5}, {6, 6, 0, -0.8}, {10, 6, 0, 0}, {20, 0, 0, 0}} {
		l.Path = append(l.Path, p)
	}
	add(0.5, "call.3", "1")
	add(0.6, "relay.up", "1")
	add(2, "stop", "-")
	l.Freeze()
	add(3, "call.1", "1")
	add(6, "stop", "3")
	add(6.1, "relay.up", "0")
	add(6.2, "call.3", "0")
	add(9, "relay.direction", "1")
	add(10, "stop", "-")
	add(20, "stop", "1")
	add(20.5, "call.1", "0")
	add(21, "relay.direction", "0")
	return l
}

func threeFloors() *vocabulary {
	p := building.Evenly("three", 3, 3)
	return newVocabulary(&p)
}

func TestFactsOfARun(t *testing.T) {
	v, l := threeFloors(), journey()
	for written, want := range map[string]string{
		"start.floor":                        "2",
		"frozen.time":                        "lesson.seconds[value=2.0]",
		"floor.3.height":                     "lesson.metres[value=6.00]",
		"stop.1.floor":                       "3",
		"stop.2.floor":                       "1",
		"stop.last.floor":                    "1",
		"stop.1.time":                        "lesson.seconds[value=6.0]",
		"stop.1.after":                       "lesson.seconds[value=4.0]",
		"stop.1.length":                      "lesson.seconds[value=4.0]",
		"departure.1.floor":                  "3",
		"lead.departure.1.floor":             "2",
		"lead.relay.up.in.time":              "lesson.seconds[value=0.6]",
		"relay.direction.in.time":            "lesson.seconds[value=9.0]",
		"relay.direction.in.length":          "lesson.seconds[value=12.0]",
		"call.1.registered.height":           "lesson.metres[value=3.50]",
		"call.1.registered.1.speed":          "lesson.metres-a-second[value=0.50]",
		"call.3.answered since relay.up.out": "lesson.milliseconds[value=100]",
		"stop.2 since lead.departure.1":      "lesson.seconds[value=18.0]",
		"call.1.answered.time":               "lesson.seconds[value=20.5]",
	} {
		f, wrong, _ := v.fact(written)
		require.Nil(t, wrong, written)
		value, ok := f.Value(l)
		require.True(t, ok, written)
		assert.Equal(t, want, value.Name+value.Words.String(), written)
	}
	f, _, _ := v.fact("stop.count")
	n, _ := f.Value(l)
	assert.Equal(t, 2.0, n.Number)
	for _, absent := range []string{"stop.3.floor", "relay.down.in.time", "call.3.registered.time", "lead.stop.1.time", "call.1.answered.length", "stop.3 since stop.1", "stop.1 since lead.stop.1"} {
		f, wrong, _ := v.fact(absent)
		require.Nil(t, wrong, absent)
		_, ok := f.Value(l)
		assert.False(t, ok, absent)
	}
}

// Until the frozen frame nothing of the asked run is a fact, whatever the log
// holds.
func TestNoFactBeforeTheFrozenFrame(t *testing.T) {
	v, l := threeFloors(), journey()
	l.Asked = false
	for _, written := range []string{"frozen.time", "stop.1.time", "lead.relay.up.in.time", "stop.count"} {
		f, wrong, _ := v.fact(written)
		require.Nil(t, wrong)
		_, ok := f.Value(l)
		assert.False(t, ok, written)
	}
	assert.Empty(t, l.Stops())
}

func TestClaimsAreJudgedByTheRun(t *testing.T) {
	v, l := threeFloors(), journey()
	stops := func(floors ...string) *[]string { return &floors }
	list := func(written ...string) []Event {
		var events []Event
		for _, w := range written {
			e, ok := v.events[w]
			require.True(t, ok, w)
			events = append(events, e)
		}
		return events
	}
	for _, c := range []struct {
		name  string
		claim Claim
		want  bool
	}{
		{"the stops", Claim{Stops: stops("3", "1")}, true},
		{"the stops the other way", Claim{Stops: stops("1", "3")}, false},
		{"not all the stops", Claim{Stops: stops("3")}, false},
		{"no stops", Claim{Stops: stops()}, false},
		{"goes up", Claim{Goes: GoesUp}, true},
		{"goes down", Claim{Goes: GoesDown}, false},
		{"goes nowhere", Claim{Goes: Nowhere}, false},
		{"happens", Claim{Happens: list("departs 3", "relay.direction in")}, true},
		{"happened before the frozen frame only", Claim{Happens: list("departs 2")}, false},
		{"one of two does not happen", Claim{Happens: list("departs 3", "relay.down in")}, false},
		{"never", Claim{Never: list("relay.down in", "departs 2")}, true},
		{"never, but it does", Claim{Never: list("relay.down in", "stops")}, false},
		{"order", Claim{Order: list("relay.up out", "relay.direction in", "stops 1")}, true},
		{"order the other way", Claim{Order: list("relay.direction in", "relay.up out")}, false},
		{"both must hold", Claim{Goes: GoesUp, Stops: stops("1")}, false},
	} {
		assert.Equal(t, c.want, c.claim.Holds(l), c.name)
	}
}

func TestConditions(t *testing.T) {
	v := threeFloors()
	for _, c := range []struct {
		words string
		want  float64 // the first tenth of a second at which it is reached, -1 for never
	}{
		{"departs", 2}, {"departs 2", 2}, {"departs 3", 10}, {"departs 1", -1},
		{"stops", 6}, {"stops 1", 20}, {"stops 3 + 1.5 s", 7.5},
		{"call.1 registered", 3}, {"relay.direction out", 21}, {"relay.down in", -1},
		{"2.5 s", 2.5}, {"idle", 23}, {"idle + 0.2 s", 23.2},
	} {
		u, wrong, _ := v.until(c.words)
		require.Nil(t, wrong, c.words)
		got := -1.0
		for tenth := 0; tenth <= 300; tenth++ {
			l := until(journey(), float64(tenth)/10)
			if u.Reached(l, 0, 0) {
				got = float64(tenth) / 10
				break
			}
		}
		assert.Equal(t, c.want, got, c.words)
	}
}

// until cuts a log at an instant.
func until(l *Log, nowS float64) *Log {
	n := 0
	for n < len(l.Events) && l.Events[n].TimeS <= nowS {
		n++
	}
	l.Events, l.NowS = l.Events[:n], nowS
	return l
}
