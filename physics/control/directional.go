package control

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
	d.oneButton()
	d.lines()
	d.directionMemory()
	d.safetyLine()
	d.starting()
	d.way("up", UpLine, Series{breaks(direction)}, up, down)
	d.way("down", DownLine, Series{makes(direction)}, down, up)
	d.levelling()
	d.stopping()
	d.doors()
	d.power(true)
	d.lamps(terminals)
	return d
}

// directionMemory is the relay that keeps to one way: in for down. It changes
// only while the car is ready to start, and is held through run, stop and
// doors.
func (d *Diagram) directionMemory() {
	d.add("direction", Plus, Minus, Series{
		Parallel{
			Series{makes(downLine), breaks(upLine), breaks(upContactor), breaks(downContactor), breaks(stop), breaks(door), makes(lock)},
			Series{makes(direction), Parallel{makes(downLine), makes(upContactor), makes(downContactor), makes(stop), makes(door), breaks(lock)}},
		},
		Coil{direction},
	})
}
