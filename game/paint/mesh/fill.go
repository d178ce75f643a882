package mesh

import (
	"math"

	"wheelroom/game/figure"
)

// fill covers a closed edge, which may be hollow but does not cross itself.
// Where a stroke will hide the edge it needs no soft band.
func (m *Mesh) fill(p []figure.Point, hidden bool) {
	n := len(p)
	if n < 3 {
		return
	}
	area, convex := turn(p)
	if area == 0 {
		return
	}
	// Corners of the body stand at first, first+stride, …
	first, stride := len(m.Vertices), 1
	if hidden {
		for _, q := range p {
			m.vertex(q.X, q.Y, 1)
		}
	} else {
		stride = 2
		m.softEdge(p, area)
	}
	corner := func(i int) int { return first + stride*i }
	if convex {
		for i := 2; i < n; i++ {
			m.triangle(first, corner(i-1), corner(i))
		}
		return
	}
	m.clip(p, area, corner)
}

// turn returns twice the signed area, positive clockwise as seen, and whether
// all corners turn the same way.
func turn(p []figure.Point) (area float64, convex bool) {
	n := len(p)
	left, right := false, false
	for i := range p {
		a, b, c := p[i], p[(i+1)%n], p[(i+2)%n]
		area += a.X*b.Y - a.Y*b.X
		k := cross(a, b, c)
		left = left || k < -1e-9
		right = right || k > 1e-9
	}
	return area, !left || !right
}

func cross(a, b, c figure.Point) float64 {
	return (b.X-a.X)*(c.Y-b.Y) - (b.Y-a.Y)*(c.X-b.X)
}

// softEdge adds two vertices a corner, half a pixel inside and outside, and
// the band between.
func (m *Mesh) softEdge(p []figure.Point, area float64) {
	n, first := len(p), len(m.Vertices)
	outward := -0.5
	if area < 0 {
		outward = 0.5
	}
	for i := range p {
		n0 := toward(p[(i+n-1)%n], p[i]).turned()
		n1 := toward(p[i], p[(i+1)%n]).turned()
		// The sides of the band meet 1/cos(t/2) away; a needle's tip is cut off.
		k := outward / max(0.125, 1+n0.x*n1.x+n0.y*n1.y)
		dx, dy := k*(n0.x+n1.x), k*(n0.y+n1.y)
		m.vertex(p[i].X-dx, p[i].Y-dy, 1)
		m.vertex(p[i].X+dx, p[i].Y+dy, 0)
	}
	for i := range n {
		j := (i + 1) % n
		m.quad(first+2*i, first+2*i+1, first+2*j+1, first+2*j)
	}
}

// clip cuts a hollow polygon into triangles, one ear after another: a corner
// that turns the right way and has no other corner inside its triangle.
func (m *Mesh) clip(p []figure.Point, area float64, corner func(int) int) {
	n := len(p)
	m.next = m.next[:0]
	for i := range n {
		m.next = append(m.next, int32((i+1)%n))
	}
	sign := math.Copysign(1, area)
	a, left := n-1, n
	for tries := 0; left > 3 && tries < left; {
		b := int(m.next[a])
		c := int(m.next[b])
		if k := sign * cross(p[a], p[b], p[c]); k >= 0 && m.ear(p, a, b, c, sign) {
			if k > 0 {
				m.triangle(corner(a), corner(b), corner(c))
			}
			m.next[a] = int32(c)
			left--
			tries = 0
			continue
		}
		a = b
		tries++
	}
	// What is left is a triangle, or crosses itself and is drawn as best it can.
	b := int(m.next[a])
	for c := int(m.next[b]); c != a; c = int(m.next[c]) {
		m.triangle(corner(a), corner(b), corner(c))
		b = c
	}
}

// ear tells whether no other corner lies in the triangle a b c.
func (m *Mesh) ear(p []figure.Point, a, b, c int, sign float64) bool {
	for i := int(m.next[c]); i != a; i = int(m.next[i]) {
		q := p[i]
		if q != p[a] && q != p[b] && q != p[c] &&
			sign*cross(p[a], p[b], q) >= 0 && sign*cross(p[b], p[c], q) >= 0 && sign*cross(p[c], p[a], q) >= 0 {
			return false
		}
	}
	return true
}
