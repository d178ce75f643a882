package control

// Direct is the scheme that must never be built: each line pulls its own way
// in and nothing keeps the two ways apart. With one call at a time it seems to
// work; with a call above and one below, both directions come in and short
// two phases of the motor's supply.
func Direct(floors []string, terminals [][]int) *Diagram {
	d := &Diagram{Scheme: "direct", Floors: floors}
	d.oneButton()
	d.lines()
	d.safetyLine()
	d.starting()
	d.way("up", UpLine, nil, up, "")
	d.way("down", DownLine, nil, down, "")
	d.levelling()
	d.stopping()
	d.doors()
	d.power(false)
	d.lamps(terminals)
	return d
}

// Interlocked lets one way shut out the other for as long as it runs, and
// remembers nothing beyond that. At every start it asks anew where calls are:
// one way alone is taken, and where both are asked for, up, because the down
// relay is pulled in through a break contact of the up line's relay. Without
// that contact up and down relay would race. The down relay's own contact
// beside it makes a decision for down stand once it is taken.
func Interlocked(floors []string, terminals [][]int) *Diagram {
	d := &Diagram{Scheme: "interlocked", Floors: floors}
	d.oneButton()
	d.lines()
	d.safetyLine()
	d.starting()
	d.way("up", UpLine, nil, up, down)
	d.way("down", DownLine, Series{Parallel{breaks(upLine), makes(down)}}, down, up)
	d.levelling()
	d.stopping()
	d.doors()
	d.power(true)
	d.lamps(terminals)
	return d
}
