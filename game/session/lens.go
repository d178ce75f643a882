package session

import "wheelroom/game/figure"

// A Lens is what is seen of the picture: enlarged Scale times, with the point
// X, Y of the picture at the top left. Scale 1 shows the whole.
type Lens struct {
	Scale float64 `json:"scale"`
	X     float64 `json:"x"`
	Y     float64 `json:"y"`
}

// LargestScale is how far a picture may be enlarged.
const LargestScale = 6.0

// Lens returns what is seen of the picture.
func (s *Session) Lens() Lens {
	if s.lens.Scale < 1 {
		return Lens{Scale: 1} // not used yet
	}
	return s.lens
}

// Zoom enlarges the picture by a factor; the place x, y of the screen, CSS
// pixels, keeps showing what it shows.
func (s *Session) Zoom(factor, x, y float64) error {
	if !(factor > 0) {
		return refuse("stage.bad-zoom")
	}
	l := s.Lens()
	scale := max(1, min(l.Scale*factor, LargestScale))
	s.see(Lens{scale, l.X + x/l.Scale - x/scale, l.Y + y/l.Scale - y/scale})
	return nil
}

// Pan moves what is seen by so many CSS pixels to the right and down.
func (s *Session) Pan(dx, dy float64) {
	l := s.Lens()
	s.see(Lens{l.Scale, l.X + dx/l.Scale, l.Y + dy/l.Scale})
}

// Whole shows the whole picture again.
func (s *Session) Whole() { s.see(Lens{Scale: 1}) }

// Bring moves what is seen so that a part is in it. A picture seen whole stays
// as it is.
func (s *Session) Bring(part string) {
	l := s.Lens()
	x0, y0, x1, y1, ok := s.stage().Box(part)
	if !ok || l.Scale == 1 {
		return
	}
	w, h := s.picture.Width/l.Scale, s.picture.Height/l.Scale
	if x0 < l.X || x1 > l.X+w {
		l.X = (x0+x1)/2 - w/2
	}
	if y0 < l.Y || y1 > l.Y+h {
		l.Y = (y0+y1)/2 - h/2
	}
	s.see(l)
}

// see looks through a lens, which never leaves the picture.
func (s *Session) see(l Lens) {
	l.X = max(0, min(l.X, s.picture.Width*(1-1/l.Scale)))
	l.Y = max(0, min(l.Y, s.picture.Height*(1-1/l.Scale)))
	if l != s.Lens() {
		s.lens = l
		s.looked++
		s.touch()
	}
}

// seen returns the part of a figure that is seen, in a figure of the screen's
// size; the whole picture is seen as it is.
func (s *Session) seen(f, through *figure.Figure) *figure.Figure {
	l := s.Lens()
	if l.Scale == 1 {
		return f
	}
	through.Window(f, figure.Rect{X0: l.X, Y0: l.Y, X1: l.X + f.Width/l.Scale, Y1: l.Y + f.Height/l.Scale}, l.Scale)
	return through
}
