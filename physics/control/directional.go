package control

import "strconv"

// Directional is the full scheme: calls latch, a direction relay keeps one
// way until no call is left ahead, and everything that moves the car lies
// behind the safety line while everything that remembers lies before it.
//
// terminals gives, for every landing, the ring terminals joined for its lamp;
// there are as many as floors.
//
// Two details keep feeds apart that would otherwise run backwards. The
// direction relay is fed by contacts of the line relays and not by the lines
// themselves, or its own holding contact would make the down line live. And
// the up and down relays hold themselves only while the start relay is out:
// line and safety line never meet at one coil, so a line cannot feed what
// hangs behind a broken safety line.
func Directional(floors []string, terminals [][]int) *Diagram {
	d := &Diagram{Scheme: "directional", Floors: floors}
	for f := range floors {
		d.call(f)
	}
	d.lines()
	d.add("direction", Plus, Minus, Series{
		Parallel{
			Series{makes(downLine), breaks(upLine), breaks(upContactor), breaks(downContactor), breaks(stop), breaks(door), makes(lock)},
			Series{makes(direction), Parallel{makes(downLine), makes(upContactor), makes(downContactor), makes(stop), makes(door), breaks(lock)}},
		},
		Coil{direction},
	})
	d.safetyLine()
	d.add("start", Safe, Minus, Series{
		Parallel{makes(upLine), makes(downLine)},
		breaks(upContactor), breaks(downContactor), breaks(stop), breaks(door),
		Coil{start},
	})
	d.way("up", UpLine, breaks(direction), up, down)
	d.way("down", DownLine, makes(direction), down, up)
	d.add("level", Plus, Minus, Series{makes("vane-switch"), Coil{level}})
	d.stopping()
	d.doors()
	d.power()
	d.lamps(terminals)
	return d
}

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

// call latches floor f's call and offers it to the lines through the floor's
// direction switch. The call is let go when the car stands in the floor's
// zone with the door relay in.
func (d *Diagram) call(f int) {
	call, rim, sw := d.Part("call", f), d.Part("rim", f), d.Part("direction", f)
	d.addAt(f, call, Plus, Minus, Series{
		Parallel{
			makes(d.Part("button", f)),
			Series{makes(call), Parallel{breaks(rim), breaks(door)}},
		},
		Coil{call},
	})
	d.addAt(f, d.Part("call-lamp", f), Plus, Minus, Series{makes(call), Lamp{d.Part("call-lamp", f)}})
	d.addAt(f, d.Part("row", f), Plus, Row(f), makes(call))
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

// way is the up or the down relay: pulled in by its line through the
// direction relay and the start relay, holding itself from the safety line
// until the car is level with a stop set, locked out by its opposite.
func (d *Diagram) way(name string, line Bus, allowed Contact, self, opposite string) {
	feed := Bus(name + "-feed")
	d.add(name+"-pull", line, feed, Series{allowed, makes(start), breaks(door)})
	d.add(name+"-hold", Safe, feed, Series{makes(self), breaks(start), Parallel{breaks(level), breaks(stop)}})
	d.add(name, feed, Minus, Series{breaks(opposite), Coil{self}})
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
			Series{makes(stop), breaks(door), Parallel{makes(upContactor), makes(downContactor), makes(level)}},
		},
		Coil{stop},
	})
}

// doors opens them: at rest, nothing running, after a stop or for a call at
// the floor where the car stands, and on until they are fully open.
func (d *Diagram) doors() {
	wanted := Parallel{Series{makes(stop), makes(level)}}
	for f := range d.Floors {
		wanted = append(wanted, Series{makes(d.Part("call", f)), makes(d.Part("rim", f))})
	}
	wanted = append(wanted, Series{makes(door), breaks("door-open")})
	d.add("door", Plus, Minus, Series{
		breaks("stop-switch"), breaks(up), breaks(down), breaks(upContactor), breaks(downContactor), makes("at-rest"),
		wanted,
		Coil{door},
	})
}

// power is the contactors of the motor and the magnet of the brake. Up and
// down, fast and slow shut each other out.
func (d *Diagram) power() {
	d.add("up-contactor", Safe, Minus, Series{makes(up), breaks("stop-limit-top"), breaks(downContactor), Coil{upContactor}})
	d.add("down-contactor", Safe, Minus, Series{makes(down), breaks("stop-limit-bottom"), breaks(upContactor), Coil{downContactor}})
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
