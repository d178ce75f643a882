package scene

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/physics/lift"
)

// The machine stands on the floor above the shaft: from the left the
// handwheel, seen at a slant so that its turning shows, the motor, the brake
// on its drum, the gear, and before the gear the sheave with its ropes.
const (
	handX, handRX, handRY = 13.0, 6.5, 20.0
	motorX0, motorX1      = 29.0, 63.0
	brakeX0, brakeX1      = 69.0, 79.0
	gearX0, gearX1        = 85.0, 122.0
)

// blurRadS is the motor speed at which the handwheel's spokes are no longer
// told apart, and begin to be drawn as a blur.
const blurRadS = 18.0

func (p *shaftPicture) drawMachine(f *figure.Figure) {
	k := &p.s.ink
	u := p.k
	y := p.sheave.Y
	bed := p.bed
	// Floor of the machine room, with the holes for the ropes.
	f.Box(metal(figure.Steel, 0.6, 0.35, k.fine), p.at(2), bed-4*u, p.right+8*u, bed, 0).Part = ""
	for _, x := range [...]float64{p.sheave.X - p.sheaveR, p.sheave.X + p.sheaveR} {
		f.Box(plain(solid(figure.Ground)), x-3*u, bed-4*u-k.fine, x+3*u, bed+k.fine, 0)
	}
	// Feet.
	for _, x := range [...]float64{motorX0 + 5, motorX1 - 5, gearX0 + 7} {
		f.Box(metal(figure.Steel, 0.35, 0, k.hair), p.at(x)-4*u, y+9*u, p.at(x)+4*u, bed-4*u, 0)
	}
	// The shaft.
	f.Box(metal(figure.Steel, 0.8, 0.1, k.hair), p.at(handX), y-2*u, p.at(gearX1), y+2*u, 0)
	// The motor with its fins.
	first := len(f.Items)
	f.Box(metal(figure.Steel, 0.6, -0.05, k.line), p.at(motorX0), y-12.5*u, p.at(motorX1), y+12.5*u, 3*u)
	for i := range 5 {
		yy := y + (float64(i)-2)*4.2*u
		f.Line(figure.Style{Stroke: sheer(figure.Ink, 0.4), Width: k.hair}, p.at(motorX0+5), yy, p.at(motorX1-5), yy)
	}
	f.Mark(first, "motor")
	// The brake drum.
	f.Box(metal(figure.Steel, 0.75, 0.1, k.fine), p.at(brakeX0), y-10*u, p.at(brakeX1), y+10*u, 1*u).Part = "brake"
	// The gear.
	f.Box(metal(figure.Steel, 0.55, 0.15, k.line), p.at(gearX0), y-14*u, p.at(gearX1), y+14*u, 5*u).Part = "gear"
	p.nameMachine(f)
}

// nameMachine writes over each part what it is, in two rows so that no name
// touches the next; a name too long for its place is left out. Large type has
// no room there.
func (p *shaftPicture) nameMachine(f *figure.Figure) {
	k := &p.s.ink
	if k.lecture {
		return
	}
	for _, n := range [...]struct {
		part    string
		x0, x1  float64 // its place, units
		up      float64 // base line over the machine's axis
		leading bool    // it begins at x0 rather than standing in the middle
	}{
		{"handwheel", 1, 58, 25.5, true}, {"motor", 28, 64, 15.5, false},
		{"brake", 58, 90, 26.5, false}, {"gear", gearX0 + 1, gearX0 + 22, 18.5, true},
		{"sheave", 100, 148, 25, false},
	} {
		text := p.s.say("scene.machine-" + n.part)
		if figure.Measure(text, k.small, false) > (n.x1-n.x0)*p.k {
			continue
		}
		x, align := p.at((n.x0+n.x1)/2), figure.Middle
		if n.leading {
			x, align = p.at(n.x0), figure.Start
		}
		f.Text(solid(figure.Muted), figure.Face{Size: k.small, Align: align}, x, p.sheave.Y-n.up*p.k, text).Part = n.part
	}
}

// moveMachine turns the handwheel and the sheave and moves the brake's shoes.
func (p *shaftPicture) moveMachine(f *figure.Figure, v *lift.View) {
	k := &p.s.ink
	u := p.k
	y := p.sheave.Y
	// Shoes, off the drum when lifted.
	first := len(f.Items)
	gap := 2.6 * u * clamp(v.BrakeLift, 0, 1)
	shoe := metal(figure.Brass, 0.25, -0.1, k.fine)
	f.Box(shoe, p.at(brakeX0-0.5), y-15*u-gap, p.at(brakeX1+0.5), y-10.4*u-gap, 1.2*u)
	f.Box(shoe, p.at(brakeX0-0.5), y+10.4*u+gap, p.at(brakeX1+0.5), y+15*u+gap, 1.2*u)
	f.Mark(first, "brake")
	p.moveHandwheel(f, v)
	p.moveSheave(f, v)
}

// moveHandwheel is an ellipse with a heavy rim; spokes while they can be told
// apart, then a blur with an arrow for the way round.
func (p *shaftPicture) moveHandwheel(f *figure.Figure, v *lift.View) {
	k := &p.s.ink
	u := p.k
	x, y := p.at(handX), p.sheave.Y
	first := len(f.Items)
	// The far edge of the rim gives it thickness.
	ellipse(f, figure.Style{Stroke: solid(figure.Ink), Width: 6.2 * u}, x+2.4*u, y, handRX*u, handRY*u)
	ellipse(f, figure.Style{Stroke: mixed(figure.Brass, -0.3), Width: 6.2*u - 2*k.fine}, x+2.4*u, y, handRX*u, handRY*u)
	ellipse(f, figure.Style{Stroke: solid(figure.Ink), Width: 5 * u}, x, y, handRX*u, handRY*u)
	ellipse(f, figure.Style{Stroke: mixed(figure.Brass, 0.3), Width: 5*u - 2*k.fine}, x, y, handRX*u, handRY*u)
	fast := math.Abs(v.MotorRadS)
	const spokes = 5
	plain_ := min(clamp(1-(fast-blurRadS)/blurRadS, 0, 1), p.s.steady(fast*spokes/(2*math.Pi)))
	if plain_ > 0 {
		a := plain_
		if a == 1 {
			a = 0
		}
		for i := range spokes {
			t := v.HandwheelRad + 2*math.Pi/spokes*float64(i)
			sin, cos := math.Sincos(t)
			f.Line(figure.Style{Stroke: figure.Paint{Role: figure.Brass, Mix: -0.25, Alpha: a}, Width: 2.2 * u, Round: true, Glide: true},
				x, y, x+cos*(handRX-1.4)*u, y+sin*(handRY-2.4)*u)
		}
	}
	if plain_ < 1 {
		for _, r := range [...]float64{0.35, 0.55, 0.75} {
			ellipse(f, figure.Style{Stroke: sheer(figure.Brass, 0.4*(1-plain_)), Width: 1.2 * u}, x, y, handRX*u*r, handRY*u*r)
		}
	}
	f.Circle(metal(figure.Steel, 0.5, 0, k.fine), x, y, 3*u)
	f.Mark(first, "handwheel")
}

// ellipse is drawn as a polygon; its edge is only a stroke.
func ellipse(f *figure.Figure, st figure.Style, x, y, rx, ry float64) {
	const n = 28
	st.Round = true
	f.Polygon(st)
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
		f.To(x+rx*cos, y+ry*sin)
	}
}

// moveSheave turns with the rope drawn over it.
func (p *shaftPicture) moveSheave(f *figure.Figure, v *lift.View) {
	k := &p.s.ink
	u := p.k
	c, r := p.sheave, p.sheaveR
	first := len(f.Items)
	f.Circle(plain(sheer(figure.Ink, 0.15)), c.X+1.2*u, c.Y+2.2*u, r+1*u)
	f.Circle(metal(figure.Steel, 0.7, 0.1, k.line), c.X, c.Y, r+1.5*u)
	f.Circle(sheet(mixed(figure.Steel, 0.82), figure.Ink, k.hair), c.X, c.Y, r-4*u)
	const spokes = 5
	turn := p.ropePhase(v) / r
	seen := p.s.steady(v.SpeedMS * p.s.floors.pxPerM / r * spokes / (2 * math.Pi))
	// Going up, the rope on the car's side runs up over the sheave: clockwise.
	for i := range spokes {
		if seen <= 0 {
			break
		}
		a := turn + 2*math.Pi/spokes*float64(i)
		q := polar(c.X, c.Y, r-4.5*u, a)
		f.Line(figure.Style{Stroke: faded(solid(figure.Ink), seen), Width: 3.4 * u, Glide: true}, c.X, c.Y, q.X, q.Y)
		f.Line(figure.Style{Stroke: faded(mixed(figure.Steel, 0.35), seen), Width: 3.4*u - 2*k.hair, Glide: true}, c.X, c.Y, q.X, q.Y)
	}
	f.Circle(metal(figure.Steel, 0.5, -0.1, k.fine), c.X, c.Y, 5*u)
	f.Circle(plain(solid(figure.Ink)), c.X, c.Y, 1.8*u)
	f.Mark(first, "sheave")
}
