package scene

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/selector"
)

// An Unrolled is the rim of the selector wheel laid out flat along the car's
// travel, the lowest landing on the left: a lane for each track, the stations
// of the floors standing still, the ramps moving with the car. Make it with
// NewUnrolled.
type Unrolled struct {
	plan   *building.Plan
	wheel  *selector.Wheel
	o      Options
	ink    inks
	parts  partNames
	figure figure.Figure

	left, right float64 // ends of the lanes
	top         float64 // of the lanes; the floors' names stand above
	lane        float64 // height of one
	roller      float64 // radius
	pxPerM      float64
	shownM      float64 // travel between the ends of the lanes
	ramps       [3]flatRamp
	enlarged    bool
	every       int // of so many floors one is named
	labels      [3]string
	note        string
	chosen      string
}

// flatRamp is the edge of a ramp, logical units from the car's place and above
// the rim; from and to are its feet.
type flatRamp struct {
	x, lift  []float64
	from, to float64
}

// Stations and ramps beyond the ends of the travel still have to be seen.
const endsM = 1.2

// NewUnrolled lays the rim out in the options' size; their Picture is not
// used.
func NewUnrolled(p *building.Plan, o Options) *Unrolled {
	if o.Words == nil {
		o.Words = phrase.Phrase.String
	}
	s := &Scene{o: o}
	u := &Unrolled{plan: p, wheel: selector.NewWheel(p), o: o, parts: namesOf(p), chosen: o.Chosen}
	u.ink = newInks(&o, min(o.Width/620, o.Height/150))
	u.labels = [3]string{s.say("scene.lane-advance-up"), s.say("scene.lane-centre"), s.say("scene.lane-advance-down")}
	u.note = s.say("scene.enlarged")
	u.lay()
	return u
}

func (u *Unrolled) lay() {
	k := &u.ink
	gutter := 0.0
	for _, text := range u.labels {
		gutter = max(gutter, figure.Measure(text, k.t, false))
	}
	u.left, u.right = gutter+1.6*k.t, u.o.Width-0.8*k.t
	u.top = 2.1 * k.name
	u.lane = (u.o.Height - u.top - 2.1*k.t) / 3
	u.roller = min(0.15*u.lane, 7*k.u)
	n := len(u.plan.Floors)
	u.shownM = u.plan.TravelM() + 2*endsM
	if n > maxRows {
		least := math.Inf(1)
		for f := 1; f < n; f++ {
			least = min(least, u.plan.Floors[f].HeightM-u.plan.Floors[f-1].HeightM)
		}
		u.shownM = min(u.shownM, least*maxRows)
	}
	u.pxPerM = (u.right - u.left) / u.shownM
	for lane, track := range lanes {
		u.ramps[lane] = u.flat(track)
	}
	for u.every = 1; !u.named(); u.every++ {
	}
}

// named reports whether the names of every so many floors stand clear of each
// other.
func (u *Unrolled) named() bool {
	end := math.Inf(-1)
	for f := 0; f < len(u.plan.Floors); f += u.every {
		half := figure.Measure(u.plan.Floors[f].Name, u.ink.name, true) / 2
		x := u.plan.Floors[f].HeightM * u.pxPerM
		if x-half < end+0.3*u.ink.name {
			return false
		}
		end = x + half
	}
	return true
}

// flat is a ramp at its true length or, where that would be too short for a
// roller to be seen on it, stretched about its middle.
func (u *Unrolled) flat(track selector.Track) flatRamp {
	points := u.wheel.Profile(track)
	n := len(points)
	// A roller of a landing stands on that point when the car is so far above
	// it, so the point lies that much to the left of the car.
	middle := -(points[0].TravelM + points[n-1].TravelM) / 2 * u.pxPerM
	long := (points[n-1].TravelM - points[0].TravelM) * u.pxPerM
	gap := math.Inf(1)
	for f := 1; f < len(u.plan.Floors); f++ {
		gap = min(gap, (u.plan.Floors[f].HeightM-u.plan.Floors[f-1].HeightM)*u.pxPerM)
	}
	stretch := max(1, min(3.2*u.roller, 0.62*gap)/long)
	u.enlarged = u.enlarged || stretch > 1
	r := flatRamp{}
	const between = 6
	for i := n - 1; i >= 0; i-- {
		x, lift := middle+(-points[i].TravelM*u.pxPerM-middle)*stretch, points[i].Lift*u.rise()
		if m := len(r.x); m > 0 {
			x0, lift0 := r.x[m-1], r.lift[m-1]
			for j := 1; j < between; j++ {
				r.x, r.lift = append(r.x, lerp(x0, x, float64(j)/between)), append(r.lift, lerp(lift0, lift, float64(j)/between))
			}
		}
		r.x, r.lift = append(r.x, x), append(r.lift, lift)
	}
	r.from, r.to = r.x[0], r.x[len(r.x)-1]
	return r
}

// rise is how far a ramp stands out of the rim.
func (u *Unrolled) rise() float64 { return 0.2 * u.lane }

// rim is where the rim of a lane lies.
func (u *Unrolled) rim(lane int) float64 { return u.top + (float64(lane)+0.84)*u.lane }

// x is where a height lies when the car stands at carM.
func (u *Unrolled) x(heightM, carM float64) float64 {
	half := u.shownM / 2
	middle := clamp(carM, half-endsM, u.plan.TravelM()+endsM-half)
	return (u.left+u.right)/2 + (heightM-middle)*u.pxPerM
}

// high is how far above the rim the middle of a roller lies that stands dx to
// the right of the car: a circle that rests on rim and ramp.
func (u *Unrolled) high(lane int, dx float64) float64 {
	h := u.roller
	for i, x := range u.ramps[lane].x {
		if d := x - dx; math.Abs(d) < u.roller {
			h = max(h, u.ramps[lane].lift[i]+math.Sqrt(u.roller*u.roller-d*d))
		}
	}
	return h
}

// Choose points out a part and its twins from the next Draw on; "" none.
func (u *Unrolled) Choose(part string) { u.chosen = part }

// Draw returns the whole drawing at the instant of the view. The figure is the
// drawing's own and is overwritten by the next call.
func (u *Unrolled) Draw(v *lift.View) *figure.Figure {
	f := &u.figure
	f.Reset(u.o.Width, u.o.Height)
	u.guides(f, v)
	for lane := range lanes {
		u.drawLane(f, v, lane)
	}
	u.car(f, v)
	if u.enlarged {
		f.Text(solid(figure.Muted), figure.Face{Size: u.ink.small, Align: figure.Start}, u.left, u.o.Height-0.45*u.ink.t, u.note)
	}
	return f
}

// seen reports whether a place lies between the ends of the lanes.
func (u *Unrolled) seen(x float64) bool { return x >= u.left && x <= u.right }

// guides are the floors: a line through all lanes, the name above it, a shade
// behind the one that is pointed out.
func (u *Unrolled) guides(f *figure.Figure, v *lift.View) {
	k := &u.ink
	foot := u.rim(2)
	for fl := range u.plan.Floors {
		x := u.x(u.plan.Floors[fl].HeightM, v.CarM)
		if !u.seen(x) {
			continue
		}
		if u.chosen != "" && twins(u.chosen, u.parts.rim[fl]) {
			f.Box(plain(sheer(figure.Ink, 0.12)), x-3.4*u.roller, u.top-0.1*u.lane, x+3.4*u.roller, foot+0.1*u.lane, 3).Part = u.parts.rim[fl]
		}
		f.Line(figure.Style{Stroke: mixed(figure.Muted, 0.55), Width: k.hair, Dash: figure.Dotted}, x, u.top, x, foot)
		half := figure.Measure(u.plan.Floors[fl].Name, k.name, true) / 2
		if fl%u.every == 0 && x-half >= u.left-k.t && x+half <= u.o.Width {
			f.Text(solid(figure.Ink), figure.Face{Size: k.name, Bold: true, Align: figure.Middle}, x, u.top-0.55*k.name, u.plan.Floors[fl].Name).Part = u.parts.landing[fl]
		}
	}
}

// drawLane is the rim of one track with its ramp, and its stations' rollers
// and contacts.
func (u *Unrolled) drawLane(f *figure.Figure, v *lift.View, lane int) {
	k := &u.ink
	y := u.rim(lane)
	role := figure.Steel
	if lanes[lane] == selector.CentreTrack {
		role = figure.Brass
	}
	f.Text(solid(figure.Ink), figure.Face{Size: k.t, Align: figure.End}, u.left-0.8*k.t, middle(y-0.25*u.lane, k.t), u.labels[lane]).Part = rampPart(lane)
	f.Box(figure.Style{Fill: mixed(role, 0.75), Stroke: solid(figure.Ink), Width: k.hair}, u.left, y, u.right, y+0.1*u.lane, 0)
	u.ramp(f, u.x(v.CarM, v.CarM), lane, role)
	for fl := range u.plan.Floors {
		x := u.x(u.plan.Floors[fl].HeightM, v.CarM)
		if !u.seen(x) {
			continue
		}
		first := len(f.Items)
		u.station(f, x, y-u.high(lane, x-u.x(v.CarM, v.CarM)), y, u.made(v, lane, fl))
		f.Mark(first, u.part(lane, fl))
	}
}

func (u *Unrolled) made(v *lift.View, lane, fl int) bool {
	return at([...][]bool{v.AdvanceUp, v.Rim, v.AdvanceDown}[lane], fl)
}

func (u *Unrolled) part(lane, fl int) string {
	return [...][]string{u.parts.advanceUp, u.parts.rim, u.parts.advanceDown}[lane][fl]
}

// ramp is the raised piece of a lane, with the mark of its track.
func (u *Unrolled) ramp(f *figure.Figure, carX float64, lane int, role figure.Role) {
	k, y, r := &u.ink, u.rim(lane), &u.ramps[lane]
	if carX+r.to < u.left || carX+r.from > u.right {
		return
	}
	first := len(f.Items)
	st := figure.Style{Fill: mixed(role, 0.1), Stroke: solid(figure.Ink), Width: k.line, Glide: true}
	if u.chosen == rampPart(lane) {
		st.Width = 2 * k.bold
	}
	f.Polygon(st)
	for i := range r.x {
		f.To(clamp(carX+r.x[i], u.left, u.right), y-r.lift[i])
	}
	f.To(min(carX+r.to, u.right), y+0.1*u.lane)
	f.To(max(carX+r.from, u.left), y+0.1*u.lane)
	c := pt(carX+(r.from+r.to)/2, y-0.35*u.rise())
	mark := figure.Style{Fill: solid(figure.Panel), Stroke: solid(figure.Ink), Width: k.hair, Glide: true}
	d := 0.3 * u.rise()
	switch {
	case !u.seen(c.X):
	case lanes[lane] == selector.AdvanceUpTrack:
		f.Circle(mark, c.X, c.Y, d)
	case lanes[lane] == selector.AdvanceDownTrack:
		f.Box(mark, c.X-d, c.Y-d, c.X+d, c.Y+d, 0)
	}
	f.Mark(first, rampPart(lane))
}

// station is a roller at y over the rim, its stem, and over it the contact
// that the stem closes.
func (u *Unrolled) station(f *figure.Figure, x, y, rim float64, made bool) {
	k, r := &u.ink, u.roller
	// The stem carries a bar; the fixed contacts hang where a lifted bar
	// meets them, and the last of the way is the contact's own.
	fixed := rim - r - u.rise() - 1.9*r
	bar := max(y-1.9*r, fixed+0.5*r)
	if made {
		bar = fixed
	}
	wide, fill := k.fine, solid(figure.Panel)
	if made {
		wide, fill = k.live, solid(figure.Ink)
	}
	f.Line(stroke(figure.Ink, k.fine), x, y, x, bar)
	f.Line(stroke(figure.Ink, wide), x-1.5*r, bar, x+1.5*r, bar)
	for _, side := range [...]float64{-1, 1} {
		f.Circle(figure.Style{Fill: fill, Stroke: solid(figure.Ink), Width: k.fine}, x+side*1.9*r, fixed, 0.42*r)
	}
	f.Circle(sheet(solid(figure.Panel), figure.Ink, k.fine), x, y, r)
	f.Circle(plain(solid(figure.Ink)), x, y, 0.28*r)
}

// car marks where the car is, beneath the lanes.
func (u *Unrolled) car(f *figure.Figure, v *lift.View) {
	x, y, d := u.x(v.CarM, v.CarM), u.o.Height-1.85*u.ink.t, 0.4*u.ink.t
	if !u.seen(x) {
		return
	}
	f.Polygon(figure.Style{Fill: solid(figure.Ink), Glide: true}, pt(x, y-d), pt(x+d, y+d), pt(x-d, y+d)).Part = "car"
}
