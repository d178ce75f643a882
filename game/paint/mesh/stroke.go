package mesh

import (
	"math"

	"wheelroom/game/figure"
)

// A stroke is a strip of sections across the line. A section has four corners:
// outer edge (alpha 0) and inner edge of the soft band on the one side, then
// on the other. The one side lies where the line's direction points after a
// quarter turn from x to y. A line that is little more than its soft bands has
// one corner in the middle in place of the two inner edges.

// slender is the width up to which a line has nothing between its soft bands,
// pixels.
const slender = 1.2

// stroke draws a line through points no two of which, next to each other, are
// one. Of a single point only round caps show.
func (m *Mesh) stroke(p []figure.Point, closed bool, width float64, joins, caps bool) {
	n := len(p)
	m.prev, m.bands = -1, 3
	if width <= slender {
		m.bands = 2
	}
	switch {
	case n == 0:
	case n == 1:
		if caps {
			m.cap(p[0], vec{1, 0}, width, false)
			m.cap(p[0], vec{-1, 0}, width, true)
		}
	case closed:
		first := len(m.Vertices)
		for i := range p {
			m.join(p[(i+n-1)%n], p[i], p[(i+1)%n], width, joins)
		}
		m.link(m.prev, first)
	default:
		m.end(p[0], p[1], width, caps, false)
		for i := 1; i < n-1; i++ {
			m.join(p[i-1], p[i], p[i+1], width, joins)
		}
		m.end(p[n-1], p[n-2], width, caps, true)
	}
}

type vec struct{ x, y float64 }

func (v vec) by(k float64) vec { return vec{v.x * k, v.y * k} }

func (v vec) plus(w vec) vec { return vec{v.x + w.x, v.y + w.y} }

func (v vec) dot(w vec) float64 { return float64(v.x*w.x) + float64(v.y*w.y) }

func (v vec) turned() vec { return vec{-v.y, v.x} }

// toward returns the direction from a to b.
func toward(a, b figure.Point) vec {
	dx, dy := b.X-a.X, b.Y-a.Y
	k := 1 / math.Hypot(dx, dy)
	return vec{dx * k, dy * k}
}

// A side is where one edge of a section lies from the middle of the line: at,
// for a half width of 1, and the way across its soft band, for a band of 1.
type side struct{ at, soft vec }

func plainSide(v vec) side { return side{v, v} }

// section adds a section at p with a share of the alpha. The width is 1 pixel
// at least.
func (m *Mesh) section(p figure.Point, one, other side, width float64, share float32) {
	at := len(m.Vertices)
	add := func(s side, soft float64, share float32) {
		m.vertex(p.X+s.at.x*width/2+s.soft.x*soft, p.Y+s.at.y*width/2+s.soft.y*soft, share)
	}
	add(one, 0.5, 0)
	if m.bands == 2 {
		middle := func(a, b vec) vec { return a.plus(b).by(0.5) }
		add(side{middle(one.at, other.at), middle(one.soft, other.soft)}, -0.5, share)
	} else {
		add(one, -0.5, share)
		add(other, -0.5, share)
	}
	add(other, 0.5, 0)
	m.link(m.prev, at)
	m.prev = at
}

// straight adds a section square to a line.
func (m *Mesh) straight(x, y float64, normal vec, width float64, share float32) {
	m.section(figure.Point{X: x, Y: y}, plainSide(normal), plainSide(normal.by(-1)), width, share)
}

// link joins two sections by their bands.
func (m *Mesh) link(a, b int) {
	if a < 0 {
		return
	}
	for i := range m.bands {
		m.quad(a+i, a+i+1, b+i+1, b+i)
	}
}

// end begins (or, last, finishes) an open line at p; next is its other point.
func (m *Mesh) end(p, next figure.Point, width float64, round, last bool) {
	in := toward(p, next)
	if round {
		m.cap(p, in, width, last)
		return
	}
	normal := in.turned()
	body := min(0.5, math.Hypot(next.X-p.X, next.Y-p.Y)/2) // a short line is all soft
	if last {
		normal = normal.by(-1)
		m.straight(p.X+in.x*body, p.Y+in.y*body, normal, width, 1)
		m.straight(p.X-in.x/2, p.Y-in.y/2, normal, width, 0)
		return
	}
	m.straight(p.X-in.x/2, p.Y-in.y/2, normal, width, 0)
	m.straight(p.X+in.x*body, p.Y+in.y*body, normal, width, 1)
}

// cap rounds an end: sections from the tip to the full width, or back.
func (m *Mesh) cap(p figure.Point, in vec, width float64, last bool) {
	normal := in.turned()
	if last {
		normal = normal.by(-1)
	}
	n := steps(width/2, math.Pi/2)
	for i := range n + 1 {
		k := i
		if last {
			k = n - i
		}
		sin, cos := math.Sincos(math.Pi / 2 * float64(k) / float64(n))
		back, out := in.by(-cos), normal.by(sin)
		m.section(p, plainSide(back.plus(out)), plainSide(back.plus(out.by(-1))), width, 1)
	}
}

// steps returns the chords for an angle at a radius; an end is small, and shows
// them sooner than a curve.
func steps(radius, angle float64) int {
	return max(1, int(math.Ceil(angle/math.Sqrt(4*tolerance/max(radius, tolerance)))))
}

// join turns the line at p, on its way from a to b: mitred up to the limit,
// else bevelled, or rounded.
func (m *Mesh) join(a, p, b figure.Point, width float64, round bool) {
	d0, d1 := toward(a, p), toward(p, b)
	n0, n1 := d0.turned(), d1.turned()
	dot := d0.dot(d1) // cosine of the turn t
	far := 1 / (1 + max(dot, -1+1e-9))
	mitre := n0.plus(n1).by(far) // 1/cos(t/2) long
	sharp := !round && 2*far <= figure.MitreLimit*figure.MitreLimit
	// On the inside the sides meet tan(t/2) half widths before p. Where an edge
	// is shorter than that they do not meet, and each goes to its own end.
	back := (width/2 + 0.5) * math.Sqrt(max(0, 1-dot)*far)
	meet := back <= min(math.Hypot(p.X-a.X, p.Y-a.Y), math.Hypot(b.X-p.X, b.Y-p.Y))
	gentle := (math.Sqrt(2*far)-1)*width/2 < tolerance // mitred and rounded look the same
	if gentle || sharp && meet {
		m.section(p, plainSide(mitre), plainSide(mitre.by(-1)), width, 1)
		return
	}

	out := 1.0 // which way is outside, along the normals
	if d0.x*d1.y-d0.y*d1.x > 0 {
		out = -1
	}
	across := func(outer side, inner vec) {
		one, other := side{outer.at.by(out), outer.soft.by(out)}, plainSide(inner.by(-out))
		if out < 0 {
			one, other = other, one
		}
		m.section(p, one, other, width, 1)
	}
	in0, in1, middle := n0, n1, vec{}
	if meet {
		in0, in1, middle = mitre, mitre, mitre
	}
	switch {
	case sharp:
		across(plainSide(n0), in0)
		across(plainSide(mitre), middle)
		across(plainSide(n1), in1)
	case round:
		turn := math.Acos(max(-1, min(1, dot)))
		n := steps(width/2, turn)
		across(plainSide(n0), in0)
		for i := 1; i < n; i++ {
			sin, cos := math.Sincos(-out * turn * float64(i) / float64(n))
			across(plainSide(vec{n0.x*cos - n0.y*sin, n0.x*sin + n0.y*cos}), middle)
		}
		across(plainSide(n1), in1)
	default:
		// The bevel has a soft band of its own, across the way from d1 to d0.
		tip := d0.plus(d1.by(-1))
		tip = tip.by(out / math.Hypot(tip.x, tip.y))
		soft := func(n vec) vec { return n.plus(tip).by(1 / (1 + n.dot(tip))) }
		across(side{n0, soft(n0)}, in0)
		across(side{n1, soft(n1)}, in1)
	}
}

// dashes strokes the marks of a dashed edge. A dash turns corners with the
// edge; the pattern begins at its first point and is not fitted at the seam.
func (m *Mesh) dashes(closed bool, width, mark, gap, phase float64, joins bool) {
	p := append(m.dash[:0], m.edge...)
	if closed {
		p = append(p, p[0])
	}
	m.dash = p
	period := mark + gap
	if period < 1 {
		m.stroke(p, false, width, joins, false)
		return
	}
	at := math.Mod(phase, period) // place in the pattern
	if at < 0 {
		at += period
	}
	m.mark = m.mark[:0]
	for i := 1; i < len(p); i++ {
		a, b := p[i-1], p[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		for done := 0.0; done < length; {
			until := period
			if at < mark {
				until = mark
				if len(m.mark) == 0 {
					m.mark = append(m.mark, between(a, b, done/length))
				}
			}
			step := min(until-at, length-done)
			done, at = done+step, at+step
			if until == mark {
				m.mark = append(m.mark, between(a, b, done/length))
			}
			if done < length || at >= until {
				at = until
				if until == mark {
					m.dash1(width, joins)
				} else {
					at = 0
				}
			}
		}
	}
	m.dash1(width, joins)
}

// dash1 strokes the dash gathered so far, with square ends; a last crumb of one
// is left out.
func (m *Mesh) dash1(width float64, joins bool) {
	p, _ := distinct(m.mark, false)
	if n := len(p); n > 2 || n == 2 && math.Hypot(p[1].X-p[0].X, p[1].Y-p[0].Y) >= 0.5 {
		m.stroke(p, false, width, joins, false)
	}
	m.mark = m.mark[:0]
}

func between(a, b figure.Point, t float64) figure.Point {
	return figure.Point{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}
}
