package bench

import (
	"math"
	"slices"

	"wheelroom/game/figure"
	"wheelroom/game/plot"
	"wheelroom/physics/match"
)

// Traces draws when each lamp is lit, as seen and as the fitted ring has it,
// one above the other for every floor, the highest on top, on one time axis.
// A lamp that no ring explains says so.
func Traces(r *match.Result, width float64, words Words) *figure.Figure {
	d := tracesDrawing{r: r, words: words, f: &figure.Figure{}, k: newInks(width)}
	d.lay(width)
	d.legend()
	d.marks()
	for i, fl := range d.floors {
		d.row(i, fl)
	}
	d.axis()
	return d.f
}

// TracesFrame is where the rows of Traces lie and the seconds at their edges,
// so that a page may move a line over them.
func TracesFrame(r *match.Result, width float64) plot.Frame {
	d := tracesDrawing{r: r, f: &figure.Figure{}, k: newInks(width)}
	d.lay(width)
	return plot.Frame{X0: d.x0, X1: d.x1, Y0: d.top, Y1: d.low, Left: d.t0, Right: d.t1}
}

type tracesDrawing struct {
	r      *match.Result
	words  Words
	f      *figure.Figure
	k      inks
	floors []int // shown, the highest first
	t0, t1 float64
	x0, x1 float64
	top    float64
	rowH   float64
	low    float64
}

func (d *tracesDrawing) x(t float64) float64 {
	t = math.Max(d.t0, math.Min(d.t1, t))
	return d.x0 + (t-d.t0)/(d.t1-d.t0)*(d.x1-d.x0)
}

func (d *tracesDrawing) lay(width float64) {
	em := d.k.em
	d.t0, d.t1 = math.Inf(1), math.Inf(-1)
	reach := func(t float64) {
		if !math.IsNaN(t) && !math.IsInf(t, 0) {
			d.t0, d.t1 = math.Min(d.t0, t), math.Max(d.t1, t)
		}
	}
	name := 0.0
	for fl := len(d.r.Lamps) - 1; fl >= 0; fl-- {
		if len(d.r.Lamps[fl][0])+len(d.r.Lamps[fl][1]) == 0 {
			continue
		}
		d.floors = append(d.floors, fl)
		name = math.Max(name, figure.Measure(d.r.Plan.Floors[fl].Name, em, true))
	}
	for _, e := range d.r.Edges {
		reach(e.TimeS)
		reach(e.ModelS)
	}
	for _, e := range d.r.Observation.Edges {
		reach(e.TimeS)
	}
	if m := d.r.Observation.Depart; m != nil {
		reach(m.TimeS)
	}
	if m := d.r.Observation.Arrive; m != nil {
		reach(m.TimeS)
	}
	if !(d.t1 > d.t0) {
		d.t0, d.t1 = 0, 1
	}
	air := 0.03 * (d.t1 - d.t0)
	d.t0, d.t1 = math.Max(0, d.t0-air), d.t1+air
	d.x0 = 0.6*em + name + 0.8*em
	d.x1 = width - 0.8*em
	d.top = 4.4 * em
	d.rowH = 2.25 * em
	d.low = d.top + d.rowH*float64(len(d.floors))
	d.f.Reset(width, math.Ceil(d.low+3.6*em))
}

// legend shows a bar of either kind with its word.
func (d *tracesDrawing) legend() {
	em, y := d.k.em, 1.2*d.k.em
	x := d.x0
	for _, e := range [...]struct {
		id    string
		style figure.Style
	}{{"seen", d.seen()}, {"fitted", d.fitted(false)}} {
		d.f.Box(e.style, x, y-0.4*em, x+2.4*em, y+0.4*em, 0)
		text := d.words.say(e.id)
		d.f.Text(solid(figure.Ink), figure.Face{Size: em}, x+2.9*em, middle(y, em), text)
		x += 2.9*em + figure.Measure(text, em, false) + 1.8*em
	}
}

func (d *tracesDrawing) seen() figure.Style {
	return sheet(solid(figure.Lamp), solid(figure.Ink), d.k.hair)
}

func (d *tracesDrawing) fitted(odd bool) figure.Style {
	st := sheet(solid(figure.Panel), solid(figure.Ink), d.k.thin)
	if odd {
		st.Dash, st.Stroke = figure.Dashed, solid(figure.Fault)
	}
	return st
}

// marks are the instants of departure and arrival, through all rows.
func (d *tracesDrawing) marks() {
	em := d.k.em
	for _, e := range [...]struct {
		id   string
		mark *match.Mark
	}{{"depart", d.r.Observation.Depart}, {"arrive", d.r.Observation.Arrive}} {
		if e.mark == nil {
			continue
		}
		x := d.x(e.mark.TimeS)
		d.f.Line(figure.Style{Stroke: solid(figure.Muted), Width: d.k.hair, Dash: figure.Dotted}, x, d.top-0.7*em, x, d.low)
		text := d.words.say(e.id)
		w := figure.Measure(text, d.k.small, false)
		at := math.Max(0.3*em, math.Min(x-w/2, d.f.Width-w-0.3*em))
		d.f.Text(solid(figure.Muted), figure.Face{Size: d.k.small}, at, d.top-1.1*em, text)
	}
}

// row is one floor: its name, the bar seen above the bar fitted.
func (d *tracesDrawing) row(i, fl int) {
	f, k, em := d.f, &d.k, d.k.em
	y := d.top + (float64(i)+0.5)*d.rowH
	name := d.r.Plan.Floors[fl].Name
	first := len(f.Items)
	if i > 0 {
		f.Line(line(mixed(figure.Muted, 0.75), k.hair), 0.6*em, y-d.rowH/2, d.x1, y-d.rowH/2)
	}
	f.Text(solid(figure.Ink), figure.Face{Size: em, Bold: true}, 0.6*em, middle(y, em), name)
	odd := slices.Contains(d.r.Unexplained, fl)
	right := d.x0
	for which, top := range [...]float64{y - 0.86*em, y + 0.08*em} {
		st := d.seen()
		if which == 1 {
			st = d.fitted(odd)
		}
		for _, s := range d.r.Lamps[fl][which] {
			x0, x1 := d.x(s.OnS), d.x(s.OffS)
			f.Box(st, x0, top, x1, top+0.78*em, 0)
			right = math.Max(right, x1)
		}
	}
	if odd {
		text := d.words.say("no-ring")
		w := figure.Measure(text, k.small, true)
		x := right + 0.7*em
		if x+w > d.x1 {
			x = d.left(fl) - 0.7*em - w
		}
		f.Text(solid(figure.Fault), figure.Face{Size: k.small, Bold: true}, x, middle(y, k.small), text)
	}
	f.Mark(first, lampPart(name))
}

// left is where the bars of a floor begin.
func (d *tracesDrawing) left(fl int) float64 {
	x := d.x1
	for _, which := range d.r.Lamps[fl] {
		for _, s := range which {
			x = math.Min(x, d.x(s.OnS))
		}
	}
	return x
}

func (d *tracesDrawing) axis() {
	f, k, em := d.f, &d.k, d.k.em
	f.Line(line(solid(figure.Ink), k.thin), d.x0, d.low, d.x1, d.low)
	step, decimals := tick(d.t1-d.t0, max(3, int((d.x1-d.x0)/(3.2*em))))
	for n := math.Ceil(d.t0/step - 1e-9); n*step <= d.t1+1e-9; n++ {
		x := d.x(n * step)
		f.Line(line(solid(figure.Ink), k.hair), x, d.low, x, d.low+0.35*em)
		f.Text(solid(figure.Ink), figure.Face{Size: em, Align: figure.Middle}, x, d.low+1.5*em, d.words.number(n*step, decimals))
	}
	f.Text(solid(figure.Ink), figure.Face{Size: em, Bold: true, Align: figure.End}, d.x1, d.low+3.0*em, d.words.say("time"))
}
