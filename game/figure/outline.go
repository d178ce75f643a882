package figure

import "math"

// Outline appends the points of an item's edge to dst, with curves cut into
// chords that leave them by at most tolerance, logical units. The edge begins
// where SVG begins it and runs clockwise, so that dashes fall alike. Closed
// tells whether the last point joins the first. A text has no outline.
func (f *Figure) Outline(it *Item, tolerance float64, dst []Point) (points []Point, closed bool) {
	p := f.Of(it)
	switch it.Shape {
	case Line:
		return append(dst, p...), false
	case Polygon:
		return append(dst, p...), true
	case Circle:
		return ring(dst, p[0], it.Radius, 0, tolerance), true
	case Arc:
		if math.Abs(it.To-it.From) >= 2*math.Pi {
			return ring(dst, p[0], it.Radius, it.From, tolerance), true
		}
		return arc(dst, p[0].X, p[0].Y, it.Radius, it.From, it.To, tolerance, true), false
	case Box:
		return box(dst, p[0], p[1], it.Radius, tolerance), true
	}
	return dst, false
}

// chords returns into how many chords an arc of the radius and angle is cut so
// that none leaves it by more than tolerance: r(1-cos(a/2)) ≈ ra²/8.
func chords(radius, angle, tolerance float64) int {
	step := math.Sqrt(8 * tolerance / max(radius, tolerance))
	return max(2, int(math.Ceil(math.Abs(angle)/min(step, math.Pi/4)-1e-9)))
}

// ring is a whole circle as a polygon of the same area: its corners lie outside
// by two thirds of what the middles of the chords lie inside of them.
func ring(dst []Point, centre Point, radius, from, tolerance float64) []Point {
	n := chords(radius, 2*math.Pi, tolerance*1.5)
	turn := 2 * math.Pi / float64(n)
	return around(dst, centre, radius*math.Sqrt(turn/math.Sin(turn)), from, turn, n)
}

func arc(dst []Point, x, y, radius, from, to, tolerance float64, ends bool) []Point {
	n := chords(radius, to-from, tolerance)
	turn := (to - from) / float64(n)
	if ends {
		n++
	}
	return around(dst, Point{x, y}, radius, from, turn, n)
}

// around appends n points about a centre, a turn apart.
func around(dst []Point, centre Point, radius, from, turn float64, n int) []Point {
	sin, cos := math.Sincos(turn)
	dy, dx := math.Sincos(from)
	dx, dy = dx*radius, dy*radius
	for range n {
		dst = append(dst, Point{centre.X + dx, centre.Y + dy})
		dx, dy = dx*cos-dy*sin, dx*sin+dy*cos
	}
	return dst
}

func box(dst []Point, a, b Point, radius, tolerance float64) []Point {
	r := CornerRadius(a, b, radius)
	if r <= 0 {
		return append(dst, a, Point{b.X, a.Y}, b, Point{a.X, b.Y})
	}
	const quarter = math.Pi / 2
	dst = append(dst, Point{a.X + r, a.Y})
	dst = arc(dst, b.X-r, a.Y+r, r, -quarter, 0, tolerance, true)
	dst = arc(dst, b.X-r, b.Y-r, r, 0, quarter, tolerance, true)
	dst = arc(dst, a.X+r, b.Y-r, r, quarter, 2*quarter, tolerance, true)
	dst = arc(dst, a.X+r, a.Y+r, r, 2*quarter, 3*quarter, tolerance, false)
	return dst
}

// CornerRadius returns the radius that the corners of a box can have: no more
// than half its shorter side.
func CornerRadius(a, b Point, radius float64) float64 {
	return max(0, min(radius, (b.X-a.X)/2, (b.Y-a.Y)/2))
}

// Pattern returns the lengths of a dash's mark and gap for a line of the given
// width, in the unit of width; 0, 0 for a solid line. Dashes end square.
func (d Dash) Pattern(width float64) (mark, gap float64) {
	switch d {
	case Dashed:
		return 4 + 1.5*width, 3 + 0.75*width
	case Dotted:
		return width, 2.5*width + 1
	}
	return 0, 0
}
