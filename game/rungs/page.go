package rungs

import (
	"wheelroom/game/figure"
	"wheelroom/physics/lift"
)

// Sizes of what stands around the circuit on a page, logical units.
const (
	titleEm = 1.4 * em
	margin  = em
)

// Around is what a page says besides the circuit, in words.
type Around struct {
	Title string // above it
	Lead  string // under the title
	Foot  string // below the circuit
}

// Page returns the circuit as it stands as a sheet that can do without the
// program.
func (s *Sheet) Page(v *lift.View, a Around) *figure.Figure {
	width, height := s.Size()
	title := paragraph{a.Title, figure.Face{Size: titleEm, Bold: true}, figure.Ink}
	lead := paragraph{a.Lead, figure.Face{Size: em}, figure.Ink}
	foot := paragraph{a.Foot, figure.Face{Size: em}, figure.Muted}
	room := width - 2*margin
	top := margin + title.height(room) + lead.height(room) + margin
	below := margin + foot.height(room) + margin
	f := &figure.Figure{}
	f.Window(s.Draw(v, Marks{Leaf: -1}), figure.Rect{Y0: -top, X1: width, Y1: height + below}, 1)
	y := title.set(f, margin, room)
	lead.set(f, y, room)
	foot.set(f, top+height+margin, room)
	return f
}

// A paragraph is a text that wraps.
type paragraph struct {
	text string
	face figure.Face
	role figure.Role
}

// leading is the height of a line of text, its letters being 1.
const leading = 1.35

func (p paragraph) lines(room float64) []string {
	return figure.Wrap(p.text, p.face.Size, room, p.face.Bold)
}

func (p paragraph) height(room float64) float64 {
	return float64(len(p.lines(room))) * leading * p.face.Size
}

// set writes the paragraph from y down and returns where it ends.
func (p paragraph) set(f *figure.Figure, y, room float64) float64 {
	for _, l := range p.lines(room) {
		f.Text(ink(p.role), p.face, margin, y+p.face.Size, l)
		y += leading * p.face.Size
	}
	return y
}
