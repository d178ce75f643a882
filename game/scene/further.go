package scene

import "slices"

// The order of the rungs in further columns: what decides, what runs, what
// every floor has.
var besides = []string{
	"direction", "bound-up", "bound-down", "door", "start", "cam", "level", "stop",
	"up-contactor", "down-contactor", "fast", "slow", "brake",
	"call", "call-lamp", "lamp",
}

// furtherRails is the room for the rails of a further column, in units.
const furtherRails = 34.0

// placeFurther sets the remaining rungs into columns beside the rows: of one,
// two or three columns the number that shows the most of them.
func (c *circuitPicture) placeFurther(rungs []*rung, set map[string]bool) {
	u := c.s.ink.u
	left := c.minus + 28*u
	room := c.place.x1 - left
	if room < 150*u {
		return
	}
	var wanted []*rung
	for _, name := range besides {
		for _, rg := range rungs {
			if rg.name == name && !set[name] {
				wanted = append(wanted, rg)
			}
		}
	}
	// What no scheme had when this was written comes last.
	for _, rg := range rungs {
		if !set[rg.name] && !slices.Contains(wanted, rg) && !slices.Contains(beneath, rg.name) && rg.name != "up-line" && rg.name != "down-line" {
			wanted = append(wanted, rg)
		}
	}
	var best [][]*rung
	most := 0
	for n := 1; n <= 3; n++ {
		split, count := c.split(wanted, n, room)
		if count > most {
			best, most = split, count
		}
	}
	if best == nil {
		return
	}
	// What room is left goes to all columns alike.
	spare := room
	for _, part := range best {
		spare -= c.columnW(part)
	}
	spare /= float64(len(best))
	for _, part := range best {
		wide := c.columnW(part) + spare
		c.columns = append(c.columns, c.raiseColumn(part, left, wide, set))
		left += wide
	}
}

// columnW is the room a column of these rungs needs.
func (c *circuitPicture) columnW(part []*rung) float64 {
	w := 0.0
	for _, rg := range part {
		w = max(w, rg.w)
	}
	return w + (furtherRails+22)*c.s.ink.u
}

// split shares rungs among n columns of like height; a rung that finds no room
// is left out. It returns how many are in, none if the columns are too wide.
func (c *circuitPicture) split(wanted []*rung, n int, room float64) ([][]*rung, int) {
	high := c.place.y1 - c.rows.top - 6*c.s.ink.u
	whole, tallest := 0.0, 0.0
	for _, rg := range wanted {
		whole += rg.h
		tallest = max(tallest, rg.h)
	}
	share := min(high, whole/float64(n)+0.35*tallest)
	parts, count := make([][]*rung, n), 0
	i, y := 0, 0.0
	for _, rg := range wanted {
		for i < n-1 && y+rg.h > share {
			i, y = i+1, 0
		}
		if y+rg.h > high {
			continue
		}
		parts[i], y = append(parts[i], rg), y+rg.h
		count++
	}
	wide := 0.0
	for i := range parts {
		if len(parts[i]) == 0 {
			return nil, 0
		}
		wide += c.columnW(parts[i])
	}
	if wide > room {
		return nil, 0
	}
	return parts, count
}

// raiseColumn builds a column of rungs from its left edge.
func (c *circuitPicture) raiseColumn(part []*rung, left, wide float64, set map[string]bool) column {
	u := c.s.ink.u
	col := column{x0: left + furtherRails*u, x1: left + wide - 22*u, top: c.rows.top}
	for j := range col.rails {
		col.rails[j] = rail{bus: railBuses[j], x: left + float64(j)*7*u, way: [4]way{neither, upWay, downWay, neither}[j]}
	}
	y := col.top + 6*u
	for _, rg := range part {
		y = c.stand(&col, rg, y)
		set[rg.name] = true
	}
	c.ends(&col, col.top)
	for j := range col.rails {
		col.rails[j].y0 = col.top
	}
	if !c.hangs(&col, safeRail) {
		col.rails[safeRail].y1 = col.top - 1
	}
	col.bottom = y
	return col
}

// hangs reports whether any rung of a column hangs on a rail.
func (c *circuitPicture) hangs(col *column, rail int) bool {
	for _, rg := range col.rungs {
		for i := range rg.taps {
			if rg.taps[i].rail == rail {
				return true
			}
		}
	}
	return false
}
