package scene

import (
	"math"
	"wheelroom/game/figure"
	"wheelroom/physics/lift"
	"wheelroom/physics/selector"
)

// drawPlate is the fixed plate with terminals, joins and dark lamps.
func (w *wheelPicture) drawPlate(f *figure.Figure) {
	k := &w.s.ink
	x, y, u := w.x, w.y, w.k
	f.Circle(plain(sheer(figure.Ink, 0.10)), x+0.9*u, y+1.8*u, plateR*u+1.2*u)
	f.Circle(figure.Style{Fill: solid(figure.Panel), Shade: mixed(figure.Brass, 0.9), Stroke: solid(figure.Ink), Width: k.fine}, x, y, plateR*u)

	studs := w.s.ring.Terminals()
	edge := min(k.fine, w.s.ring.PitchM()*w.s.wheel.RadPerM()*w.r.stud*u*0.09)
	// Wires to the lamps and bars that join.
	for fl := range w.names {
		a0, a1, any := w.joined(fl)
		if !any {
			continue
		}
		first := len(f.Items)
		if w.labelled[fl] {
			w.lead(f, fl, stroke(figure.Muted, k.dead*0.8))
		}
		if a1 > a0 {
			f.Arc(figure.Style{Stroke: solid(figure.Ink), Width: 3.4*u + 2*edge}, x, y, w.r.stud*u, a0, a1)
			f.Arc(figure.Style{Stroke: mixed(figure.Brass, 0.25), Width: 3.4 * u}, x, y, w.r.stud*u, a0, a1)
		}
		f.Mark(first, "lamp."+w.names[fl])
	}
	half := w.studHalf()
	for i := range studs {
		a := w.lowest + studs[i].AngleRad
		first := len(f.Items)
		if studs[i].Floor == selector.Blank {
			f.Arc(figure.Style{Stroke: solid(figure.Muted), Width: studW * u}, x, y, w.r.stud*u, a-half, a+half)
			f.Arc(figure.Style{Stroke: solid(figure.Panel), Width: studW*u - 2*edge}, x, y, w.r.stud*u, a-half+edge/(w.r.stud*u), a+half-edge/(w.r.stud*u))
		} else {
			w.stud(f, a, half, edge, mixed(figure.Brass, 0.3))
		}
		f.Mark(first, "terminal."+number(i))
	}
}

// studHalf is half the angle a terminal covers.
func (w *wheelPicture) studHalf() float64 {
	return w.s.plan.Selector.TerminalWidth / 2 * w.s.ring.PitchM() * w.s.wheel.RadPerM()
}

// stud is a live terminal.
func (w *wheelPicture) stud(f *figure.Figure, a, half, edge float64, fill figure.Paint) {
	x, y, u := w.x, w.y, w.k
	f.Arc(figure.Style{Stroke: solid(figure.Ink), Width: studW * u}, x, y, w.r.stud*u, a-half, a+half)
	f.Arc(figure.Style{Stroke: fill, Width: studW*u - 2*edge}, x, y, w.r.stud*u, a-half+edge/(w.r.stud*u), a+half-edge/(w.r.stud*u))
}

// joined returns the angles between which a floor's terminals lie.
func (w *wheelPicture) joined(fl int) (a0, a1 float64, any bool) {
	for i := range w.s.ring.Terminals() {
		t := &w.s.ring.Terminals()[i]
		if t.Floor != fl {
			continue
		}
		a := w.lowest + t.AngleRad
		if !any {
			a0 = a
		}
		a1, any = a, true
	}
	return a0, a1, any
}

// chooseLabels decides how large the lamps are, and which are shown while
// dark: all where there is room, otherwise evenly spaced ones.
func (w *wheelPicture) chooseLabels() {
	k := &w.s.ink
	n := len(w.s.plan.Floors)
	em := w.lampEm()
	for _, f := range w.s.plan.Floors {
		w.names = append(w.names, f.Name)
		w.lampW = max(w.lampW, figure.Measure(f.Name, em, true)+0.8*em)
	}
	w.lampH = 1.55 * em
	w.lampW = max(w.lampW, 1.7*em)
	w.labelled = make([]bool, n)
	room := math.Hypot(w.lampW, w.lampH)*0.86 + 2*k.u
	last := math.Inf(-1)
	for f := n - 1; f >= 0; f-- {
		a := w.station(f)
		if last == math.Inf(-1) || (last-a)*w.r.lamp*w.k >= room {
			w.labelled[f] = true
			last = a
		}
	}
}

func (w *wheelPicture) lampEm() float64 {
	if w.s.ink.lecture {
		return w.s.ink.t
	}
	return max(9.5, 12*w.k) * 0.98
}

// lampAt is the middle of a floor's position lamp.
func (w *wheelPicture) lampAt(fl int) figure.Point {
	return polar(w.x, w.y, w.r.lamp*w.k, w.station(fl))
}

// lead is the wire from a floor's terminals to its lamp.
func (w *wheelPicture) lead(f *figure.Figure, fl int, st figure.Style) {
	a0, a1, _ := w.joined(fl)
	p := polar(w.x, w.y, (w.r.stud+studW/2-0.5)*w.k, (a0+a1)/2)
	q := w.lampAt(fl)
	// It ends at the edge of the lamp's square.
	dx, dy := q.X-p.X, q.Y-p.Y
	cut := min((w.lampW/2)/max(math.Abs(dx), 1e-9), (w.lampH/2)/max(math.Abs(dy), 1e-9))
	if cut >= 1 {
		return
	}
	f.Line(st, p.X, p.Y, q.X-dx*cut, q.Y-dy*cut)
}

// lampBox is a position lamp: a square with the floor's name.
func (w *wheelPicture) lampBox(f *figure.Figure, fl int, lit bool) {
	k := &w.s.ink
	c := w.lampAt(fl)
	em := w.lampEm()
	st := figure.Style{Fill: solid(figure.Panel), Stroke: mixed(figure.Muted, 0.45), Width: k.fine}
	text := solid(figure.Muted)
	if lit {
		st = figure.Style{Fill: solid(figure.Lamp), Stroke: solid(figure.Ink), Width: k.line}
		text = solid(figure.LampInk)
	}
	first := len(f.Items)
	f.Box(st, c.X-w.lampW/2, c.Y-w.lampH/2, c.X+w.lampW/2, c.Y+w.lampH/2, 3*w.k)
	f.Text(text, figure.Face{Size: em, Bold: true, Align: figure.Middle}, c.X, middle(c.Y, em), w.names[fl])
	f.Mark(first, "")
	for i := first; i < len(f.Items); i++ {
		f.Items[i].Part = w.s.parts.lamp[fl]
	}
}

// moveRing lights terminals and lamps.
func (w *wheelPicture) moveRing(f *figure.Figure, v *lift.View) {
	k := &w.s.ink
	edge := min(k.fine, w.s.ring.PitchM()*w.s.wheel.RadPerM()*w.r.stud*w.k*0.09)
	studs := w.s.ring.Terminals()
	half := w.studHalf()
	for i := range studs {
		if i < len(v.Terminal) && v.Terminal[i] && studs[i].Floor != selector.Blank {
			w.stud(f, w.lowest+studs[i].AngleRad, half, edge, solid(figure.Lamp))
		}
	}
	for fl := range w.names {
		if w.lit(v, fl) {
			w.lead(f, fl, stroke(figure.Ink, k.live*0.7))
		}
	}
	for fl := range w.names {
		if w.labelled[fl] && !w.lit(v, fl) && !w.hidden(v, fl) {
			w.lampBox(f, fl, false)
		}
	}
	for fl := range w.names {
		if w.lit(v, fl) {
			w.lampBox(f, fl, true)
		}
	}
}

func (w *wheelPicture) lit(v *lift.View, fl int) bool { return fl < len(v.Lamps) && v.Lamps[fl] }

// hidden reports whether a dark lamp must make way for a lit one that has no
// place of its own.
func (w *wheelPicture) hidden(v *lift.View, fl int) bool {
	at := w.lampAt(fl)
	for o := range w.names {
		if o == fl || w.labelled[o] || !w.lit(v, o) {
			continue
		}
		p := w.lampAt(o)
		if math.Abs(p.X-at.X) < w.lampW+2*w.k && math.Abs(p.Y-at.Y) < w.lampH+2*w.k {
			return true
		}
	}
	return false
}

// moveBrush is the arm on the shaft's end and its shoe on the terminals.
func (w *wheelPicture) moveBrush(f *figure.Figure, turn float64) {
	k := &w.s.ink
	x, y, u := w.x, w.y, w.k
	first := len(f.Items)
	half := w.s.plan.Selector.BrushWidth / 2 * w.s.ring.PitchM() * w.s.wheel.RadPerM()
	// The arm, with its shadow.
	for pass := range 2 {
		dx, dy := 1.2*u, 2.2*u
		st := plain(sheer(figure.Ink, 0.13))
		if pass == 1 {
			dx, dy = 0, 0
			st = metal(figure.Brass, 0.45, 0.0, k.fine)
		}
		st.Glide = true
		f.Polygon(st)
		sin, cos := math.Sincos(turn)
		for _, c := range [...]figure.Point{{X: -12, Y: -4.2}, {X: w.r.shoe - 3, Y: -2.2}, {X: w.r.shoe - 3, Y: 2.2}, {X: -12, Y: 4.2}} {
			f.To(x+dx+(c.X*cos-c.Y*sin)*u, y+dy+(c.X*sin+c.Y*cos)*u)
		}
	}
	f.Arc(figure.Style{Stroke: solid(figure.Ink), Width: shoeW * u, Glide: true}, x, y, w.r.shoe*u, turn-half, turn+half)
	e := min(k.fine, half*w.r.shoe*u*0.3)
	f.Arc(figure.Style{Stroke: mixed(figure.Steel, -0.35), Width: shoeW*u - 2*e, Glide: true}, x, y, w.r.shoe*u, turn-half+e/(w.r.shoe*u), turn+half-e/(w.r.shoe*u))
	f.Mark(first, "brush")
	// The hub: shaft, washer, and a key that shows it turn.
	f.Circle(plain(sheer(figure.Ink, 0.14)), x+1*u, y+2*u, w.r.hub*u+0.8*u)
	f.Circle(metal(figure.Steel, 0.55, -0.1, k.line), x, y, w.r.hub*u)
	for i := range 3 {
		p := polar(x, y, 9.6*u, turn+math.Pi/3+2*math.Pi/3*float64(i))
		f.Circle(figure.Style{Fill: mixed(figure.Steel, 0.6), Stroke: solid(figure.Ink), Width: k.hair, Glide: true}, p.X, p.Y, 1.7*u)
	}
	f.Circle(figure.Style{Fill: solid(figure.Ink)}, x, y, 4.6*u)
	p := polar(x, y, 4.6*u, turn)
	f.Line(figure.Style{Stroke: mixed(figure.Steel, 0.5), Width: 1.6 * u, Glide: true}, x, y, p.X, p.Y)
}
