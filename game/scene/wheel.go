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
	rampSpots [3]int
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
	if w.s.o.Picture != Mechanism {
		w.drawLegend(f, place)
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
	for lane := range lanes {
		w.rampSpots[lane] = t.add(rampPart(lane), rect{})
	}
	w.crossSpot = t.add("crossover", rect{})
	w.brushSpot = t.add("brush", rect{})
	// What lies behind everything else is found where nothing else is.
	for _, part := range [...]struct {
		name string
		r    float64
	}{{"ring", plateR}, {"track", laneRadius(2) - 7}, {"wheel", rimR}} {
		d := part.r * u * discShare
		i := t.add(part.name, rect{w.x - d, w.y - d, w.x + d, w.y + d})
		t.list[i].disc = true
	}
}

// rampPart is the name of a lane's ramp.
func rampPart(lane int) string {
	return [...]string{"advance-up-ramp", "centre-ramp", "advance-down-ramp"}[lane]
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
	for lane := range lanes {
		p, d := polar(w.x, w.y, (laneRadius(lane)+0.5)*w.k, turn+w.ramps[lane].centre), 8*w.k
		w.s.targets.move(w.rampSpots[lane], rect{p.X - d, p.Y - d, p.X + d, p.Y + d}, false)
	}
	p, d = polar(w.x, w.y, w.r.shoe*0.6*w.k, turn), 11*w.k
	w.s.targets.move(w.brushSpot, rect{p.X - d, p.Y - d, p.X + d, p.Y + d}, false)
}

// move draws what turns and what it moves.
func (w *wheelPicture) move(f *figure.Figure, v *lift.View) {
	turn := w.lowest + v.WheelRad
	w.moveMarks(f, v, turn)
	w.moveRamps(f, turn)
	w.moveCrossover(f, turn)
	w.moveStations(f, v, turn)
	w.moveRing(f, v)
	w.moveBrush(f, turn)
	w.moveArrow(f, v)
}

// moveArrow shows the way the wheel turns, in the gap of the ring: clockwise
// while the car goes up.
func (w *wheelPicture) moveArrow(f *figure.Figure, v *lift.View) {
	if !v.Moving || v.SpeedMS == 0 {
		return
	}
	k := &w.s.ink
	half, role, dash, sign := 0.42, figure.Up, figure.Solid, 1.0
	if v.SpeedMS < 0 {
		role, dash, sign = figure.Down, figure.Dashed, -1.0
	}
	r := (w.r.stud + 1) * w.k
	// Seen from the centre the gap lies below, where clockwise is to the left.
	const foot = math.Pi / 2
	f.Arc(figure.Style{Stroke: solid(role), Width: k.bold, Dash: dash}, w.x, w.y, r, foot-sign*half, foot+sign*half).Part = "wheel"
	a := foot + sign*half
	sin, cos := math.Sincos(a)
	d := 5.4 * w.k
	p := polar(w.x, w.y, r, a)
	tx, ty := -sin*sign, cos*sign
	f.Polygon(sheet(solid(role), figure.Ink, k.hair), pt(p.X+tx*1.5*d, p.Y+ty*1.5*d), pt(p.X+cos*d*0.8, p.Y+sin*d*0.8), pt(p.X-cos*d*0.8, p.Y-sin*d*0.8)).Part = "wheel"
}

// moveMarks are the engraved marks of the face, one to so many metres of car.
func (w *wheelPicture) moveMarks(f *figure.Figure, v *lift.View, turn float64) {
	wheel := w.s.wheel
	seen := w.s.steady((wheel.Angle(v.SpeedMS) - wheel.Angle(0)) / w.tick)
	if seen <= 0 {
		return
	}
	st := figure.Style{Stroke: faded(mixed(figure.Muted, 0.2), seen), Width: w.s.ink.hair, Glide: true}
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
		first := len(f.Items)
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
		f.Mark(first, rampPart(lane))
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
