package scene

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/physics/lift"
)

// chartPicture is the run against time: the speed as a line, the position
// lamps as lit squares with the floor's name, the relays as bars. Time runs to
// the right; the line of now stands at the right of what has happened.
type chartPicture struct {
	s      *Scene
	place  rect
	x0, x1 float64 // the time axis
	span   float64 // seconds shown
	tracks []track
	speed  rect
	lamps  rect
	axis   float64 // its line
	em     float64
	words  struct{ now, seconds, speed string }
	spell  *decimals
	label  float64 // width of the figures beside the line of now
	room   bool    // for the speed as a number
	full   float64 // speed at the edge of its band, m/s
}

// longestChartS is as much of a run as a chart ever shows, seconds.
const longestChartS = 60.0

// A track is one relay's line.
type track struct {
	coil int
	part string
	way  way
	y, h float64
}

// Relays of the chart, most wanted first; shown in the order of a trace.
var charted = []string{"relay.up", "relay.down", "relay.direction", "relay.stop", "relay.fast", "relay.slow", "relay.door", "relay.start", "relay.brake"}

func newChartPicture(s *Scene, place rect) *chartPicture {
	c := &chartPicture{s: s, place: place}
	k := &s.ink
	c.em = k.small
	pad := 6 * k.u
	in := rect{place.x0 + 1.2*pad, place.y0 + 0.8*pad, place.x1 - 1.2*pad, place.y1 - 0.6*pad}
	c.words.now, c.words.seconds, c.words.speed = s.say("scene.now"), s.say("scene.seconds"), s.say("scene.metres-per-second")
	c.spell = decimalsWith(s.say("language.decimal"))
	c.label = max(7.6*c.em, 0.9*c.em+max(
		figure.Measure(c.words.now, c.em, true)+0.6*c.em+figure.Measure(c.spell.tenthOf(888.8), c.em, true)+figure.Measure(c.words.seconds, c.em, true),
		0.3*c.em+figure.Measure(c.spell.hundredthOf(8.88), c.em, false)+figure.Measure(c.words.speed, c.em, false)))
	c.full = 1.15 * s.plan.Machine.RatedSpeedMS

	// No taller than its lines can use.
	if most := in.y0 + 15*2.3*c.em; in.y1 > most {
		in.y1 = most
		c.place.y1 = most + 0.6*pad
	}
	// Speed, lamps, as many relays as find room, and the axis.
	bottom := in.y1 - 1.35*c.em
	c.axis = bottom
	line := max(1.24*c.em, 10*k.u)
	room := bottom - in.y0
	tall := 1.9
	if k.lecture {
		tall = 1.3
	}
	n := clampInt(int(room/line-tall-1.1), 0, len(charted))
	unit := room / (float64(n) + tall + 1.1)
	c.speed = rect{0, in.y0, 0, in.y0 + tall*unit}
	c.room = tall*unit > 2.3*c.em
	c.lamps = rect{0, c.speed.y1 + 0.06*unit, 0, c.speed.y1 + 1.02*unit}
	c.pick(n)
	for i := range c.tracks {
		c.tracks[i].y, c.tracks[i].h = c.lamps.y1+0.08*unit+unit*(float64(i)+0.5), unit
	}
	wide := max(figure.Measure(s.say("scene.speed"), c.em, false), figure.Measure(s.say("scene.position-lamp"), c.em, false))
	for i := range c.tracks {
		wide = max(wide, figure.Measure(s.say("scene.chart-"+c.tracks[i].part[6:]), c.em, false))
	}
	c.x0, c.x1 = in.x0+wide+1.2*c.em, in.x1
	c.span = clamp(math.Round((c.x1-c.x0)/(22*k.u)/5)*5, 10, longestChartS)
	c.draw(&s.still, in)
	c.aim(in)
	return c
}

// pick takes the n most wanted relays, in the order of a trace.
func (c *chartPicture) pick(n int) {
	for id, part := range c.s.wiring.Coils {
		for _, want := range charted[:n] {
			if part == want {
				c.tracks = append(c.tracks, track{coil: id, part: part, way: wayOf(part[6:])})
			}
		}
	}
	order := func(part string) int {
		for i, p := range [...]string{"relay.up", "relay.down", "relay.direction", "relay.start", "relay.stop", "relay.fast", "relay.slow", "relay.brake", "relay.door"} {
			if p == part {
				return i
			}
		}
		return 99
	}
	for i := range c.tracks {
		for j := i; j > 0 && order(c.tracks[j].part) < order(c.tracks[j-1].part); j-- {
			c.tracks[j], c.tracks[j-1] = c.tracks[j-1], c.tracks[j]
		}
	}
}

// zero is where no speed is drawn.
func (c *chartPicture) zero() float64 { return (c.speed.y0 + c.speed.y1) / 2 }

func (c *chartPicture) draw(f *figure.Figure, in rect) {
	k := &c.s.ink
	f.Box(sheet(solid(figure.Panel), figure.Muted, 0), c.place.x0, c.place.y0, c.place.x1, c.place.y1, 4*k.u)
	f.Items[len(f.Items)-1].Style.Stroke = mixed(figure.Muted, 0.6)
	f.Items[len(f.Items)-1].Style.Width = k.fine
	face := figure.Face{Size: c.em}
	label := func(id string, y float64, part string) {
		f.Text(solid(figure.Ink), face, in.x0, middle(y, c.em), c.s.say(id)).Part = part
	}
	label("scene.speed", c.zero(), "car")
	label("scene.position-lamp", (c.lamps.y0+c.lamps.y1)/2, "brush")
	f.Line(figure.Style{Stroke: mixed(figure.Muted, 0.5), Width: k.hair}, c.x0, c.zero(), c.x1, c.zero())
	for i := range c.tracks {
		t := &c.tracks[i]
		label("scene.chart-"+t.part[6:], t.y, t.part)
		f.Line(figure.Style{Stroke: mixed(figure.Muted, 0.55), Width: k.hair}, c.x0, t.y+0.26*t.h, c.x1, t.y+0.26*t.h)
	}
	f.Line(stroke(figure.Muted, k.fine), c.x0, c.axis, c.x1, c.axis)
}

func (c *chartPicture) aim(in rect) {
	t := &c.s.targets
	for i := range c.tracks {
		tr := &c.tracks[i]
		t.add(tr.part, rect{in.x0, tr.y - tr.h*0.42, c.x0 - 0.5*c.em, tr.y + tr.h*0.36})
	}
}

// from is where the window begins. It stands still while now crosses it, and
// goes on by half its width when now has come to five sixths: what has
// happened does not slide past under the eye, however fast time goes.
func (c *chartPicture) from(now float64) float64 {
	if c.s.window >= 0 {
		return c.s.window
	}
	half := c.span / 2
	return max(0, math.Ceil((now-c.span*5/6)/half)*half)
}

// move draws the run up to the instant of the view.
func (c *chartPicture) move(f *figure.Figure, v *lift.View, run *Record) {
	k := &c.s.ink
	from := c.from(v.TimeS)
	// A window that has been fixed may end before now.
	now := min(v.TimeS, from+c.span)
	x := func(t float64) float64 { return c.x0 + (t-from)/c.span*(c.x1-c.x0) }
	c.ticks(f, from)
	c.moveLamps(f, run, from, now)
	for i := range c.tracks {
		t := &c.tracks[i]
		for j := 0; j < run.count[t.coil]; j++ {
			b := run.bar(t.coil, j)
			if b.to < from {
				break
			}
			if j == 0 && run.open[t.coil] {
				b.to = now
			}
			if b.from > now {
				continue
			}
			h := t.h * 0.27
			st := plain(solid(figure.Ink))
			switch t.way {
			case upWay:
				st = plain(solid(figure.Up))
			case downWay:
				st = plain(solid(figure.Down))
			}
			f.Box(st, x(max(b.from, from)), t.y-h, x(min(b.to, now)), t.y+h*0.95, 0).Part = t.part
		}
	}
	c.moveSpeed(f, run, from, now)
	if v.TimeS > now {
		return
	}
	xn := x(now)
	f.Line(figure.Style{Stroke: solid(figure.Ink), Width: k.line, Glide: true}, xn, c.place.y0+1*k.u, xn, c.axis)
	// How long the run has lasted, and how fast the car goes, beside the line.
	em := c.em
	face := figure.Face{Size: em, Bold: true}
	y := c.speed.y0 + 0.9*em
	left := xn + k.line
	if xn+c.label > c.place.x1 {
		left = xn - k.line - c.label // no room on this side
	}
	xt := left - k.line + 0.55*em
	// A patch of the sheet keeps the lines beneath off the figures.
	deep := 1.25
	if c.room {
		deep = 2.45
	}
	f.Box(plain(solid(figure.Panel)), left, c.speed.y0-0.1*em, left-k.line+c.label, c.speed.y0+deep*em, 0)
	f.Text(solid(figure.Ink), face, xt, y, c.words.now)
	xt += figure.Measure(c.words.now, em, true) + 0.3*em
	xt = c.amount(f, face, xt, y, c.spell.tenthOf(now), c.words.seconds)
	if c.room {
		face.Bold = false
		c.amount(f, face, left-k.line+0.55*em, y+1.2*em, c.spell.hundredthOf(math.Abs(v.SpeedMS)), c.words.speed)
	}
}

// amount sets a number and its unit and returns where they end.
func (c *chartPicture) amount(f *figure.Figure, face figure.Face, x, y float64, number, unit string) float64 {
	f.Text(solid(figure.Ink), face, x, y, number)
	x += figure.Measure(number, face.Size, face.Bold) + 0.3*face.Size
	f.Text(solid(figure.Ink), face, x, y, unit)
	return x + figure.Measure(unit, face.Size, face.Bold)
}

// axisShare is the size of the axis's figures in labels.
func (c *chartPicture) axisShare() float64 {
	if c.s.ink.lecture {
		return 1
	}
	return 0.92
}

// ticks marks the seconds.
func (c *chartPicture) ticks(f *figure.Figure, from float64) {
	k := &c.s.ink
	every := 5.0
	first := math.Ceil(from/every-1e-9) * every
	for t := first; t <= from+c.span+1e-9; t += every {
		x := c.x0 + (t-from)/c.span*(c.x1-c.x0)
		f.Line(stroke(figure.Muted, k.fine), x, c.axis, x, c.axis+3*k.u)
		text := number(int(t + 0.5))
		w := figure.Measure(text, c.em*c.axisShare(), false)
		if x+w/2 > c.x1+4*k.u {
			continue
		}
		f.Text(solid(figure.Muted), figure.Face{Size: c.em * c.axisShare(), Align: figure.Middle}, x, c.axis+3*k.u+1.0*c.em, text)
	}
}

// moveLamps are the position lamps as squares that lie side by side, each with
// its floor's name where there is room for it.
func (c *chartPicture) moveLamps(f *figure.Figure, run *Record, from, now float64) {
	k := &c.s.ink
	x := func(t float64) float64 { return c.x0 + (t-from)/c.span*(c.x1-c.x0) }
	for fl := range c.s.plan.Floors {
		tr := run.coils + fl
		for j := 0; j < run.count[tr]; j++ {
			b := run.bar(tr, j)
			if b.to < from {
				break
			}
			if j == 0 && run.open[tr] {
				b.to = now
			}
			if b.from > now {
				continue
			}
			x0, x1 := x(max(b.from, from)), x(min(b.to, now))
			f.Box(sheet(solid(figure.Lamp), figure.Ink, k.hair), x0, c.lamps.y0+1.2*k.u, x1, c.lamps.y1-1.2*k.u, 0).Part = c.s.parts.lamp[fl]
			name := c.s.plan.Floors[fl].Name
			half := figure.Measure(name, c.em, true)/2 + 0.3*c.em
			if mid := (x0 + x1) / 2; x1-x0 > 2*half && !c.crossed(run, fl, mid-half, mid+half, from) {
				f.Text(solid(figure.LampInk), figure.Face{Size: c.em, Bold: true, Align: figure.Middle}, mid, middle((c.lamps.y0+c.lamps.y1)/2, c.em), name).Part = c.s.parts.lamp[fl]
			}
		}
	}
}

// crossed reports whether a bar of a neighbouring floor's lamp begins or ends
// between two places.
func (c *chartPicture) crossed(run *Record, fl int, x0, x1, from float64) bool {
	x := func(t float64) float64 { return c.x0 + (t-from)/c.span*(c.x1-c.x0) }
	for _, o := range [...]int{fl - 1, fl + 1} {
		if o < 0 || o >= len(c.s.plan.Floors) {
			continue
		}
		for j := 0; j < run.count[run.coils+o]; j++ {
			b := run.bar(run.coils+o, j)
			if b.to < from {
				break
			}
			if a := x(b.from); a > x0 && a < x1 {
				return true
			}
			if a := x(b.to); a > x0 && a < x1 {
				return true
			}
		}
	}
	return false
}

// moveSpeed is the speed, up above the line, down below it.
func (c *chartPicture) moveSpeed(f *figure.Figure, run *Record, from, now float64) {
	k := &c.s.ink
	n := run.times.n
	if n < 2 {
		return
	}
	half := c.zero() - c.speed.y0
	y := func(s float64) float64 { return c.zero() - clamp(s/c.full, -1, 1)*half }
	x := func(t float64) float64 { return c.x0 + (t-from)/c.span*(c.x1-c.x0) }
	i := n - 1
	for i > 0 && run.times.get(i) > from {
		i--
	}
	st := round(figure.Ink, k.line)
	st.Glide = true
	f.Polyline(st).Part = "car"
	for ; i < n; i++ {
		t, s := run.times.get(i), run.speeds.get(i)
		if t > now {
			// Looking back, now may lie between two samples.
			if i > 0 {
				t0, s0 := run.times.get(i-1), run.speeds.get(i-1)
				f.To(x(now), y(lerp(s0, s, (now-t0)/(t-t0))))
			}
			break
		}
		if t < from {
			if i+1 < n {
				t1, s1 := run.times.get(i+1), run.speeds.get(i+1)
				s = lerp(s, s1, (from-t)/(t1-t))
			}
			t = from
		}
		f.To(x(t), y(s))
	}
}
