package scene

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/physics/lift"
	"wheelroom/physics/selector"
)

// legendLine is one line of what stands in a lower corner of the wheel's
// picture: a sign and what it means.
type legendLine struct {
	text string
	sign func(f *figure.Figure, x, y, d float64)
}

// drawLegend explains the signs on the wheel in its lower corners, where no
// station stands; a line that would come too near the wheel is left out.
func (w *wheelPicture) drawLegend(f *figure.Figure, place rect) {
	s := w.s
	stand := func(st lift.Stand) func(*figure.Figure, float64, float64, float64) {
		return func(f *figure.Figure, x, y, d float64) { s.standMark(f, st, pt(x, y), d) }
	}
	left := []legendLine{
		{s.say("scene.switch-above"), stand(lift.Above)},
		{s.say("scene.switch-below"), stand(lift.Below)},
	}
	right := []legendLine{
		{s.say("scene.lane-advance-up"), w.rampSign(selector.AdvanceUpTrack)},
		{s.say("scene.lane-centre"), w.rampSign(selector.CentreTrack)},
		{s.say("scene.lane-advance-down"), w.rampSign(selector.AdvanceDownTrack)},
	}
	if w.enlarged {
		left = append(left, legendLine{text: s.say("scene.enlarged")})
	}
	w.corner(f, left, place, false)
	w.corner(f, right, place, true)
}

// corner sets lines in the lower left or lower right corner.
func (w *wheelPicture) corner(f *figure.Figure, lines []legendLine, place rect, right bool) {
	k := &w.s.ink
	em := k.small
	pitch := 1.42 * em
	foot := min(place.y1, w.y+(halfSize+3)*w.k)
	edge := min(place.w()/2, w.k*halfSize*1.06)
	for i := range lines {
		// Not some of them only.
		base := foot - 0.3*em - pitch*float64(len(lines)-1-i)
		wide := figure.Measure(lines[i].text, em, false) + 1.5*em
		x0 := w.x - edge
		if right {
			x0 = w.x + edge - wide
		}
		if w.near(rect{x0, base - 0.8*em, x0 + wide, base + 0.3*em}) {
			return
		}
	}
	for i := len(lines) - 1; i >= 0; i-- {
		l := &lines[i]
		base := foot - 0.3*em - pitch*float64(len(lines)-1-i)
		wide := figure.Measure(l.text, em, false)
		if l.sign != nil {
			wide += 1.5 * em
		}
		x0 := w.x - edge
		if right {
			x0 = w.x + edge - wide
		}
		if l.sign != nil {
			l.sign(f, x0+0.5*em, base-0.33*em, 0.38*em)
		}
		f.Text(solid(figure.Muted), figure.Face{Size: em, Align: figure.End}, x0+wide, base, l.text)
	}
}

// near reports whether a rectangle comes near the wheel or a station.
func (w *wheelPicture) near(r rect) bool {
	dx, dy := max(r.x0-w.x, w.x-r.x1, 0), max(r.y0-w.y, w.y-r.y1, 0)
	if math.Hypot(dx, dy) < (rimR+3)*w.k {
		return true
	}
	for fl := range w.names {
		a := w.station(fl)
		p, q := polar(w.x, w.y, (bracketR+2)*w.k, a), polar(w.x, w.y, labelR*w.k, a)
		if r.off(p) < 16*w.k*w.small || r.off(q) < 0.8*w.nameEm() {
			return true
		}
	}
	return false
}

// off is how far a point is from a rectangle, the larger way; below 0 inside.
func (r rect) off(p figure.Point) float64 {
	return max(r.x0-p.X, p.X-r.x1, r.y0-p.Y, p.Y-r.y1)
}

// rampSign is a ramp in small, with the mark it bears.
func (w *wheelPicture) rampSign(track selector.Track) func(*figure.Figure, float64, float64, float64) {
	return func(f *figure.Figure, x, y, d float64) {
		k := &w.s.ink
		role := figure.Steel
		if track == selector.CentreTrack {
			role = figure.Brass
		}
		st := metal(role, 0.35, -0.05, k.hair)
		st.Round = true
		f.Polygon(st, pt(x-1.35*d, y+0.9*d), pt(x-1.3*d, y+0.1*d), pt(x-0.7*d, y-0.9*d), pt(x+0.7*d, y-0.9*d), pt(x+1.3*d, y+0.1*d), pt(x+1.35*d, y+0.9*d))
		mark := figure.Style{Fill: solid(figure.Panel), Stroke: solid(figure.Ink), Width: k.hair}
		switch track {
		case selector.AdvanceUpTrack:
			f.Circle(mark, x, y, 0.42*d)
		case selector.AdvanceDownTrack:
			f.Box(mark, x-0.38*d, y-0.38*d, x+0.38*d, y+0.38*d, 0)
		}
	}
}
