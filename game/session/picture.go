package session

import (
	"slices"

	"wheelroom/game/figure"
	"wheelroom/game/scene"
)

// Size sets the size of the picture, CSS pixels. What is too small to lay a
// picture out in gets a larger one of the same shape, which is then shown
// smaller.
func (s *Session) Size(width, height float64) {
	if !(width > 0 && height > 0) {
		return
	}
	k := max(1, 320/width, 240/height)
	width, height = k*width, k*height
	if width != s.picture.Width || height != s.picture.Height {
		s.picture.Width, s.picture.Height = width, height
		s.scene = nil
		s.see(s.Lens())
	}
}

// pictures are the pictures by the names a page gives them.
var pictures = []scene.Picture{scene.All, scene.Shaft, scene.Wheel, scene.Circuit, scene.Chart}

// View shows one picture of the machine, or all of them ("all").
func (s *Session) View(name string) error {
	i := slices.IndexFunc(pictures, func(p scene.Picture) bool { return p.String() == name })
	if i < 0 {
		return refuse("stage.unknown-picture", "picture", name)
	}
	if pictures[i] != s.picture.Picture {
		s.picture.Picture = pictures[i]
		s.scene = nil
		s.Whole()
	}
	return nil
}

// stage is the scene of the machine on the stage, laid out when it is not.
func (s *Session) stage() *scene.Scene {
	if s.scene == nil {
		m := s.machine()
		s.scene = scene.New(m.Plan(), m.Wiring(), s.picture)
	}
	return s.scene
}

// Scene identifies the scene: when it is another one, what stands still has
// to be drawn again.
func (s *Session) Scene() *scene.Scene { return s.stage() }

// Looked grows whenever what moves has to be drawn again.
func (s *Session) Looked() int { return s.looked }

// Still and Moving are the two layers of the picture now, as seen through the
// lens; they stay the session's own.
func (s *Session) Still() *figure.Figure { return s.seen(s.stage().Still(), &s.through[0]) }

// Moving returns what moves, on top of Still.
func (s *Session) Moving() *figure.Figure {
	pace := 0.0
	if s.running {
		pace = s.pace()
	}
	s.stage().Pace(pace)
	return s.seen(s.stage().Moving(s.calm.shown(), s.line().Chart()), &s.through[1])
}

// Choose points out a part. "+" and "-" go to the next and the one before in
// reading order, "" chooses none; a part that is not shown is refused.
func (s *Session) Choose(part string) error {
	parts := s.stage().Parts()
	i := slices.Index(parts, s.picture.Chosen)
	switch part {
	case "":
	case "+":
		part = parts[(i+1)%len(parts)]
	case "-":
		part = parts[(max(i, 0)+len(parts)-1)%len(parts)]
	default:
		if !slices.Contains(parts, part) {
			return refuse("stage.unknown-part", "part", part)
		}
	}
	if part != s.picture.Chosen {
		s.picture.Chosen = part
		s.scene.Choose(part)
		s.looked++
		s.touch()
	}
	return nil
}

// At returns the part under a point of the screen, CSS pixels, "" for none.
func (s *Session) At(x, y float64) string {
	l := s.Lens()
	return s.stage().At(l.X+x/l.Scale, l.Y+y/l.Scale)
}

// A Box is where a part is on the screen, CSS pixels.
type Box struct {
	X0 float64 `json:"x0"`
	Y0 float64 `json:"y0"`
	X1 float64 `json:"x1"`
	Y1 float64 `json:"y1"`
}

// Box returns where a part is seen at this instant.
func (s *Session) Box(part string) (Box, error) {
	x0, y0, x1, y1, ok := s.stage().Box(part)
	if !ok {
		return Box{}, refuse("stage.unknown-part", "part", part)
	}
	l := s.Lens()
	return Box{(x0 - l.X) * l.Scale, (y0 - l.Y) * l.Scale, (x1 - l.X) * l.Scale, (y1 - l.Y) * l.Scale}, nil
}
