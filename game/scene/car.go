package scene

import (
	"math"
	"wheelroom/game/figure"
	"wheelroom/physics/lift"
)

// moveRopes are the falls to car and counterweight, with the lay of their
// strands moving along them.
func (p *shaftPicture) moveRopes(f *figure.Figure, v *lift.View) {
	u := p.k
	carTop := p.carY(v) - p.carH - 3*u
	weightTop := clamp(p.weightY(v)-p.weightH(), p.bed, p.pit)
	strand, gap := figure.Dashed.Pattern(layWidth * u)
	seen := p.s.steady(v.SpeedMS * p.s.floors.pxPerM / (strand + gap))
	p.rope(f, p.sheave.X-p.sheaveR, carTop, p.ropePhase(v), seen)
	p.rope(f, p.sheave.X+p.sheaveR, weightTop, -p.ropePhase(v), seen)
	f.Arc(round(figure.Ink, 2.6*u), p.sheave.X, p.sheave.Y, p.sheaveR, math.Pi, 2*math.Pi).Part = "rope"
}

// ropePhase is how far the rope has run, logical units, up at the car.
func (p *shaftPicture) ropePhase(v *lift.View) float64 { return v.CarM * p.s.floors.pxPerM }

// layWidth is the width of what shows the lay of a rope's strands.
const layWidth = 1.2

func (p *shaftPicture) rope(f *figure.Figure, x, end, phase, seen float64) {
	u := p.k
	w := 2.6 * u
	f.Line(figure.Style{Stroke: solid(figure.Ink), Width: w}, x, p.sheave.Y, x, end).Part = "rope"
	if seen <= 0 {
		return
	}
	f.Line(figure.Style{Stroke: faded(mixed(figure.Steel, 0.75), seen), Width: layWidth * u, Dash: figure.Dashed, Phase: phase, Glide: true}, x, p.sheave.Y, x, end)
}

func (p *shaftPicture) weightH() float64 { return clamp(p.carH*0.95, 16*p.k, 40*p.k) }

// moveWeight is the counterweight, a frame with its weights.
func (p *shaftPicture) moveWeight(f *figure.Figure, v *lift.View) {
	k := &p.s.ink
	u := p.k
	y := p.weightY(v)
	h := p.weightH()
	if y-h > p.pit || y < p.bed {
		return
	}
	first := len(f.Items)
	st := metal(figure.Steel, 0.45, -0.15, k.line)
	st.Glide = true
	f.Box(st, p.weightX-7.5*u, max(y-h, p.bed), p.weightX+7.5*u, min(y, p.pit), 1*u)
	const plates = 5
	for i := 1; i < plates; i++ {
		yy := y - h*float64(i)/plates
		if yy > p.bed && yy < p.pit {
			f.Line(figure.Style{Stroke: sheer(figure.Ink, 0.55), Width: k.hair, Glide: true}, p.weightX-7.5*u, yy, p.weightX+7.5*u, yy)
		}
	}
	f.Mark(first, "counterweight")
}

// moveCar is the car with its doors, the cam that locks the landing door, and
// the switch that reads the vanes.
func (p *shaftPicture) moveCar(f *figure.Figure, v *lift.View) {
	k := &p.s.ink
	u := p.k
	y := p.carY(v)
	x0, x1, y0 := p.carX-p.carW/2, p.carX+p.carW/2, y-p.carH
	first := len(f.Items)
	glide := func(st figure.Style) figure.Style { st.Glide = true; return st }
	f.Box(glide(plain(sheer(figure.Ink, 0.16))), x0+1.5*u, y0+2.5*u, x1+2*u, y+3*u, 1.5*u)
	// Crosshead and body.
	f.Box(glide(metal(figure.Steel, 0.4, 0, k.fine)), p.carX-9*u, y0-3.4*u, p.carX+9*u, y0+0.5*u, 0.8*u)
	f.Box(glide(metal(figure.Steel, 0.72, 0.4, k.line)), x0, y0, x1, y, 1.5*u)
	f.Mark(first, "car")
	// Inside, seen as far as the doors are open.
	first = len(f.Items)
	dx0, dx1, dy0, dy1 := x0+3.5*u, x1-3.5*u, y0+3.2*u, y-1.6*u
	f.Box(glide(figure.Style{Fill: solid(figure.Panel), Shade: mixed(figure.Brass, 0.72), Stroke: solid(figure.Ink), Width: k.hair}), dx0, dy0, dx1, dy1, 0)
	open := clamp(v.DoorOpen, 0, 1)
	half := (dx1 - dx0) / 2
	leaf := lerp(half, half*0.12, open)
	door := glide(metal(figure.Steel, 0.86, 0.55, k.fine))
	f.Box(door, dx0, dy0, dx0+leaf, dy1, 0)
	f.Box(door, dx1-leaf, dy0, dx1, dy1, 0)
	f.Mark(first, "car-door")
	if v.Moving {
		p.arrow(f, p.carX, (dy0+dy1)/2, min(7.5*u, (dy1-dy0)*0.34), v.SpeedMS >= 0)
	}
	// The vane switch: a fork that embraces the vane.
	c := y - p.vaneDrop()
	first = len(f.Items)
	vx := p.vaneX()
	f.Line(glide(round(figure.Ink, k.line)), x1, c, vx-3.4*u, c)
	fork := glide(sheet(mixed(figure.Steel, 0.3), figure.Ink, k.hair))
	f.Box(fork, vx-4.4*u, c-3.4*u, vx-2.2*u, c+3.4*u, 0.6*u)
	f.Box(fork, vx+2.2*u, c-3.4*u, vx+4.4*u, c+3.4*u, 0.6*u)
	f.Line(glide(round(figure.Ink, k.fine)), vx-3.3*u, c-4*u, vx+3.3*u, c-4*u)
	f.Mark(first, "vane-switch")
	// The locking cam at the car's side: out, it lets the landing's lock drop.
	first = len(f.Items)
	cx := lerp(x0+0.5*u, x0-3.4*u, clamp(v.CamIn, 0, 1))
	f.Box(glide(metal(figure.Brass, 0.3, -0.1, k.hair)), cx-1.4*u, y0+0.34*p.carH, cx+1.4*u, y0+0.72*p.carH, 1.2*u)
	f.Mark(first, "cam")
	p.moveLock(f, v, y)
}

// moveLock is the lock of the landing door where the car is; it is drawn at
// the nearest landing only, since only there can it be opened.
func (p *shaftPicture) moveLock(f *figure.Figure, v *lift.View, carY float64) {
	k := &p.s.ink
	u := p.k
	y := p.s.floors.y(p.s.plan.Floors[v.NearFloor].HeightM, v.CarM)
	c := y - p.carH*0.47
	if math.Abs(y-carY) > p.carH*0.6 {
		return
	}
	in := math.Abs(y-carY) < p.carH*0.25 && v.CamIn > 0.5
	bolt := 0.0
	if in {
		bolt = -2.2 * u
	}
	f.Box(metal(figure.Steel, 0.5, 0.1, k.hair), p.left-1*u, c-3.4*u, p.left+4.4*u+bolt/2, c+3.4*u, 0.8*u).Part = "lock"
	f.Circle(sheet(solid(figure.Panel), figure.Ink, k.hair), p.left+5.2*u+bolt/2, c, 1.7*u).Part = "lock"
}

// arrow is the sign of the way the car goes.
func (p *shaftPicture) arrow(f *figure.Figure, x, y, d float64, up bool) {
	role := figure.Up
	s := 1.0
	if !up {
		role, s = figure.Down, -1
	}
	st := sheet(solid(role), figure.Ink, p.s.ink.hair)
	st.Glide = true
	f.Polygon(st, pt(x, y-s*d), pt(x+d, y+s*d*0.75), pt(x-d, y+s*d*0.75)).Part = "car"
}
