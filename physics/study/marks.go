package study

import "wheelroom/physics/lift"

// found are the events that mark a journey, -1 where it did not get so far.
type found struct {
	on, lift, move, advance, slow, vane, off, set, rest int
}

// find picks a journey's marks from the events of a run that made one. What
// began the slow-down and what ended the travel are not guessed from names:
// they are the first causes of the fast contactor's and the direction
// contactor's dropping out.
func find(events []lift.Event) found {
	k := found{-1, -1, -1, -1, -1, -1, -1, -1, -1}
	way := after(events, 0, "1", "relay.up-contactor", "relay.down-contactor")
	fast := after(events, 0, "1", "relay.fast")
	if way < 0 || fast < 0 {
		return k
	}
	k.on = max(way, fast)
	k.lift = after(events, way, "1", "relay.brake")
	k.move = after(events, way, "0", "at-rest")
	if out := after(events, k.on, "0", "relay.fast"); out >= 0 {
		k.advance = root(events, out)
		k.slow = after(events, out, "1", "relay.slow")
	}
	if k.off = after(events, k.on, "0", events[way].Part); k.off < 0 {
		return k
	}
	k.vane = root(events, k.off)
	k.set = after(events, k.off, "0", "relay.brake")
	k.rest = after(events, k.off, "1", "at-rest")
	if again := after(events, k.off, "1", "relay.up-contactor", "relay.down-contactor"); again >= 0 && again < k.rest {
		k.rest = -1 // it overran its landing and was sent back before it stood
	}
	return k
}

// after returns the first event from index from on with that state of one of
// the parts, -1 for none.
func after(events []lift.Event, from int, state string, parts ...lift.Part) int {
	for i := max(from, 0); i < len(events); i++ {
		if events[i].State != state {
			continue
		}
		for _, p := range parts {
			if events[i].Part == p {
				return i
			}
		}
	}
	return -1
}

// root returns the first cause of an event.
func root(events []lift.Event, e int) int {
	for events[e].Cause >= 0 {
		e = events[e].Cause
	}
	return e
}
