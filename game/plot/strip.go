package plot

import (
	"math"
	"slices"

	"wheelroom/game/figure"
	"wheelroom/physics/phrase"
)

// An Event is one row of a strip.
type Event struct {
	Text  string
	AtS   float64 // no earlier than the row before
	Cause int     // an earlier row; -1 for none
	Part  string
}

// A Strip is a sequence of causes: one row an event, from top to bottom in the
// order in which they come about, and time to the right. Under each cause a
// line runs down and from it an arrow to each effect, as long as the time
// between, with that time beside it. Where nothing happens for long the axis
// is broken; between two breaks one scale holds, but for what would be shorter
// than its arrow.
type Strip struct {
	Width  float64
	Events []Event
	Clock  string                     // heads the column of times, with its unit: "ms"
	What   string                     // heads the column of texts
	Plane  string                     // heads the plane
	After  func(ms float64) string    // the time between, in words: "+15 ms"
	Number func(phrase.Number) string // how the language writes a number; nil for the plain way
}

// A row of a strip, laid out.
type row struct {
	x, y  float64
	after string
}

// Draw lays the strip out and returns it with the places of its events.
func (s *Strip) Draw() (*figure.Figure, []figure.Point) {
	d := stripDrawing{strip: s, ink: newInks(s.Width), number: s.Number}
	if d.number == nil {
		d.number = plain
	}
	d.lay()
	d.draw()
	places := make([]figure.Point, len(d.rows))
	for i, r := range d.rows {
		places[i] = figure.Point{X: r.x, Y: r.y}
	}
	return &d.f, places
}

type stripDrawing struct {
	strip  *Strip
	ink    inks
	number func(phrase.Number) string
	f      figure.Figure
	rows   []row
	clocks []string
	clockX float64 // right edge of the times
	textX  float64
	planeX float64 // left and right edge of the plane
	right  float64
	head   float64 // base line of the heads
	step   float64 // from row to row
	breaks []float64
}

// lay settles columns, time scale and rows.
func (d *stripDrawing) lay() {
	s, em := d.strip, d.ink.em
	pad := 0.6 * em
	d.head, d.step = 1.5*em, 1.72*em
	clock, text, after := figure.Measure(s.Clock, em, true), 0.0, 0.0
	for _, e := range s.Events {
		c := d.number(phrase.Num(1000*e.AtS, 0))
		d.clocks = append(d.clocks, c)
		clock = math.Max(clock, figure.Measure(c, em, false))
		text = math.Max(text, figure.Measure(e.Text, em, false))
		r := row{y: d.head + 0.75*em + d.step*(float64(len(d.rows))+0.5)}
		if e.Cause >= 0 {
			r.after = s.After(1000 * (e.AtS - s.Events[e.Cause].AtS))
			after = math.Max(after, figure.Measure(r.after, em, false))
		}
		d.rows = append(d.rows, r)
	}
	d.clockX = pad + clock
	d.textX = d.clockX + 0.9*em
	d.planeX = d.textX + text + 1.6*em
	d.right = math.Max(s.Width-pad-after-1.2*em, d.planeX+2*em)
	d.f.Reset(math.Max(s.Width, math.Ceil(d.right+after+1.2*em+pad)), 0)
	d.times()
	d.f.Height = math.Ceil(d.head + 0.75*em + d.step*float64(len(d.rows)) + 0.8*em)
}

// times places the rows along the axis. A gap that would take more than its
// share of the plane is broken; then the others are stretched over what is
// left, and so on until no more break.
func (d *stripDrawing) times() {
	events := d.strip.Events
	if len(events) == 0 {
		return
	}
	width, tear := d.right-d.planeX, 1.5*d.ink.em
	gaps := make([]float64, len(events))
	short := make([]float64, len(events)) // the least a gap may take
	for i := 1; i < len(events); i++ {
		gaps[i], short[i] = events[i].AtS-events[i-1].AtS, d.shortest()
		if gaps[i] < 5e-5 && d.only(i) {
			gaps[i], short[i] = 0, 0 // straight under its cause
		}
	}
	limit, scale := d.breakAt(gaps, short, width, tear)
	x := d.planeX
	for i := range events {
		switch {
		case gaps[i] > limit:
			d.breaks = append(d.breaks, x+tear/2)
			x += tear
		default:
			x += math.Max(short[i], gaps[i]*scale)
		}
		d.rows[i].x = x
	}
	// Where every gap is at its least the rows may want more than there was.
	if more := x - d.right; more > 0 {
		d.right += more
		d.f.Width = math.Ceil(d.f.Width + more)
	}
}

// breakAt returns the longest gap that is not broken, seconds, and the scale of
// those that are not: as few breaks as let a hundredth of a second be seen, or,
// where no number of breaks does, those that give the largest scale.
func (d *stripDrawing) breakAt(gaps, short []float64, width, tear float64) (limit, scale float64) {
	sorted := slices.Clone(gaps)
	slices.Sort(sorted)
	for k := len(sorted) - 1; k >= 0; k-- {
		// Less than a twentieth of a second is not worth a break.
		if k < len(sorted)-1 && (sorted[k+1] < 0.05 || sorted[k] == sorted[k+1]) {
			continue
		}
		fit := fill(gaps, short, sorted[k], width, tear)
		if fit > scale {
			limit, scale = sorted[k], fit
		}
		if scale*0.01 >= 0.8*d.shortest() {
			break
		}
	}
	if scale == 0 {
		limit = sorted[len(sorted)-1]
	}
	return limit, scale
}

// fill returns the scale at which the gaps take the whole width, those beyond
// limit broken; 0 where even the least they may take is too much.
func fill(gaps, short []float64, limit, width, tear float64) float64 {
	takes := func(scale float64) float64 {
		sum := 0.0
		for i, g := range gaps {
			if g > limit {
				sum += tear
			} else {
				sum += math.Max(short[i], g*scale)
			}
		}
		return sum
	}
	if takes(0) > width {
		return 0
	}
	lo, hi := 0.0, 1e6
	for range 60 {
		if mid := (lo + hi) / 2; takes(mid) > width {
			hi = mid
		} else {
			lo = mid
		}
	}
	return lo
}

// shortest is the length of an arrow of which something is to be seen.
func (d *stripDrawing) shortest() float64 { return 2.3*d.bullet() + 2*d.ink.thin }

// only tells that row i is the one effect of the row above it, and so may
// stand straight under it.
func (d *stripDrawing) only(i int) bool {
	events := d.strip.Events
	if events[i].Cause != i-1 {
		return false
	}
	for j := i + 1; j < len(events); j++ {
		if events[j].Cause == i-1 {
			return false
		}
	}
	return true
}

// draw draws from the back to the front.
func (d *stripDrawing) draw() {
	s, em, k := d.strip, d.ink.em, &d.ink
	d.f.Text(solid(figure.Ink), figure.Face{Size: em, Bold: true, Align: figure.End}, d.clockX, d.head, s.Clock)
	d.f.Text(solid(figure.Ink), figure.Face{Size: em, Bold: true}, d.textX, d.head, s.What)
	d.f.Text(solid(figure.Ink), figure.Face{Size: em, Bold: true}, d.planeX-0.4*em, d.head, s.Plane)
	if len(d.rows) == 0 {
		return
	}
	top, low := d.rows[0].y-d.step/2, d.rows[len(d.rows)-1].y+d.step/2
	x1 := d.f.Width - 0.4*em
	d.f.Box(figure.Style{Fill: solid(figure.Panel)}, d.planeX-0.8*em, top, x1, low, 0)
	for i, r := range d.rows {
		if i > 0 {
			d.f.Line(figure.Style{Stroke: mixed(figure.Muted, 0.75), Width: k.hair}, 0.4*em, r.y-d.step/2, x1, r.y-d.step/2)
		}
	}
	for _, x := range d.breaks {
		d.tear(x, top, low)
	}
	line := figure.Style{Stroke: solid(figure.Ink), Width: k.thin, Round: true}
	for i, e := range s.Events {
		if e.Cause >= 0 {
			d.arrow(line, &d.rows[e.Cause], &d.rows[i], e.Part)
		}
	}
	for c := range s.Events {
		d.trunk(line, c)
	}
	for i, e := range s.Events {
		r, first := &d.rows[i], len(d.f.Items)
		st := figure.Style{Fill: solid(figure.Ink), Stroke: solid(figure.Panel), Width: k.hair}
		if e.Cause < 0 {
			st = figure.Style{Fill: solid(figure.Panel), Stroke: solid(figure.Ink), Width: k.thin}
		}
		d.f.Circle(st, r.x, r.y, d.bullet())
		face := figure.Face{Size: em}
		d.f.Text(solid(figure.Muted), figure.Face{Size: em, Align: figure.End}, d.clockX, middle(r.y, em), d.clocks[i])
		d.f.Text(solid(figure.Ink), face, d.textX, middle(r.y, em), e.Text)
		if r.after != "" {
			x := r.x + d.bullet() + 0.45*em
			d.f.Box(figure.Style{Fill: solid(figure.Panel)}, x-0.15*em, r.y-0.65*em, x+figure.Measure(r.after, em, false)+0.15*em, r.y+0.65*em, 0)
			d.f.Text(solid(figure.Ink), face, x, middle(r.y, em), r.after)
		}
		d.f.Mark(first, e.Part)
	}
}

func (d *stripDrawing) bullet() float64 { return 1.1 * d.ink.dot }

// tear breaks the plane: two strokes with the ground between.
func (d *stripDrawing) tear(x, top, low float64) {
	w := 0.22 * d.ink.em
	d.f.Box(figure.Style{Fill: solid(figure.Ground)}, x-w, top, x+w, low, 0)
	for _, side := range [...]float64{-w, w} {
		d.f.Line(figure.Style{Stroke: mixed(figure.Muted, 0.35), Width: d.ink.hair, Dash: figure.Dotted}, x+side, top, x+side, low)
	}
}

// arrow leads from under a cause to its effect.
func (d *stripDrawing) arrow(line figure.Style, from, to *row, part string) {
	b := d.bullet()
	head := 1.4 * b
	if to.x == from.x {
		return // the trunk itself ends in the effect
	}
	d.f.Line(line, from.x, to.y, to.x-b-0.8*head, to.y).Part = part
	d.f.Polygon(figure.Style{Fill: solid(figure.Ink)}, figure.Point{X: to.x - b, Y: to.y},
		figure.Point{X: to.x - b - head, Y: to.y - 0.5*head}, figure.Point{X: to.x - b - head, Y: to.y + 0.5*head}).Part = part
}

// trunk runs down from a cause to its last effect. Lines that it only crosses
// are parted for it; where an arrow leaves it, a dot says so.
func (d *stripDrawing) trunk(line figure.Style, c int) {
	b, from := d.bullet(), &d.rows[c]
	head := 1.4 * b
	low := from.y
	var joints []float64
	var ends []*row
	for i, e := range d.strip.Events {
		if e.Cause != c {
			continue
		}
		to := &d.rows[i]
		if to.x == from.x {
			ends = append(ends, to)
			low = math.Max(low, to.y-b)
			continue
		}
		joints = append(joints, to.y)
		low = math.Max(low, to.y)
	}
	if low == from.y {
		return
	}
	d.f.Line(figure.Style{Stroke: solid(figure.Panel), Width: 4 * line.Width}, from.x, from.y+b, from.x, low-2*line.Width)
	d.f.Line(line, from.x, from.y+b, from.x, low)
	for _, y := range joints {
		if y < low {
			d.f.Circle(figure.Style{Fill: solid(figure.Ink)}, from.x, y, 1.6*line.Width)
		}
	}
	for _, to := range ends {
		y := to.y - b
		d.f.Polygon(figure.Style{Fill: solid(figure.Ink)}, figure.Point{X: to.x, Y: y},
			figure.Point{X: from.x - 0.5*head, Y: y - head}, figure.Point{X: from.x + 0.5*head, Y: y - head})
	}
}
