package control

import "strconv"

// The parts of the circuit that have contacts of their own.
const (
	upLine        = "relay.up-line"
	downLine      = "relay.down-line"
	direction     = "relay.direction"
	start         = "relay.start"
	up            = "relay.up"
	down          = "relay.down"
	level         = "relay.level"
	stop          = "relay.stop"
	door          = "relay.door"
	boundUp       = "relay.bound-up"
	boundDown     = "relay.bound-down"
	upContactor   = "relay.up-contactor"
	downContactor = "relay.down-contactor"
	fast          = "relay.fast"
	slow          = "relay.slow"
	brake         = "relay.brake"
	safety        = "relay.safety"
	cam           = "cam"
	lock          = "lock"
)

func (d *Diagram) add(name string, from, to Bus, body Body) {
	d.Branches = append(d.Branches, Branch{Name: name, From: from, To: to, Body: body, Floor: -1})
}

func (d *Diagram) addAt(f int, name string, from, to Bus, body Body) {
	d.Branches = append(d.Branches, Branch{Name: name, From: from, To: to, Body: body, Floor: f})
}

// oneButton gives every floor one button and one call relay. It latches the
// call and offers it to the lines through the floor's direction switch. The
// call is let go when the car stands in the floor's zone with the door relay
// in.
func (d *Diagram) oneButton() {
	for f := range d.Floors {
		c := d.addCall(f, AnyCall)
		d.latch(c, breaks(d.Part("rim", f)), breaks(door))
		d.addAt(f, d.Part("row", f), Plus, Row(f), makes(c.Relay))
		d.steer(f)
	}
}

// latch is a call's relay and its lamp: the button pulls it in, and it holds
// itself as long as one of the contacts named is closed.
func (d *Diagram) latch(c Call, holds ...Body) {
	d.addAt(c.Floor, c.Relay, Plus, Minus, Series{
		Parallel{makes(c.Button), Series{makes(c.Relay), Parallel(holds)}},
		Coil{c.Relay},
	})
	lamp := d.Part("call"+c.Kind.suffix()+"-lamp", c.Floor)
	d.addAt(c.Floor, lamp, Plus, Minus, Series{makes(c.Relay), Lamp{lamp}})
}

// steer leads floor f's row to one line or the other.
func (d *Diagram) steer(f int) {
	sw := d.Part("direction", f)
	d.addAt(f, d.Part("above", f), Row(f), UpLine, Contact{Part: sw, Pole: "above"})
	d.addAt(f, d.Part("below", f), Row(f), DownLine, Contact{Part: sw, Pole: "below"})
}

// lines hang a monitoring relay on each line.
func (d *Diagram) lines() {
	d.add("up-line", UpLine, Minus, Coil{upLine})
	d.add("down-line", DownLine, Minus, Coil{downLine})
}

// safetyLine is every contact that must be closed before anything may move,
// in series, with a relay that shows it whole. The locking cam is fed ahead
// of it: it locks the landing door as soon as the doors are closed.
func (d *Diagram) safetyLine() {
	d.add("cam", Plus, Minus, Series{makes("car-door"), makes("landing-door"), breaks(door), Coil{cam}})
	d.add("safety-line", Plus, Safe, Series{
		breaks("stop-switch"), breaks("governor"), breaks("safety-gear"), breaks("overload"),
		breaks("final-limit-top"), breaks("final-limit-bottom"),
		makes("car-door"), makes("landing-door"), makes(lock),
	})
	d.add("safety", Safe, Minus, Coil{safety})
}

// starting is the start relay, slow to come in: it gives the direction time
// to settle once everything is ready.
func (d *Diagram) starting() {
	d.add("start", Safe, Minus, Series{
		Parallel{makes(upLine), makes(downLine)},
		breaks(upContactor), breaks(downContactor), breaks(stop), breaks(door),
		Coil{start},
	})
}

// way is the up or the down relay: pulled in by its line through what allows
// it and the start relay, holding itself from the safety line until the car
// is level with a stop set, and locked out by its opposite, if one is named.
func (d *Diagram) way(name string, line Bus, allowed Series, self, opposite string) {
	feed := Bus(name + "-feed")
	pull := append(append(Series{}, allowed...), makes(start), breaks(door))
	d.add(name+"-pull", line, feed, pull)
	d.add(name+"-hold", Safe, feed, Series{makes(self), breaks(start), Parallel{breaks(level), breaks(stop)}})
	d.add(name, feed, Minus, lockedOut(opposite, Coil{self}))
}

// lockedOut is a coil behind the break contact of its opposite, where it has
// one.
func lockedOut(opposite string, coil Coil) Body {
	if opposite == "" {
		return coil
	}
	return Series{breaks(opposite), coil}
}

// levelling repeats the switch that the vane of a landing works.
func (d *Diagram) levelling() {
	d.add("level", Plus, Minus, Series{makes("vane-switch"), Coil{level}})
}

// stopping sets the stop relay at the advance contact of a floor with a call,
// at any floor once the running line is dead, and near the ends whatever the
// calls say; it stays in until the doors take over.
func (d *Diagram) stopping() {
	ups, downs := Parallel{}, Parallel{}
	for f := range d.Floors {
		ups = append(ups, Series{makes(d.Part("advance-up", f)), Parallel{makes(d.Part("call", f)), breaks(upLine)}})
		downs = append(downs, Series{makes(d.Part("advance-down", f)), Parallel{makes(d.Part("call", f)), breaks(downLine)}})
	}
	d.add("stop", Plus, Minus, Series{
		Parallel{
			Series{makes(up), append(ups, makes("slow-down-top"))},
			Series{makes(down), append(downs, makes("slow-down-bottom"))},
			stopHolds(),
		},
		Coil{stop},
	})
}

func stopHolds() Series {
	return Series{makes(stop), breaks(door), Parallel{makes(upContactor), makes(downContactor), makes(level)}}
}

// doors opens them: at rest, nothing running, after a stop or for a call at
// the floor where the car stands, and on until they are fully open.
func (d *Diagram) doors() {
	var here []Body
	for f := range d.Floors {
		here = append(here, Series{makes(d.Part("call", f)), makes(d.Part("rim", f))})
	}
	d.opening(here)
}

// opening is the door relay, given which calls want the doors open here.
func (d *Diagram) opening(here []Body) {
	wanted := Parallel{Series{makes(stop), makes(level)}}
	wanted = append(wanted, here...)
	wanted = append(wanted, Series{makes(door), breaks("door-open")})
	d.add("door", Plus, Minus, Series{
		breaks("stop-switch"), breaks(up), breaks(down), breaks(upContactor), breaks(downContactor), makes("at-rest"),
		wanted,
		Coil{door},
	})
}

// power is the contactors of the motor and the magnet of the brake. Fast and
// slow shut each other out, and so do up and down where interlocked.
func (d *Diagram) power(interlocked bool) {
	contactor := func(name, way, limit, opposite, self string) {
		body := Series{makes(way), breaks(limit)}
		if interlocked {
			body = append(body, breaks(opposite))
		}
		d.add(name, Safe, Minus, append(body, Coil{self}))
	}
	contactor("up-contactor", up, "stop-limit-top", downContactor, upContactor)
	contactor("down-contactor", down, "stop-limit-bottom", upContactor, downContactor)
	d.add("fast", Safe, Minus, Series{
		Parallel{Series{makes(up), breaks("slow-down-top")}, Series{makes(down), breaks("slow-down-bottom")}},
		breaks(stop), breaks(slow), Coil{fast},
	})
	d.add("slow", Safe, Minus, Series{
		Parallel{
			Series{makes(up), Parallel{makes(stop), makes("slow-down-top")}},
			Series{makes(down), Parallel{makes(stop), makes("slow-down-bottom")}},
		},
		breaks(fast), Coil{slow},
	})
	d.add("brake", Plus, Minus, Series{Parallel{makes(upContactor), makes(downContactor)}, Coil{brake}})
}

// lamps light a floor's position lamp through whichever of its terminals the
// brush touches.
func (d *Diagram) lamps(terminals [][]int) {
	for f, joined := range terminals {
		touch := Parallel{}
		for _, t := range joined {
			touch = append(touch, makes("terminal."+strconv.Itoa(t)))
		}
		d.addAt(f, d.Part("lamp", f), Plus, Minus, Series{touch, Lamp{d.Part("lamp", f)}})
	}
}
