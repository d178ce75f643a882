package bench

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"wheelroom/game/figure"
	"wheelroom/physics/bench"
)

// leastTerminal is the room one terminal has on the strip at least, in ems; a
// long ring makes the drawing wider than it was asked to be.
const leastTerminal = 0.95

// Strip draws the ring unrolled along the travel: terminals above, beneath
// them the stretches over which each lamp is lit, and the landings on the axis.
func Strip(r *bench.Report, look Look) *figure.Figure {
	d := stripDrawing{r: r, look: look, f: &figure.Figure{}, k: newInks(look.Width)}
	d.lay()
	d.terminals()
	d.lamps()
	d.axis()
	return d.f
}

type stripDrawing struct {
	r      *bench.Report
	look   Look
	f      *figure.Figure
	k      inks
	x0     float64 // of height 0
	scale  float64 // logical units to a metre
	yStud  float64 // middle of the terminals
	hStud  float64
	yJoin  float64
	yLamp  [2]float64 // middles of the two rows of lamps
	hLamp  float64
	yGap   float64 // top of the marks between lamps
	yAxis  float64
	lo, hi float64 // metres shown
}

func (d *stripDrawing) x(yM float64) float64 { return d.x0 + yM*d.scale }

// lay settles scale and places.
func (d *stripDrawing) lay() {
	em := d.k.em
	pitch := d.r.Ring.PitchM()
	t := d.r.Terminals
	d.lo = math.Min(t[0].HeightM, 0) - pitch
	d.hi = math.Max(t[len(t)-1].HeightM, d.r.Plan.TravelM()) + pitch
	pad := 0.6 * em
	label := 0.0
	for _, id := range [...]string{"strip-terminals", "strip-lamps", "strip-travel", "strip-gaps"} {
		label = math.Max(label, figure.Measure(d.look.Words.say(id), d.k.small, false))
	}
	left := pad + label + 0.8*em
	width := math.Max(d.look.Width, left+pad+(d.hi-d.lo)/pitch*leastTerminal*em)
	d.scale = (width - left - pad) / (d.hi - d.lo)
	d.x0 = left - d.lo*d.scale

	d.hStud, d.hLamp = 1.5*em, 1.55*em
	d.yStud = 3.6*em + d.hStud/2
	d.yJoin = d.yStud + d.hStud/2 + 0.75*em
	d.yLamp[0] = d.yJoin + 1.0*em + d.hLamp/2
	d.yLamp[1] = d.yLamp[0] + d.hLamp + 0.35*em
	d.yGap = d.yLamp[1] + d.hLamp/2 + 0.55*em
	d.yAxis = d.yGap + 2.1*em
	d.f.Reset(math.Ceil(width), math.Ceil(d.yAxis+3.9*em))

	face := figure.Face{Size: d.k.small}
	for _, row := range [...]struct {
		id string
		y  float64
	}{{"strip-terminals", d.yStud}, {"strip-lamps", (d.yLamp[0] + d.yLamp[1]) / 2}, {"strip-travel", d.yAxis + 1.6*em}} {
		d.f.Text(solid(figure.Muted), face, pad, middle(row.y, d.k.small), d.look.Words.say(row.id))
	}
}

// terminals draws the studs with their numbers, and the brush above them.
func (d *stripDrawing) terminals() {
	f, k, em := d.f, &d.k, d.k.em
	s := &d.r.Plan.Selector
	pitch := d.r.Ring.PitchM()
	half := s.TerminalWidth / 2 * pitch * d.scale
	step := every(figure.Measure("88", k.small, false)+0.4*em, pitch*d.scale)
	reach := (s.TerminalWidth + s.BrushWidth) / 2 * pitch
	for i, t := range d.r.Terminals {
		x := d.x(t.HeightM)
		first := len(f.Items)
		st := sheet(mixed(figure.Brass, 0.35), solid(figure.Ink), k.hair)
		switch {
		case t.Floor == "":
			st = sheet(solid(figure.Panel), solid(figure.Muted), k.hair)
		case math.Abs(t.HeightM-d.look.CarM) < reach:
			st = sheet(solid(figure.Lamp), solid(figure.Ink), k.thin)
		}
		f.Box(st, x-half, d.yStud-d.hStud/2, x+half, d.yStud+d.hStud/2, 0)
		if i == d.look.Chosen {
			g := 2.2 * k.thick
			f.Box(line(solid(figure.Ink), k.thick), x-half-g, d.yStud-d.hStud/2-g, x+half+g, d.yStud+d.hStud/2+g, 0)
		}
		if i%step == 0 {
			f.Text(solid(figure.Ink), figure.Face{Size: k.small, Align: figure.Middle}, x, d.yStud-d.hStud/2-1.0*em, strconv.Itoa(i))
		}
		f.Mark(first, terminalPart(i))
	}
	// The brush, to the same scale, between numbers and terminals.
	w := s.BrushWidth / 2 * pitch * d.scale
	x := d.x(d.look.CarM)
	y := d.yStud - d.hStud/2 - 0.45*em
	first := len(f.Items)
	f.Box(sheet(mixed(figure.Steel, 0.1), solid(figure.Ink), k.hair), x-w, y-0.2*em, x+w, y+0.3*em, 0)
	f.Mark(first, "brush")
	d.joins()
}

// joins lead from the terminals of a floor to its lamp.
func (d *stripDrawing) joins() {
	f, k := d.f, &d.k
	st := line(solid(figure.Ink), k.thin)
	low := d.yStud + d.hStud/2
	for fl, floor := range d.r.Plan.Floors {
		var at []float64
		for _, t := range d.r.Terminals {
			if t.Floor == floor.Name {
				at = append(at, d.x(t.HeightM))
			}
		}
		if len(at) == 0 {
			continue
		}
		first := len(f.Items)
		for _, x := range at {
			f.Line(st, x, low, x, d.yJoin)
		}
		if len(at) > 1 {
			f.Line(st, at[0], d.yJoin, at[len(at)-1], d.yJoin)
			for _, x := range at[1 : len(at)-1] {
				f.Circle(figure.Style{Fill: solid(figure.Ink)}, x, d.yJoin, 1.4*k.thin)
			}
		}
		mid := (at[0] + at[len(at)-1]) / 2
		f.Line(st, mid, d.yJoin, mid, d.yLamp[fl%2]-d.hLamp/2)
		f.Mark(first, lampPart(floor.Name))
	}
}

// lamps draws over which travel each lamp is lit, in two rows so that lamps
// which overlap are seen apart, and between them what is dark.
func (d *stripDrawing) lamps() {
	f, k, em := d.f, &d.k, d.k.em
	for fl, floor := range d.r.Plan.Floors {
		y := d.yLamp[fl%2]
		for _, s := range d.r.Ring.Lit(fl) {
			first := len(f.Items)
			x0, x1 := d.x(s.UpMake), d.x(s.UpBreak)
			f.Box(sheet(solid(figure.Lamp), solid(figure.Ink), k.hair), x0, y-d.hLamp/2, x1, y+d.hLamp/2, 0)
			if x1-x0 > figure.Measure(floor.Name, em, true)+0.3*em {
				f.Text(solid(figure.LampInk), figure.Face{Size: em, Bold: true, Align: figure.Middle}, (x0+x1)/2, middle(y, em), floor.Name)
			}
			f.Mark(first, lampPart(floor.Name))
		}
	}
	d.between()
}

// between marks what lies between two lamps: a full bar where it is dark, an
// empty one where both are lit, each with its length as far as there is room.
func (d *stripDrawing) between() {
	f, k, em := d.f, &d.k, d.k.em
	y := d.yGap
	type gap struct {
		x0, x1     float64
		long, bare string
		dark       bool
	}
	var gaps []gap
	for _, b := range d.r.Ring.Boundaries() {
		for _, s := range b.Dark {
			bare := d.metres(s.LengthM())
			gaps = append(gaps, gap{d.x(s.FromM), d.x(s.ToM), d.look.Words.say("strip-dark", "dark", bare), bare, true})
		}
		for _, s := range b.Both {
			bare := d.metres(s.LengthM())
			gaps = append(gaps, gap{d.x(s.FromM), d.x(s.ToM), d.look.Words.say("strip-both", "both", bare), bare, false})
		}
	}
	slices.SortFunc(gaps, func(a, b gap) int { return cmp.Compare(a.x0, b.x0) })
	// Words at every mark, or figures alone with the words at the side.
	crowded := false
	right := math.Inf(-1)
	for _, g := range gaps {
		w := figure.Measure(g.long, k.small, false)
		crowded = crowded || (g.x0+g.x1-w)/2 < right+0.5*em
		right = (g.x0 + g.x1 + w) / 2
	}
	if crowded {
		f.Text(solid(figure.Muted), figure.Face{Size: k.small}, 0.6*em, y+1.5*em, d.look.Words.say("strip-gaps"))
	}
	right = math.Inf(-1)
	for _, g := range gaps {
		st := figure.Style{Fill: solid(figure.Ink)}
		if !g.dark {
			st = sheet(solid(figure.Panel), solid(figure.Ink), k.thin)
		}
		f.Box(st, g.x0, y, g.x1, y+0.42*em, 0)
		text := g.long
		if crowded {
			text = g.bare
		}
		w, mid := figure.Measure(text, k.small, false), (g.x0+g.x1)/2
		if mid-w/2 > right+0.4*em && mid+w/2 < f.Width {
			f.Text(solid(figure.Ink), figure.Face{Size: k.small, Align: figure.Middle}, mid, y+1.5*em, text)
			right = mid + w/2
		}
	}
}

func (d *stripDrawing) metres(v float64) string { return d.look.Words.number(v, 2) }

// axis draws the travel with its ticks above the line and the landings below.
func (d *stripDrawing) axis() {
	f, k, em := d.f, &d.k, d.k.em
	f.Line(line(solid(figure.Ink), k.thin), d.x(d.lo), d.yAxis, d.x(d.hi), d.yAxis)
	right := math.Inf(-1)
	for fl, floor := range d.r.Plan.Floors {
		x := d.x(floor.HeightM)
		a := 0.42 * em
		f.Polygon(figure.Style{Fill: solid(figure.Ink)}, figure.Point{X: x, Y: d.yAxis + 0.1*em},
			figure.Point{X: x - a, Y: d.yAxis + 0.1*em + 1.4*a}, figure.Point{X: x + a, Y: d.yAxis + 0.1*em + 1.4*a})
		f.Text(solid(figure.Ink), figure.Face{Size: em, Bold: true, Align: figure.Middle}, x, d.yAxis+2.0*em, floor.Name)
		text := d.look.Words.number(floor.HeightM, decimalsOf(floor.HeightM))
		if fl == 0 {
			text = d.look.Words.say("strip-metres", "figure", text)
		}
		w := figure.Measure(text, k.small, false)
		if x-w/2 > right+0.4*em {
			f.Text(solid(figure.Muted), figure.Face{Size: k.small, Align: figure.Middle}, x, d.yAxis+3.3*em, text)
			right = x + w/2
		}
	}
}

// decimalsOf is how many decimals show a height to the centimetre and no more
// than it has.
func decimalsOf(v float64) int {
	for n := 0; n < 2; n++ {
		k := math.Pow10(n)
		if math.Abs(v*k-math.Round(v*k)) < 1e-6*k {
			return n
		}
	}
	return 2
}
