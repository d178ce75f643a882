package stage

import "github.com/hajimehoshi/ebiten/v2"

// A pointer is the mouse or the first finger. Resting on a part chooses it; a
// press on a landing's button calls the lift.
type pointer struct {
	x, y    int
	down    bool
	touches []ebiten.TouchID
}

// follow looks where the pointer is. A pointer that has not moved chooses
// nothing, so that keys and lists may choose beside it.
func (p *pointer) follow(s *Stage) {
	x, y := ebiten.CursorPosition()
	down := ebiten.IsMouseButtonPressed(ebiten.MouseButtonLeft)
	p.touches = ebiten.AppendTouchIDs(p.touches[:0])
	if len(p.touches) > 0 {
		x, y = ebiten.TouchPosition(p.touches[0])
		down = true
	}
	pressed := down && !p.down
	moved := x != p.x || y != p.y
	p.down = down
	if !pressed && !moved {
		return
	}
	p.x, p.y = x, y
	if x < 0 || y < 0 || x >= s.width || y >= s.height {
		return
	}
	part := s.session.At(float64(x)/s.scale(), float64(y)/s.scale())
	if part == "" && !pressed {
		return
	}
	// The scene knows every part it has shown, so neither can be refused but
	// for a reason the page need not hear: nothing there to press.
	_ = s.session.Choose(part)
	if pressed {
		_ = s.session.Press()
	}
}
