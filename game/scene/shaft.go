package scene

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/shaft"
)

// shaftPicture is the shaft with its car, counterweight and landings, and the
// machine above it. Places across are in units of the picture from its left
// edge; down they come from the floors.
type shaftPicture struct {
	s     *Scene
	place rect
	k     float64 // logical units to one unit of the picture
	x0    float64

	carH, carW  float64
	left, right float64 // the shaft's walls
	carX        float64 // middle of the car, and of the counterweight
	weightX     float64
	sheave      figure.Point
	sheaveR     float64
	bed         float64 // floor of the machine room
	pit         float64 // bottom of the shaft
	strip       bool    // an outline of the whole shaft beside the window

	switches []limit
	words    struct{ up, down, open, shut string }

	carSpot, doorSpot, weightSpot, camSpot, lockSpot, vaneSpot, ropeSpot int
	landingSpots, vaneSpots                                              []int
}

// limit is one switch on the shaft's wall: a position switch struck by the car.
type limit struct {
	part   string
	top    bool
	order  float64 // its place in the row of switches at that end, from the middle of the shaft outward
	at     float64 // car height, metres, from which on it is operated
	spot   int
	letter string
}

// Width of the shaft picture in its own units.
const shaftUnits = 176.0

// machineUnits is the height of the machine above the head of the shaft.
const machineUnits = 73.0

func newShaftPicture(s *Scene, place rect, k float64) *shaftPicture {
	p := &shaftPicture{s: s, place: place, k: k, x0: place.cx() - shaftUnits/2*k}
	g := s.floors
	p.left, p.right = p.at(74), p.at(160)
	p.carX, p.weightX = p.at(104), p.at(144)
	p.carW = 40 * k
	p.carH = s.carHeight(k)
	p.sheaveR = 20 * k
	p.bed = place.y0 + (machineUnits-6)*k
	p.sheave = pt((p.carX+p.weightX)/2, place.y0+37*k)
	p.pit = min(g.bottom+max(16*k, 0.4*p.carH)+4*k, place.y1)
	p.strip = g.windowed
	sw := shaft.New(s.plan)
	n := len(s.plan.Floors) - 1
	top := s.plan.Floors[n].HeightM
	p.switches = []limit{
		{part: "final-limit-top", top: true, order: 2, at: s.plan.Shaft.FinalLimitM + top},
		{part: "stop-limit-top", top: true, order: 1, at: s.plan.Shaft.StopLimitM + top},
		{part: "slow-down-top", top: true, order: 0, at: sw.SlowDownTop().UpMake},
		{part: "slow-down-bottom", order: 0, at: sw.SlowDownBottom().DownMake},
		{part: "stop-limit-bottom", order: 1, at: -s.plan.Shaft.StopLimitM},
		{part: "final-limit-bottom", order: 2, at: -s.plan.Shaft.FinalLimitM},
	}
	p.draw(&s.still)
	p.aim()
	return p
}

func (p *shaftPicture) at(x float64) float64 { return p.x0 + x*p.k }

// draw is all that stands still.
func (p *shaftPicture) draw(f *figure.Figure) {
	k := &p.s.ink
	g := p.s.floors
	u := p.k
	head := p.bed
	// The inside of the shaft, a shade darker than the paper, with its walls.
	f.Box(figure.Style{Fill: mixed(figure.Steel, 0.9), Shade: mixed(figure.Steel, 0.8)}, p.left, head, p.right, p.pit, 0).Part = ""
	for _, x := range [...]float64{p.left, p.right} {
		f.Line(stroke(figure.Steel, k.bold), x, head, x, p.pit)
	}
	f.Line(stroke(figure.Ink, k.bold), p.left-8*u, p.pit, p.right+8*u, p.pit)
	// Guide rails of car and counterweight.
	rail := figure.Style{Stroke: mixed(figure.Steel, 0.35), Width: k.hair}
	for _, x := range [...]float64{p.carX - p.carW/2 - 2.5*u, p.carX + p.carW/2 + 2.5*u, p.weightX - 9.5*u, p.weightX + 9.5*u} {
		f.Line(rail, x, head, x, p.pit)
	}
	// Buffers.
	for _, x := range [...]float64{p.carX, p.weightX} {
		f.Box(metal(figure.Steel, 0.5, 0.1, k.hair), x-3.5*u, p.pit-5*u, x+3.5*u, p.pit, 1*u)
	}
	p.drawMachine(f)
	if !g.windowed {
		for fl := range p.s.plan.Floors {
			p.landing(f, fl, g.y(p.s.plan.Floors[fl].HeightM, 0), 1)
		}
		for i := range p.switches {
			p.drawLimit(f, &p.switches[i], 0)
		}
	}
}

// landing is one landing at y: its slab and entrance, name, button and vane.
func (p *shaftPicture) landing(f *figure.Figure, fl int, y, shown float64) {
	k := &p.s.ink
	u := p.k
	a := shown
	if a >= 1 {
		a = 0
	}
	ink := figure.Paint{Role: figure.Ink, Alpha: a}
	first := len(f.Items)
	// The entrance, seen through the shaft.
	f.Box(figure.Style{Fill: figure.Paint{Role: figure.Panel, Alpha: 0.75 * shown}, Stroke: figure.Paint{Role: figure.Steel, Mix: 0.3, Alpha: a}, Width: k.hair},
		p.carX-p.carW/2+4*u, y-p.carH+3*u, p.carX+p.carW/2-4*u, y, 0)
	f.Line(figure.Style{Stroke: figure.Paint{Role: figure.Steel, Mix: 0.3, Alpha: a}, Width: k.hair}, p.carX, y-p.carH+3*u, p.carX, y)
	f.Line(figure.Style{Stroke: ink, Width: k.line}, p.at(57), y, p.left, y)
	f.Line(figure.Style{Stroke: ink, Width: k.hair}, p.left, y, p.carX-p.carW/2-4*u, y)
	f.Mark(first, p.s.parts.landing[fl])
	em := k.name
	f.Text(ink, figure.Face{Size: em, Bold: true, Align: figure.End}, p.at(28), middle(p.rowY(y), em), p.s.plan.Floors[fl].Name).Part = p.s.parts.landing[fl]
	p.buttons(f, fl, y, shown, nil)
	p.vane(f, fl, y, shown, false)
}

// rowY is the height of a landing's row, at which its button and its line of
// the circuit stand, when the landing itself is at y.
func (p *shaftPicture) rowY(y float64) float64 { return p.s.rowY(y) }

// buttons are a landing's push-buttons: one in the middle or, where calls tell
// which way one wants to go, one for each way and beside them the car's.
func (p *shaftPicture) buttons(f *figure.Figure, fl int, y, shown float64, v *lift.View) {
	for i := range p.s.calls[fl] {
		c := &p.s.calls[fl][i]
		called, pressed := v != nil && c.registered(v, fl), v != nil && c.pressed(v, fl)
		if v != nil && !called && !pressed {
			continue
		}
		p.button(f, c, p.rowY(y), shown, called, pressed)
	}
}

// buttonAt is where the button of a call stands, across, and its radius.
func (p *shaftPicture) buttonAt(kind control.CallKind) (x, r float64) {
	switch kind {
	case control.UpCall:
		return p.at(37), 5 * p.k
	case control.DownCall:
		return p.at(49), 5 * p.k
	case control.CarCall:
		return p.at(62.5), 4.6 * p.k
	}
	return p.at(44), 8.6 * p.k
}

// button is one push-button; a ring in it while its call is registered.
func (p *shaftPicture) button(f *figure.Figure, c *call, y, shown float64, called, pressed bool) {
	k := &p.s.ink
	a := shown
	if a >= 1 {
		a = 0
	}
	x, r := p.buttonAt(c.kind)
	paint := func(role figure.Role, mix float64) figure.Paint { return figure.Paint{Role: role, Mix: mix, Alpha: a} }
	first := len(f.Items)
	mark := paint(figure.Muted, 0)
	edge := figure.Style{Fill: paint(figure.Panel, 0), Shade: paint(figure.Steel, 0.7), Stroke: paint(figure.Muted, 0), Width: k.fine}
	ring := 0.0
	if called {
		mark = paint(figure.Call, 0)
		edge = figure.Style{Fill: paint(figure.Panel, 0), Stroke: paint(figure.Call, 0), Width: 0.4 * r}
		ring = -0.12 * r
	}
	if c.kind == control.CarCall {
		f.Box(edge, x-r-ring, y-r-ring, x+r+ring, y+r+ring, 0.3*r)
	} else {
		f.Circle(edge, x, y, r+ring)
	}
	switch {
	case c.kind != control.AnyCall:
		p.s.kindMark(f, c.kind, x, y, 0.45*r, mark)
	case called:
		f.Circle(plain(mark), x, y, 0.37*r)
	default:
		f.Circle(figure.Style{Stroke: mark, Width: k.fine}, x, y, 0.37*r)
	}
	if pressed {
		f.Circle(plain(sheer(figure.Ink, 0.35)), x, y, 0.62*r)
	}
	f.Mark(first, c.button)
}

// vaneX is where the vanes stand, beside the car.
func (p *shaftPicture) vaneX() float64 { return p.carX + p.carW/2 + 7*p.k }

// vaneDrop is how high above its landing's level a vane stands: where the
// car's switch is when the car is level.
func (p *shaftPicture) vaneDrop() float64 { return p.carH * 0.4 }

// vaneHalf is half the drawn length of a vane, at true scale if that can be
// seen.
func (p *shaftPicture) vaneHalf() float64 {
	return max(p.s.plan.Shaft.VaneHalfM*p.s.floors.pxPerM, 3.2*p.k)
}

// vane is a level vane: a plate in the shaft that the car's switch embraces.
func (p *shaftPicture) vane(f *figure.Figure, fl int, y, shown float64, in bool) {
	k := &p.s.ink
	u := p.k
	x, c, h := p.vaneX(), y-p.vaneDrop(), p.vaneHalf()
	a := shown
	if a >= 1 {
		a = 0
	}
	st := figure.Style{Fill: figure.Paint{Role: figure.Steel, Alpha: a}, Stroke: figure.Paint{Role: figure.Ink, Alpha: a}, Width: k.hair}
	if in {
		st.Fill = figure.Paint{Role: figure.Ink, Alpha: a}
	}
	f.Box(st, x-1.6*u, c-h, x+1.6*u, c+h, 0).Part = p.s.parts.vane[fl]
}

// limitY is where a switch stands on the wall when the car is at carM.
func (p *shaftPicture) limitY(l *limit, carM float64) float64 {
	g := p.s.floors
	n := len(p.s.plan.Floors) - 1
	if l.top {
		y := g.y(p.s.plan.Floors[n].HeightM, carM) - p.carH
		return y - (1+9*(l.order-1))*p.k
	}
	y := g.y(0, carM)
	return y + (1+9*(l.order-1))*p.k
}

// struck reports whether the car holds a switch operated.
func (l *limit) struck(carM float64) bool {
	if l.top {
		return carM >= l.at
	}
	return carM <= l.at
}

// drawLimit is the case of a position switch.
func (p *shaftPicture) drawLimit(f *figure.Figure, l *limit, carM float64) {
	k := &p.s.ink
	u := p.k
	y := p.limitY(l, carM)
	f.Box(metal(figure.Steel, 0.45, 0.05, k.hair), p.left, y-2.9*u, p.left+4.2*u, y+2.9*u, 0.8*u).Part = l.part
}

// moveLimit is its lever, turned aside while the car holds it.
func (p *shaftPicture) moveLimit(f *figure.Figure, l *limit, carM float64) {
	k := &p.s.ink
	u := p.k
	y := p.limitY(l, carM)
	x := p.left + 4.2*u
	dx, dy := 4.6*u, 0.0
	if l.struck(carM) {
		dx, dy = 3.2*u, -3.2*u
		if !l.top {
			dy = -dy
		}
	}
	f.Line(round(figure.Ink, k.fine), x, y, x+dx, y+dy).Part = l.part
	f.Circle(sheet(solid(figure.Panel), figure.Ink, k.hair), x+dx, y+dy, 1.6*u).Part = l.part
}

// aim notes where the shaft's parts can be pointed at, from the top down.
func (p *shaftPicture) aim() {
	t := &p.s.targets
	u := p.k
	y := p.sheave.Y
	t.add("handwheel", rect{p.at(4), y - 21*u, p.at(22), y + 21*u})
	t.add("motor", rect{p.at(28), y - 13*u, p.at(64), y + 13*u})
	t.add("brake", rect{p.at(67), y - 16*u, p.at(81), y + 16*u})
	t.add("gear", rect{p.at(gearX0), y - 14*u, p.at(gearX0 + 17), y + 14*u})
	t.add("sheave", rect{p.sheave.X - p.sheaveR, y - p.sheaveR, p.sheave.X + p.sheaveR, y + p.sheaveR})
	n := len(p.s.plan.Floors)
	p.landingSpots, p.vaneSpots = make([]int, n), make([]int, n)
	for i := range p.switches {
		if p.switches[i].top {
			p.switches[i].spot = t.add(p.switches[i].part, rect{})
		}
	}
	for fl := n - 1; fl >= 0; fl-- {
		p.landingSpots[fl] = t.add(p.s.parts.landing[fl], rect{})
		for i := range p.s.calls[fl] {
			c := &p.s.calls[fl][i]
			c.spot = t.add(c.button, rect{})
		}
		p.vaneSpots[fl] = t.add(p.s.parts.vane[fl], rect{})
	}
	for i := range p.switches {
		if !p.switches[i].top {
			p.switches[i].spot = t.add(p.switches[i].part, rect{})
		}
	}
	p.carSpot = t.add("car", rect{})
	p.doorSpot = t.add("car-door", rect{})
	p.camSpot = t.add("cam", rect{})
	p.lockSpot = t.add("lock", rect{})
	p.vaneSpot = t.add("vane-switch", rect{})
	p.weightSpot = t.add("counterweight", rect{})
	p.ropeSpot = t.add("rope", rect{})
}

// follow moves the places of car, counterweight and, in a window, landings.
func (p *shaftPicture) follow(v *lift.View) {
	t, g, u := &p.s.targets, p.s.floors, p.k
	carM := v.CarM
	for fl := range p.s.plan.Floors {
		y := g.y(p.s.plan.Floors[fl].HeightM, carM)
		off := g.shown(y) < 0.5
		row := p.rowY(y)
		t.move(p.landingSpots[fl], rect{p.at(8), row - 8*u, p.at(32), y + 2*u}, off)
		for i := range p.s.calls[fl] {
			c := &p.s.calls[fl][i]
			x, r := p.buttonAt(c.kind)
			t.move(c.spot, rect{x - r, row - r, x + r, row + r}, off)
		}
		c, h := y-p.vaneDrop(), p.vaneHalf()
		t.move(p.vaneSpots[fl], rect{p.vaneX() - 3*u, c - h - 1*u, p.vaneX() + 3*u, c + h + 1*u}, off)
	}
	for i := range p.switches {
		l := &p.switches[i]
		y := p.limitY(l, carM)
		t.move(l.spot, rect{p.left - 1*u, y - 3*u, p.left + 8*u, y + 3*u}, p.limitShown(y) < 0.5)
	}
	y, x0, x1 := p.carY(v), p.carX-p.carW/2, p.carX+p.carW/2
	t.move(p.carSpot, rect{x0, y - p.carH - 3*u, x1, y}, false)
	t.move(p.doorSpot, rect{x0 + 3.5*u, y - p.carH + 3.2*u, x1 - 3.5*u, y - 1.6*u}, false)
	t.move(p.camSpot, rect{x0 - 5*u, y - 0.7*p.carH, x0 + 2*u, y - 0.24*p.carH}, false)
	vy := y - p.vaneDrop()
	t.move(p.vaneSpot, rect{x1, vy - 4*u, p.vaneX() + 5*u, vy + 4*u}, false)
	t.move(p.ropeSpot, rect{p.sheave.X - p.sheaveR - 2*u, p.bed, p.sheave.X - p.sheaveR + 2*u, y - p.carH - 4*u}, y-p.carH-8*u < p.bed)
	near := g.y(p.s.plan.Floors[v.NearFloor].HeightM, carM)
	c := near - p.carH*0.47
	t.move(p.lockSpot, rect{p.left - 2*u, c - 5*u, p.left + 6*u, c + 5*u}, math.Abs(near-y) > p.carH*0.6)
	y = p.weightY(v)
	t.move(p.weightSpot, rect{p.weightX - 8*u, y - p.weightH(), p.weightX + 8*u, y}, y-p.weightH() > p.pit || y < p.bed)
}

func (p *shaftPicture) limitShown(y float64) float64 {
	g := p.s.floors
	if !g.windowed {
		return 1
	}
	if y < p.bed || y > p.pit {
		return 0
	}
	return 1
}

// move draws car, counterweight, ropes and machine.
func (p *shaftPicture) move(f *figure.Figure, v *lift.View) {
	g := p.s.floors
	if g.windowed {
		for fl := range p.s.plan.Floors {
			y := g.y(p.s.plan.Floors[fl].HeightM, v.CarM)
			if a := g.shown(y); a > 0 {
				p.landing(f, fl, y, a)
			}
		}
		for i := range p.switches {
			if p.limitShown(p.limitY(&p.switches[i], v.CarM)) > 0 {
				p.drawLimit(f, &p.switches[i], v.CarM)
			}
		}
		p.moveStrip(f, v)
	}
	for fl := range p.s.plan.Floors {
		y := g.y(p.s.plan.Floors[fl].HeightM, v.CarM)
		a := g.shown(y)
		if a == 0 {
			continue
		}
		p.buttons(f, fl, y, a, v)
	}
	p.moveMachine(f, v)
	p.moveRopes(f, v)
	p.moveWeight(f, v)
	for i := range p.switches {
		if p.limitShown(p.limitY(&p.switches[i], v.CarM)) > 0 {
			p.moveLimit(f, &p.switches[i], v.CarM)
		}
	}
	p.moveCar(f, v)
}

// carY is the level of the car's floor.
func (p *shaftPicture) carY(v *lift.View) float64 { return p.s.floors.y(v.CarM, v.CarM) }

// weightY is the bottom of the counterweight: it goes down as the car goes up.
func (p *shaftPicture) weightY(v *lift.View) float64 {
	g := p.s.floors
	top := p.s.plan.TravelM()
	y := g.y(top-v.CarM, v.CarM)
	return y
}

// moveStrip is the whole shaft in small, beside the window: where the car is,
// which part of the shaft is seen, which floors call.
func (p *shaftPicture) moveStrip(f *figure.Figure, v *lift.View) {
	k := &p.s.ink
	g := p.s.floors
	u := p.k
	x := p.at(170)
	top, bottom := g.top-p.carH*0.5, g.bottom
	y := func(h float64) float64 { return lerp(bottom, top, h/p.s.plan.TravelM()) }
	f.Line(stroke(figure.Muted, k.fine), x, top, x, bottom).Part = "car"
	half := (g.bottom - g.top) / 2 / g.pxPerM
	cam := g.camera(v.CarM)
	f.Box(figure.Style{Fill: sheer(figure.Steel, 0.22), Stroke: solid(figure.Muted), Width: k.hair}, x-3.6*u, y(cam+half), x+3.6*u, y(cam-half), 2*u)
	for fl := range p.s.plan.Floors {
		yy := y(p.s.plan.Floors[fl].HeightM)
		if fl < len(v.Calls) && v.Calls[fl] {
			f.Circle(sheet(solid(figure.Panel), figure.Call, 1.6*u), x, yy, 2.6*u).Part = p.s.parts.call[fl]
		} else {
			f.Line(stroke(figure.Muted, k.hair), x-2*u, yy, x+2*u, yy)
		}
	}
	yy := y(v.CarM)
	f.Box(figure.Style{Fill: solid(figure.Ink), Glide: true}, x-3*u, yy-2*u, x+3*u, yy+2*u, 0.8*u).Part = "car"
}
