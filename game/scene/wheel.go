package scene

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/physics/lift"
	"wheelroom/physics/selector"
)

// The wheel is drawn as what it is: three discs of falling size on one shaft,
// the largest at the back, each with the ramp of one track on its edge; before
// them, fixed, the plate with the ring of terminals, and before that the brush
// on the shaft's end. Radii in units of the picture, the largest disc being
// rimR. Round it, fixed, the floors' stations.
const (
	rimR     = 172.0
	step     = 20.0 // from one disc's edge to the next
	labelR   = 205.0
	outR     = 117.0 // followers of floors above
	inR      = 101.0 // followers of floors below
	plateR   = 91.0
	studW    = 7.0
	shoeW    = 6.0
	liftH    = 6.0 // of a ramp
	rampRoot = 5.0 // how far a ramp's plate reaches inward
	halfSize = 213.0
)

// radii of the ring: smaller where large type needs the room outside it.
type ringRadii struct{ lamp, stud, shoe, hub float64 }

var (
	ringUsual   = ringRadii{lamp: 75, stud: 55.5, shoe: 48, hub: 14}
	ringLecture = ringRadii{lamp: 70, stud: 45, shoe: 37.5, hub: 12}
)

// The order of the tracks from the outer disc to the inner.
var lanes = [3]selector.Track{selector.AdvanceUpTrack, selector.CentreTrack, selector.AdvanceDownTrack}

// laneRadius is the edge of a lane's disc.
func laneRadius(lane int) float64 { return rimR - step*float64(lane) }

// wheelPicture is the selector wheel.
type wheelPicture struct {
	s      *Scene
	x, y   float64 // centre
	k      float64 // logical units to one unit of the picture
	lowest float64 // screen angle of the lowest landing's station
	gap    float64 // least angle between two stations
	small  float64 // scale of a station's parts, 1 where there is room
	r      ringRadii
	legend []legendLine

	ramps     [3]rampShape // by lane
	enlarged  bool
	crossHalf float64 // drawn half-angle of the crossover
	tick      float64 // angle between engraved marks
	labelled  []bool  // floors whose lamp is shown when dark
	lampW     float64 // of a lamp's square
	lampH     float64
	names     []string
	crossSpot int
	brushSpot int
}

// rampShape is the drawn edge of a ramp, in the wheel's own angles.
type rampShape struct {
	angle, lift []float64
	centre      float64 // angle about which it was stretched
	stretch     float64
	from, to    float64 // angles it covers
}

func newWheelPicture(s *Scene, place rect) *wheelPicture {
	w := &wheelPicture{s: s}
	n := len(s.plan.Floors)
	span := s.wheel.StationRad(n - 1)
	w.k = min(place.w(), place.h()) / 2 / halfSize
	w.x, w.y = place.cx(), place.cy()
	w.lowest = -math.Pi/2 - span/2
	w.gap = span
	for f := 1; f < n; f++ {
		w.gap = min(w.gap, s.wheel.StationRad(f)-s.wheel.StationRad(f-1))
	}
	inner := laneRadius(2) * w.gap
	w.small = clamp(inner/58, 0.34, 1)
	w.r = ringUsual
	if s.ink.lecture {
		w.r = ringLecture
	}
	for lane, track := range lanes {
		w.ramps[lane] = w.shape(lane, track)
	}
	lo, hi := s.wheel.Crossover(0)
	w.crossHalf = max(s.wheel.Angle(hi-lo)/2, min(0.085, w.gap/4))
	w.engrave()
	w.chooseLabels()
	w.draw(&s.still, place)
	w.aim()
	return w
}

// shape draws a ramp at its true length or, where that would be too short for
// a roller to be seen on it, stretched about its middle.
func (w *wheelPicture) shape(lane int, track selector.Track) rampShape {
	points := w.s.wheel.Profile(track)
	first, last := points[0].AngleRad, points[len(points)-1].AngleRad
	c := (first + last) / 2
	true_ := math.Abs(last - first)
	least := selector.LeastDrawnMM / 1000 / selector.NominalRadiusM
	seen := min(25/laneRadius(lane), 0.62*w.gap)
	r := rampShape{centre: c, stretch: max(1, max(seen, least)/true_)}
	if r.stretch > 1 {
		w.enlarged = true
	}
	// Clockwise, that is from the highest car height to the lowest, in steps
	// short enough for a roller to be set on them.
	pace := 0.3 * rollerR * w.small / laneRadius(lane)
	for i := len(points) - 1; i >= 0; i-- {
		a, lift := c+(points[i].AngleRad-c)*r.stretch, points[i].Lift
		if n := len(r.angle); n > 0 {
			a0, lift0 := r.angle[n-1], r.lift[n-1]
			for parts, j := int(math.Abs(a-a0)/pace)+1, 1; j < parts; j++ {
				k := float64(j) / float64(parts)
				r.angle, r.lift = append(r.angle, lerp(a0, a, k)), append(r.lift, lerp(lift0, lift, k))
			}
		}
		r.angle, r.lift = append(r.angle, a), append(r.lift, lift)
	}
	r.from, r.to = r.angle[0], r.angle[len(r.angle)-1]
	if r.from > r.to {
		for i, j := 0, len(r.angle)-1; i < j; i, j = i+1, j-1 {
			r.angle[i], r.angle[j] = r.angle[j], r.angle[i]
			r.lift[i], r.lift[j] = r.lift[j], r.lift[i]
		}
		r.from, r.to = r.to, r.from
	}
	return r
}

// engrave chooses the marks on the wheel's face: one for every so many metres
// of car, so that its turning is seen.
func (w *wheelPicture) engrave() {
	for _, m := range [...]float64{1, 2, 5, 10, 20} {
		w.tick = s1(m * w.s.wheel.RadPerM())
		if w.tick > 0.1 {
			break
		}
	}
}

func s1(a float64) float64 { return max(a, 1e-3) }

// station is the screen angle of a floor's station.
func (w *wheelPicture) station(f int) float64 { return w.lowest + w.s.wheel.StationRad(f) }

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

// draw is all that stands still.
func (w *wheelPicture) draw(f *figure.Figure, place rect) {
	k := &w.s.ink
	x, y, u := w.x, w.y, w.k
	// A soft shadow on the paper: light comes from the upper left.
	for i := range 4 {
		d := float64(i)
		f.Circle(plain(sheer(figure.Ink, 0.022)), x+(1.5+0.6*d)*u, y+(3+1.2*d)*u, (rimR+1.5+1.6*d)*u)
	}
	faces := [3]struct {
		role        figure.Role
		light, dark float64
	}{{figure.Steel, 0.84, 0.52}, {figure.Brass, 0.84, 0.6}, {figure.Steel, 0.88, 0.62}}
	for lane, face := range faces {
		r := laneRadius(lane) * u
		if lane > 0 {
			f.Circle(plain(sheer(figure.Ink, 0.10)), x+0.9*u, y+1.7*u, r+1.2*u)
		}
		f.Circle(metal(face.role, face.light, face.dark, k.line), x, y, r)
		// The lit edge of the step.
		f.Arc(figure.Style{Stroke: sheer(figure.Panel, 0.75), Width: k.fine, Round: true}, x, y, r-1.7*u, math.Pi*0.95, math.Pi*1.6)
	}
	// The face before the innermost disc.
	r := laneRadius(2)*u - 7*u
	f.Circle(figure.Style{Fill: mixed(figure.Brass, 0.93), Shade: mixed(figure.Brass, 0.8), Stroke: sheer(figure.Ink, 0.35), Width: k.hair}, x, y, r)
	guide := figure.Style{Stroke: mixed(figure.Muted, 0.35), Width: k.fine, Dash: figure.Dotted}
	f.Circle(guide, x, y, outR*u)
	f.Circle(guide, x, y, inR*u)

	w.drawPlate(f)
	w.drawBrackets(f)
	w.drawNames(f)
	w.drawLegend(f, place)
}

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
		text = w.s.onLamp()
	}
	first := len(f.Items)
	f.Box(st, c.X-w.lampW/2, c.Y-w.lampH/2, c.X+w.lampW/2, c.Y+w.lampH/2, 3*w.k)
	f.Text(text, figure.Face{Size: em, Bold: true, Align: figure.Middle}, c.X, middle(c.Y, em), w.names[fl])
	f.Mark(first, "")
	for i := first; i < len(f.Items); i++ {
		f.Items[i].Part = w.s.parts.lamp[fl]
	}
}

// drawNames are the floors' names round the rim.
func (w *wheelPicture) drawNames(f *figure.Figure) {
	em := w.nameEm()
	every := 1
	for !w.namesFit(em, every) {
		every++
	}
	for fl := (len(w.names) - 1) % every; fl < len(w.names); fl += every {
		p := polar(w.x, w.y, labelR*w.k, w.station(fl))
		f.Text(solid(figure.Ink), figure.Face{Size: em, Bold: true, Align: figure.Middle}, p.X, middle(p.Y, em), w.names[fl]).Part = w.s.parts.rim[fl]
	}
}

// namesFit reports whether every so many of the floors' names find room round
// the rim, the highest among them.
func (w *wheelPicture) namesFit(em float64, every int) bool {
	var last rect
	for fl := (len(w.names) - 1) % every; fl < len(w.names); fl += every {
		p := polar(w.x, w.y, labelR*w.k, w.station(fl))
		half := figure.Measure(w.names[fl], em, true)/2 + 0.16*em
		r := rect{p.X - half, p.Y - 0.55*em, p.X + half, p.Y + 0.55*em}
		if fl >= every && r.x0 < last.x1 && last.x0 < r.x1 && r.y0 < last.y1 && last.y0 < r.y1 {
			return false
		}
		last = r
	}
	return true
}

func (w *wheelPicture) nameEm() float64 {
	if w.s.ink.lecture {
		return max(w.s.ink.t, 15*w.k)
	}
	return 15 * w.k * lerp(0.8, 1, clamp((w.small-0.34)/0.66, 0, 1))
}

// aim notes where the wheel's parts can be pointed at.
func (w *wheelPicture) aim() {
	s, u := w.s, w.k
	t := &s.targets
	for fl := len(w.names) - 1; fl >= 0; fl-- {
		a := w.station(fl)
		for lane := range lanes {
			p := w.local(a, 0.6*leverT*w.small, laneRadius(lane)+7*w.small)
			d := min(9.5*u, 13*w.small*u)
			t.add(w.lanePart(lane, fl), rect{p.X - d, p.Y - d, p.X + d, p.Y + d})
		}
		p := w.local(a, 6*w.small, (outR+inR)/2)
		d := 11 * u * w.small
		t.add(s.parts.direction[fl], rect{p.X - d, p.Y - d, p.X + d, p.Y + d})
		if w.labelled[fl] {
			c := w.lampAt(fl)
			t.add(s.parts.lamp[fl], rect{c.X - w.lampW/2, c.Y - w.lampH/2, c.X + w.lampW/2, c.Y + w.lampH/2})
		}
	}
	for i, stud := range s.ring.Terminals() {
		p := polar(w.x, w.y, w.r.stud*u, w.lowest+stud.AngleRad)
		d := studW / 2 * u
		t.add("terminal."+number(i), rect{p.X - d, p.Y - d, p.X + d, p.Y + d})
	}
	w.crossSpot = t.add("crossover", rect{})
	w.brushSpot = t.add("brush", rect{})
}

func (w *wheelPicture) lanePart(lane, fl int) string {
	switch lanes[lane] {
	case selector.AdvanceUpTrack:
		return w.s.parts.advanceUp[fl]
	case selector.AdvanceDownTrack:
		return w.s.parts.advanceDown[fl]
	}
	return w.s.parts.rim[fl]
}

// follow moves the places of what turns.
func (w *wheelPicture) follow(v *lift.View) {
	turn := w.lowest + v.WheelRad
	p, d := polar(w.x, w.y, (outR+inR)/2*w.k, turn), 13*w.k
	w.s.targets.move(w.crossSpot, rect{p.X - d, p.Y - d, p.X + d, p.Y + d}, false)
	p, d = polar(w.x, w.y, w.r.shoe*0.6*w.k, turn), 11*w.k
	w.s.targets.move(w.brushSpot, rect{p.X - d, p.Y - d, p.X + d, p.Y + d}, false)
}

// move draws what turns and what it moves.
func (w *wheelPicture) move(f *figure.Figure, v *lift.View) {
	turn := w.lowest + v.WheelRad
	w.moveMarks(f, turn)
	w.moveRamps(f, turn)
	w.moveCrossover(f, turn)
	w.moveStations(f, v, turn)
	w.moveRing(f, v)
	w.moveBrush(f, turn)
}

// moveMarks are the engraved marks of the face, one to so many metres of car.
func (w *wheelPicture) moveMarks(f *figure.Figure, turn float64) {
	st := figure.Style{Stroke: mixed(figure.Muted, 0.2), Width: w.s.ink.hair, Glide: true}
	n := int(2 * math.Pi / w.tick)
	for i := range n {
		a := turn + (float64(i)-float64(n/2))*w.tick
		r0 := laneRadius(2) - 10.5
		if i%5 == (n/2)%5 {
			r0 -= 2.5
		}
		p, q := polar(w.x, w.y, r0*w.k, a), polar(w.x, w.y, (laneRadius(2)-7.5)*w.k, a)
		f.Line(st, p.X, p.Y, q.X, q.Y)
	}
}

// moveRamps are the three ramps, told apart by metal, by the mark in them and
// by the disc they sit on.
func (w *wheelPicture) moveRamps(f *figure.Figure, turn float64) {
	k := &w.s.ink
	for lane := range lanes {
		r := &w.ramps[lane]
		edge := laneRadius(lane)
		role := figure.Steel
		if lanes[lane] == selector.CentreTrack {
			role = figure.Brass
		}
		st := metal(role, 0.35, -0.05, k.line)
		st.Round, st.Glide = true, true
		f.Polygon(st)
		for i := range r.angle {
			p := polar(w.x, w.y, (edge+r.lift[i]*liftH)*w.k, turn+r.angle[i])
			f.To(p.X, p.Y)
		}
		const back = 6
		for i := back; i >= 0; i-- {
			a := lerp(r.from, r.to, float64(i)/back)
			p := polar(w.x, w.y, (edge-rampRoot)*w.k, turn+a)
			f.To(p.X, p.Y)
		}
		p := polar(w.x, w.y, (edge-0.2)*w.k, turn+r.centre)
		mark := figure.Style{Fill: solid(figure.Panel), Stroke: solid(figure.Ink), Width: k.hair, Glide: true}
		switch d := 2.1 * w.k; lanes[lane] {
		case selector.AdvanceUpTrack:
			f.Circle(mark, p.X, p.Y, d)
		case selector.AdvanceDownTrack:
			w.square(f, mark, p, d, turn+r.centre)
		}
	}
}

// square is a square turned to lie along the rim.
func (w *wheelPicture) square(f *figure.Figure, st figure.Style, p figure.Point, d, a float64) {
	sin, cos := math.Sincos(a)
	f.Polygon(st)
	for _, c := range [...]figure.Point{{X: -d, Y: -d}, {X: d, Y: -d}, {X: d, Y: d}, {X: -d, Y: d}} {
		f.To(p.X+c.X*cos-c.Y*sin, p.Y+c.X*sin+c.Y*cos)
	}
}

// Steps of the drawn crossover: lead-in, the crossing itself, lead-out.
const crossSteps = 30

// crossLead is how far beyond the crossing its groove is drawn, radians.
const crossLead = 0.12

// crossRadius is the radius of the crossover's groove at an angle clockwise
// from the car's own place: out ahead of it, in behind.
func (w *wheelPicture) crossRadius(a float64) float64 {
	u := clamp((a+w.crossHalf)/(2*w.crossHalf), 0, 1)
	return lerp(inR, outR, u*u*u*(u*(6*u-15)+10))
}

// moveCrossover is the groove that throws the direction switches.
func (w *wheelPicture) moveCrossover(f *figure.Figure, turn float64) {
	k := &w.s.ink
	for _, st := range [...]figure.Style{
		{Stroke: solid(figure.Muted), Width: 10.5 * w.k, Round: true, Glide: true},
		{Stroke: solid(figure.Panel), Width: 10.5*w.k - 2.2*k.fine, Round: true, Glide: true},
	} {
		f.Polyline(st).Part = "crossover"
		for i := 0; i <= crossSteps; i++ {
			a := lerp(-crossLead-w.crossHalf, crossLead+w.crossHalf, float64(i)/crossSteps)
			p := polar(w.x, w.y, w.crossRadius(a)*w.k, turn+a)
			f.To(p.X, p.Y)
		}
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
