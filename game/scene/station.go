package scene

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/physics/lift"
	"wheelroom/physics/selector"
)

// A station stands still at its floor's angle. Its bracket reaches in over the
// three discs and carries three levers, one to a track: a roller on the edge
// of the disc, a pivot, and behind it a tail whose contact meets a fixed one.
// Lengths in units of the picture, along the rim (t, clockwise) and out from a
// disc's edge (r). On crowded wheels all are scaled down alike.
const (
	rollerR  = 5.0
	leverT   = 20.0 // roller to pivot
	tailT    = 16.0 // pivot to contact
	pivotUp  = 4.0  // pivot above the resting roller
	fixedUp  = 2.6  // fixed contact above the edge
	touchUp  = 7.2  // tail above the edge when the contacts touch
	bracketR = 190.0
)

// plainBelow is the scale under which a station is drawn without its finer
// parts.
const plainBelow = 0.6

// local is the point t along and r out at a station's angle.
func (w *wheelPicture) local(a, t, r float64) figure.Point {
	sin, cos := math.Sincos(a)
	return figure.Point{X: w.x + (r*cos-t*sin)*w.k, Y: w.y + (r*sin+t*cos)*w.k}
}

// drawBrackets are the fixed parts of the stations.
func (w *wheelPicture) drawBrackets(f *figure.Figure) {
	for fl := range w.names {
		w.bracket(f, fl)
	}
}

// bracket is the fixed part of a station.
func (w *wheelPicture) bracket(f *figure.Figure, fl int) {
	k := &w.s.ink
	m := w.small
	{
		a := w.station(fl)
		first := len(f.Items)
		t, foot := leverT*m, laneRadius(2)+(rollerR+pivotUp)*m
		p, q := w.local(a, t, foot), w.local(a, t, bracketR)
		if m < plainBelow {
			f.Line(figure.Style{Stroke: mixed(figure.Muted, 0.25), Width: k.fine}, p.X, p.Y, q.X, q.Y)
			f.Mark(first, w.s.parts.rim[fl])
			return
		}
		// The bar with its shadow, and the foot by which it is fixed.
		d := 1.4 * w.k
		f.Line(figure.Style{Stroke: sheer(figure.Ink, 0.12), Width: 5.4 * m * w.k, Round: true}, p.X+d, p.Y+1.7*d, q.X+d, q.Y+1.7*d)
		w.bar(f, a, t, foot, t, bracketR, 4.4*m, mixed(figure.Steel, 0.45))
		w.bar(f, a, t-7*m, bracketR, t+7*m, bracketR, 4.4*m, mixed(figure.Steel, 0.2))
		f.Mark(first, w.s.parts.rim[fl])
		for lane := range lanes {
			// The fixed contact's leaf on its block of fibre.
			first := len(f.Items)
			edge := laneRadius(lane)
			c, e := w.local(a, t+tailT*m, edge+fixedUp*m), w.local(a, t+(tailT+8)*m, edge+fixedUp*m-0.6)
			f.Line(round(figure.Ink, k.fine), c.X, c.Y, e.X, e.Y)
			w.bar(f, a, t+(tailT+6.5)*m, edge+fixedUp*m-0.6, t+(tailT+10)*m, edge+fixedUp*m-0.6, 5*m, mixed(figure.Muted, 0.55))
			for i := first; i < len(f.Items); i++ {
				f.Items[i].Part = w.lanePart(lane, fl)
			}
		}
	}
}

// bar is a rounded bar with an edge in ink between two places of a station.
func (w *wheelPicture) bar(f *figure.Figure, a, t0, r0, t1, r1, wide float64, fill figure.Paint) {
	k := &w.s.ink
	p, q := w.local(a, t0, r0), w.local(a, t1, r1)
	f.Line(figure.Style{Stroke: solid(figure.Ink), Width: wide * w.k, Round: true}, p.X, p.Y, q.X, q.Y)
	f.Line(figure.Style{Stroke: fill, Width: wide*w.k - 2*k.hair, Round: true}, p.X, p.Y, q.X, q.Y)
}

// rollerHeight is how far out of the disc's edge the middle of a roller lies
// at rel, the angle of the station clockwise from the car's place on the
// wheel: a circle resting on the edge and on the ramp.
func (w *wheelPicture) rollerHeight(lane int, rel float64) float64 {
	ramp := &w.ramps[lane]
	rho := rollerR * w.small
	high := rho
	edge := laneRadius(lane)
	reach := 1.5 * rho / edge
	if rel < ramp.from-reach || rel > ramp.to+reach {
		return high
	}
	for i := range ramp.angle {
		d := ramp.angle[i] - rel
		if math.Abs(d) > reach {
			continue
		}
		sin, cos := math.Sincos(d)
		r := edge + ramp.lift[i]*liftH
		t := r * sin
		if t*t < rho*rho {
			high = max(high, r*cos-edge+math.Sqrt(rho*rho-t*t))
		}
	}
	return high
}

// moveStations are the levers of all stations and the direction switches.
func (w *wheelPicture) moveStations(f *figure.Figure, v *lift.View, turn float64) {
	for fl := range w.names {
		a := w.station(fl)
		rel := a - turn
		w.follower(f, v, fl, a, rel)
		if w.behind(rel) {
			w.bracket(f, fl) // again, before the ramp
		}
		for lane := range lanes {
			first := len(f.Items)
			w.lever(f, a, lane, w.rollerHeight(lane, rel), w.made(v, lane, fl))
			for i := first; i < len(f.Items); i++ {
				f.Items[i].Part = w.lanePart(lane, fl)
			}
		}
	}
}

// behind reports whether a ramp passes behind the bracket of a station at rel.
func (w *wheelPicture) behind(rel float64) bool {
	reach := (leverT + tailT + 12) * w.small / laneRadius(2)
	for lane := range w.ramps {
		if rel+reach > w.ramps[lane].from && rel-0.02 < w.ramps[lane].to {
			return true
		}
	}
	return false
}

func (w *wheelPicture) made(v *lift.View, lane, fl int) bool {
	switch lanes[lane] {
	case selector.AdvanceUpTrack:
		return fl < len(v.AdvanceUp) && v.AdvanceUp[fl]
	case selector.AdvanceDownTrack:
		return fl < len(v.AdvanceDown) && v.AdvanceDown[fl]
	}
	return fl < len(v.Rim) && v.Rim[fl]
}

// lever is one lever, its roller high above the disc's edge.
func (w *wheelPicture) lever(f *figure.Figure, a float64, lane int, high float64, made bool) {
	k := &w.s.ink
	m, edge := w.small, laneRadius(lane)
	pivotR := edge + (rollerR+pivotUp)*m
	roller := w.local(a, 0, edge+high)
	pivot := w.local(a, leverT*m, pivotR)
	// The tail swings in as the roller goes out. The last of its way is the
	// contact's own: it touches when it is made and not before.
	touch := edge + touchUp*m
	tip := max(pivotR+(pivotR-edge-high)*tailT/leverT, touch+1.3*m)
	if made {
		tip = touch
	}
	tail := w.local(a, (leverT+tailT)*m, tip)
	role := figure.Steel
	if lanes[lane] == selector.CentreTrack {
		role = figure.Brass
	}
	if m < plainBelow {
		wide := k.fine
		if made {
			wide = k.live * 0.8
		}
		f.Line(figure.Style{Stroke: solid(figure.Ink), Width: wide, Round: true}, roller.X, roller.Y, pivot.X, pivot.Y)
		f.Line(figure.Style{Stroke: solid(figure.Ink), Width: wide, Round: true}, pivot.X, pivot.Y, tail.X, tail.Y)
		f.Circle(sheet(solid(figure.Panel), figure.Ink, k.hair), roller.X, roller.Y, rollerR*m*w.k)
		return
	}
	// The fixed contact, then the lever's own, then the lever over both.
	c := w.local(a, (leverT+tailT)*m, edge+fixedUp*m)
	stud := figure.Style{Fill: mixed(figure.Brass, 0.2), Stroke: solid(figure.Ink), Width: k.hair}
	if made {
		stud.Fill = solid(figure.Ink)
	}
	f.Circle(stud, c.X, c.Y, 2.2*m*w.k)
	t := w.local(a, (leverT+tailT)*m, tip-1.9*m)
	f.Circle(stud, t.X, t.Y, 2.2*m*w.k)
	wide := 3.6 * m * w.k
	f.Line(figure.Style{Stroke: solid(figure.Ink), Width: wide, Round: true}, roller.X, roller.Y, pivot.X, pivot.Y)
	f.Line(figure.Style{Stroke: solid(figure.Ink), Width: wide * 0.86, Round: true}, pivot.X, pivot.Y, tail.X, tail.Y)
	fill := mixed(role, 0.42)
	if made {
		fill = mixed(role, 0.05)
	}
	f.Line(figure.Style{Stroke: fill, Width: wide*0.86 - 2*k.hair, Round: true}, pivot.X, pivot.Y, tail.X, tail.Y)
	f.Line(figure.Style{Stroke: fill, Width: wide - 2*k.hair, Round: true}, roller.X, roller.Y, pivot.X, pivot.Y)
	f.Circle(metal(figure.Steel, 0.6, 0, k.hair), pivot.X, pivot.Y, 3*m*w.k)
	f.Circle(sheet(solid(figure.Panel), figure.Ink, k.fine), roller.X, roller.Y, rollerR*m*w.k)
	f.Circle(plain(solid(figure.Ink)), roller.X, roller.Y, 1.5*m*w.k)
}

// follower is a floor's direction switch: a lever whose end stands out while
// the floor is above the car, in while it is below.
func (w *wheelPicture) follower(f *figure.Figure, v *lift.View, fl int, a, rel float64) {
	k := &w.s.ink
	m := w.small
	mid := (outR + inR) / 2
	stand := lift.Between
	if fl < len(v.Direction) {
		stand = v.Direction[fl]
	}
	// Near the crossing the groove leads it; elsewhere it holds by itself.
	r, near := w.crossRadius(rel), math.Abs(rel) < 1.5*w.crossHalf
	switch stand {
	case lift.Above:
		if !near {
			r = outR
		}
		r = max(r, mid+2)
	case lift.Below:
		if !near {
			r = inR
		}
		r = min(r, mid-2)
	default:
		r = clamp(r, mid-3, mid+3)
	}
	end := w.local(a, 0, r)
	pivot := w.local(a, 19*m, mid)
	first := len(f.Items)
	f.Line(figure.Style{Stroke: solid(figure.Ink), Width: (3*m + 0.4) * w.k, Round: true}, pivot.X, pivot.Y, end.X, end.Y)
	f.Line(figure.Style{Stroke: mixed(figure.Steel, 0.6), Width: (3*m+0.4)*w.k - 2*k.hair, Round: true}, pivot.X, pivot.Y, end.X, end.Y)
	f.Circle(metal(figure.Steel, 0.5, 0, k.hair), pivot.X, pivot.Y, 2.8*m*w.k)
	w.s.standMark(f, stand, end, 4.9*lerp(m, 1, 0.35)*w.k)
	for i := first; i < len(f.Items); i++ {
		f.Items[i].Part = w.s.parts.direction[fl]
	}
}

// standMark is the sign of a direction switch: round for above, square for
// below, a diamond between.
func (s *Scene) standMark(f *figure.Figure, stand lift.Stand, p figure.Point, d float64) {
	w := s.ink.fine
	switch stand {
	case lift.Above:
		f.Circle(sheet(solid(figure.Up), figure.Ink, w), p.X, p.Y, d)
	case lift.Below:
		e := d * 0.9
		f.Box(sheet(solid(figure.Down), figure.Ink, w), p.X-e, p.Y-e, p.X+e, p.Y+e, 0)
	default:
		e := d * 1.2
		f.Polygon(sheet(solid(figure.Panel), figure.Ink, w), pt(p.X, p.Y-e), pt(p.X+e, p.Y), pt(p.X, p.Y+e), pt(p.X-e, p.Y))
	}
}
