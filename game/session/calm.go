package session

import (
	"math"

	"wheelroom/physics/lift"
)

// Nothing in the picture may flash more than three times in any second of the
// viewer's clock (WCAG 2.2, success criterion 2.3.1, at whatever size). A flash
// is a change and a change back, so a mark that has changed five times within
// a second keeps its state until the second is over; that makes two and a half.
// Others show every change at once, and all stand as they are when time does.
const (
	calmMost   = 5
	calmWithin = 1.0
)

// liveA is the least current that is drawn as flowing, ampere.
const liveA = 0.004

// A calm is the view as it is drawn: a mark that would flicker is held.
type calm struct {
	clockS float64 // the viewer's
	view   lift.View
	marks  []mark
	next   int // mark
}

// A mark remembers when it last changed, by the viewer's clock; zero long ago.
type mark struct {
	changed [calmMost]float64 // plus calmWithin, so that zero is long ago
	oldest  int
}

// shown returns the view to draw.
func (c *calm) shown() *lift.View { return &c.view }

// see brings the view to draw up to v, holding back what would flicker while
// time passes.
func (c *calm) see(v *lift.View, running bool) {
	old := c.view
	c.view = *v
	w := &c.view
	c.next = 0
	for _, l := range [...]struct{ to, from, now *[]bool }{
		{&w.Pressed, &old.Pressed, &v.Pressed}, {&w.Calls, &old.Calls, &v.Calls}, {&w.Lamps, &old.Lamps, &v.Lamps},
		{&w.Rim, &old.Rim, &v.Rim}, {&w.AdvanceUp, &old.AdvanceUp, &v.AdvanceUp}, {&w.AdvanceDown, &old.AdvanceDown, &v.AdvanceDown},
		{&w.Terminal, &old.Terminal, &v.Terminal}, {&w.Relays, &old.Relays, &v.Relays}, {&w.Contacts, &old.Contacts, &v.Contacts},
		{&w.PressedUp, &old.PressedUp, &v.PressedUp}, {&w.PressedDown, &old.PressedDown, &v.PressedDown}, {&w.PressedCar, &old.PressedCar, &v.PressedCar},
		{&w.CallsUp, &old.CallsUp, &v.CallsUp}, {&w.CallsDown, &old.CallsDown, &v.CallsDown}, {&w.CallsCar, &old.CallsCar, &v.CallsCar},
		{&w.Switches, &old.Switches, &v.Switches},
	} {
		*l.to = held(c, *l.from, *l.now, running, func(a, b bool) bool { return a != b })
	}
	w.Direction = held(c, old.Direction, v.Direction, running, func(a, b lift.Stand) bool { return a != b })
	w.Amperes = held(c, old.Amperes, v.Amperes, running, func(a, b float64) bool { return live(a) != live(b) })
	// Nothing is drawn of them.
	w.Volts = append(old.Volts[:0], v.Volts...)
}

func live(a float64) bool { return math.Abs(a) > liveA }

// held returns old with every mark brought up to now that may change.
func held[T any](c *calm, old, now []T, running bool, differ func(a, b T) bool) []T {
	for c.next+len(now) > len(c.marks) {
		c.marks = append(c.marks, mark{})
	}
	if len(old) != len(now) {
		old = append(old[:0], now...)
	}
	marks := c.marks[c.next : c.next+len(now)]
	c.next += len(now)
	for i := range now {
		if !differ(old[i], now[i]) || !running || marks[i].mayChange(c.clockS) {
			old[i] = now[i]
		}
	}
	return old
}

// mayChange reports whether the mark may change now, and if so notes it.
func (m *mark) mayChange(nowS float64) bool {
	due := nowS + calmWithin
	if m.changed[m.oldest] > nowS {
		return false
	}
	m.changed[m.oldest] = due
	m.oldest = (m.oldest + 1) % calmMost
	return true
}
