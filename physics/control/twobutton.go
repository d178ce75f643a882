package control

import "strconv"

// NoneAbove returns the bus that is live, while the car goes up, when no call
// of any kind stands at a floor above f. NoneBelow is its mirror image.
func NoneAbove(f int) Bus { return Bus("none-above." + strconv.Itoa(f)) }

// NoneBelow returns the bus that is live, while the car goes down, when no
// call of any kind stands at a floor below f.
func NoneBelow(f int) Bus { return Bus("none-below." + strconv.Itoa(f)) }

// stopFeed is where everything that sets a stop meets.
const stopFeed Bus = "stop-feed"

// TwoButton tells a call for up from one for down. Each landing has a button
// for either way, the lowest and the highest only one, and the car has a
// button for every floor. A landing call is answered only by a car travelling
// its way, or at its highest or lowest call; car calls are answered always.
//
// Two chains of the call relays' break contacts, one from the top down and
// one from the bottom up, tell which call is the last ahead. Two relays more
// than the directional scheme remember, once the car has left, that calls are
// still ahead: bound up and bound down. While one is in, landing calls for the
// other way neither open the doors nor are let go.
func TwoButton(floors []string, terminals [][]int) *Diagram {
	d := &Diagram{Scheme: "two-button", Floors: floors}
	for f := range floors {
		d.landing(f)
	}
	d.lines()
	d.directionMemory()
	d.bound("bound-up", upLine, upContactor, boundUp)
	d.bound("bound-down", downLine, downContactor, boundDown)
	d.safetyLine()
	d.starting()
	d.way("up", UpLine, Series{breaks(direction)}, up, down)
	d.way("down", DownLine, Series{makes(direction)}, down, up)
	d.levelling()
	d.stoppingByWay()
	d.doorsByWay()
	d.power(true)
	d.lamps(terminals)
	return d
}

// against is the relay that keeps a call of that kind waiting: the car is
// bound the other way. A car call waits for nothing.
func against(kind CallKind) string {
	return map[CallKind]string{UpCall: boundDown, DownCall: boundUp}[kind]
}

// landing is the calls of floor f: its relays, and its row to the lines.
func (d *Diagram) landing(f int) {
	row := Parallel{}
	for _, kind := range CallsOf(d.Scheme, len(d.Floors), f) {
		c := d.addCall(f, kind)
		holds := []Body{breaks(d.Part("rim", f)), breaks(door)}
		if a := against(kind); a != "" {
			holds = append(holds, makes(a))
		}
		d.latch(c, holds...)
		row = append(row, makes(c.Relay))
	}
	d.addAt(f, d.Part("row", f), Plus, Row(f), row)
	d.steer(f)
}

// bound is a relay that comes in when the car leaves one way and stays until
// no call is left that way.
func (d *Diagram) bound(name, line, contactor, self string) {
	d.add(name, Plus, Minus, Series{makes(line), Parallel{makes(contactor), makes(self)}, Coil{self}})
}

// stoppingByWay sets the stop relay, going up, at the advance contact of a
// floor with a car call or a call for up; at that of any floor beyond which
// the chain finds no call, so that the last call ahead is served whatever it
// wants; and near the end whatever the calls say. Down likewise.
func (d *Diagram) stoppingByWay() {
	n := len(d.Floors)
	d.stopFor("stop-up", up, "advance-up", "slow-down-top", UpCall)
	d.stopFor("stop-down", down, "advance-down", "slow-down-bottom", DownCall)
	d.add("none-above", Plus, NoneAbove(n-1), makes(up))
	for f := n - 1; f > 0; f-- {
		d.addAt(f, d.Part("last-up", f), NoneAbove(f), stopFeed, makes(d.Part("advance-up", f)))
		if f > 1 {
			d.addAt(f, d.Part("none-above", f), NoneAbove(f), NoneAbove(f-1), d.noCall(f))
		}
	}
	d.add("none-below", Plus, NoneBelow(0), makes(down))
	for f := range n - 1 {
		d.addAt(f, d.Part("last-down", f), NoneBelow(f), stopFeed, makes(d.Part("advance-down", f)))
		if f+1 < n-1 {
			d.addAt(f, d.Part("none-below", f), NoneBelow(f), NoneBelow(f+1), d.noCall(f))
		}
	}
	d.add("stop-hold", Plus, stopFeed, stopHolds())
	d.add("stop", stopFeed, Minus, Coil{stop})
}

// stopFor is the stops of one way that need no chain. At the floor where a way
// begins the car never arrives that way, and at the one where it ends the chain
// always stops it.
func (d *Diagram) stopFor(name, way, advance, slowDown string, kind CallKind) {
	at := Parallel{}
	for f := 1; f < len(d.Floors)-1; f++ {
		called := Parallel{}
		for _, c := range d.CallsAt(f) {
			if c.Kind == kind || c.Kind == CarCall {
				called = append(called, makes(c.Relay))
			}
		}
		at = append(at, Series{makes(d.Part(advance, f)), called})
	}
	d.add(name, Plus, stopFeed, Series{makes(way), append(at, makes(slowDown))})
}

// noCall is closed while no call of any kind stands at floor f.
func (d *Diagram) noCall(f int) Series {
	s := Series{}
	for _, c := range d.CallsAt(f) {
		s = append(s, breaks(c.Relay))
	}
	return s
}

// doorsByWay opens them for a car call here, and for a landing call unless
// the car is bound the other way.
func (d *Diagram) doorsByWay() {
	var here []Body
	for f := range d.Floors {
		called := Parallel{}
		for _, c := range d.CallsAt(f) {
			if a := against(c.Kind); a != "" {
				called = append(called, Series{makes(c.Relay), breaks(a)})
			} else {
				called = append(called, makes(c.Relay))
			}
		}
		here = append(here, Series{makes(d.Part("rim", f)), called})
	}
	d.opening(here)
}
