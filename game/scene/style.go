package scene

import (
	"math"

	"wheelroom/game/figure"
)

// inks are the measures of a scene: u is the size of its things, t the em of
// an ordinary label, both in logical units; the widths of lines follow.
type inks struct {
	u          float64
	t          float64 // ordinary label
	small      float64 // secondary label; equal to t on the projector
	name       float64 // a floor's name
	hair       float64 // guides, engraving
	fine       float64 // outlines of small things
	line       float64 // outlines of things
	bold       float64
	dead, live float64 // wires
	lecture    bool
}

// Shares of the picture's height on a projector: text as the page's rules
// have it, wires 4 px of 1080 and twice that when live.
const (
	lectureText = 0.0356
	lectureWire = 4.0 / 1080
)

func newInks(o *Options, u float64) inks {
	// Type grows more slowly than the room it stands in.
	t := 11.5 * math.Pow(max(u, 0.2), 0.62)
	k := inks{
		u: u, t: t, small: t * 0.9, name: t * 1.3,
		hair: 0.8 * grow(u), fine: 1.1 * grow(u), line: 1.6 * grow(u), bold: 2.4 * grow(u),
		dead: 1.4 * grow(u), live: 3.4 * grow(u),
	}
	if o.Lecture {
		k.lecture = true
		k.t = max(k.t, lectureText*o.Height)
		k.small, k.name = k.t, max(k.name, 1.1*k.t)
		k.dead = max(k.dead, lectureWire*o.Height)
		k.live = 2.4 * k.dead
		k.fine, k.line, k.bold = k.fine*1.3, k.line*1.3, k.bold*1.3
	}
	return k
}

// grow is how a line's width follows the size of things.
func grow(u float64) float64 { return math.Sqrt(max(u, 0.4)) }

func solid(r figure.Role) figure.Paint             { return figure.Paint{Role: r} }
func mixed(r figure.Role, m float64) figure.Paint  { return figure.Paint{Role: r, Mix: m} }
func sheer(r figure.Role, a float64) figure.Paint  { return figure.Paint{Role: r, Alpha: a} }
func stroke(r figure.Role, w float64) figure.Style { return figure.Style{Stroke: solid(r), Width: w} }

// round is a stroke with round joins and caps.
func round(r figure.Role, w float64) figure.Style {
	return figure.Style{Stroke: solid(r), Width: w, Round: true}
}

// plain is a fill without an edge.
func plain(p figure.Paint) figure.Style { return figure.Style{Fill: p} }

// metal is a softly lit fill with an edge in ink: from light, top left, to
// dark, bottom right, both measured towards the ground.
func metal(r figure.Role, light, dark, w float64) figure.Style {
	return figure.Style{Fill: mixed(r, light), Shade: mixed(r, dark), Stroke: solid(figure.Ink), Width: w}
}

// sheet is a flat surface with an edge.
func sheet(fill figure.Paint, edge figure.Role, w float64) figure.Style {
	return figure.Style{Fill: fill, Stroke: solid(edge), Width: w}
}

// glide lets every item from first on move smoothly.
func glide(f *figure.Figure, first int) {
	for i := first; i < len(f.Items); i++ {
		f.Items[i].Style.Glide = true
	}
}

// pt is a point.
func pt(x, y float64) figure.Point { return figure.Point{X: x, Y: y} }

// polar is the point at a radius and an angle about a centre.
func polar(x, y, r, a float64) figure.Point {
	sin, cos := math.Sincos(a)
	return figure.Point{X: x + r*cos, Y: y + r*sin}
}

// lerp goes from a to b as k goes from 0 to 1.
func lerp(a, b, k float64) float64 { return a + (b-a)*k }

func clamp(v, lo, hi float64) float64 { return max(lo, min(hi, v)) }

// middle is the base line of a text whose capitals are centred on y.
func middle(y, em float64) float64 { return y + em*figure.CapHeight/2 }

// rect is a place in the scene.
type rect struct{ x0, y0, x1, y1 float64 }

func (r rect) w() float64  { return r.x1 - r.x0 }
func (r rect) h() float64  { return r.y1 - r.y0 }
func (r rect) cx() float64 { return (r.x0 + r.x1) / 2 }
func (r rect) cy() float64 { return (r.y0 + r.y1) / 2 }

func (r rect) inset(d float64) rect { return rect{r.x0 + d, r.y0 + d, r.x1 - d, r.y1 - d} }
func (r rect) has(x, y float64) bool {
	return x >= r.x0 && x <= r.x1 && y >= r.y0 && y <= r.y1
}
