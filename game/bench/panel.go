package bench

import (
	"math"

	"wheelroom/game/figure"
)

// A Panel is the position lamps as a passenger sees them in the car, one
// brightness for each, 0 to 1, from the lowest floor up.
type Panel struct {
	Title      string
	Brightness []float64
}

// Panels draws one panel, or several side by side; under 30 ems each they
// stand one beneath the other. names are the floors', the lowest first.
func Panels(panels []Panel, names []string, width float64, words Words) *figure.Figure {
	f := &figure.Figure{}
	k := newInks(width)
	em := k.em
	across := 1
	if width >= 30*em*float64(len(panels)) {
		across = len(panels)
	}
	gap := 1.2 * em
	each := (width - gap*float64(across+1)) / float64(across)

	// Lamps as large as there is room, in as few rows as that allows.
	cell, perRow := 0.0, 1
	for rows := 1; rows <= 4; rows++ {
		n := (len(names) + rows - 1) / rows
		if c := math.Min((each-1.6*em)/(1.14*float64(n)), 5*em); c > cell*1.3 {
			cell, perRow = c, n
		}
	}
	rows := (len(names) + perRow - 1) / perRow
	tall := 2.6*em + float64(rows)*1.14*cell + 1.2*em
	down := (len(panels) + across - 1) / across
	f.Reset(width, math.Ceil(gap+float64(down)*(tall+gap)))
	for i, p := range panels {
		x := gap + float64(i%across)*(each+gap)
		y := gap + float64(i/across)*(tall+gap)
		f.Box(sheet(mixed(figure.Steel, 0.72), solid(figure.Ink), k.thin), x, y, x+each, y+tall, 0.6*em)
		f.Text(solid(figure.Ink), figure.Face{Size: em, Bold: true, Align: figure.Middle}, x+each/2, y+1.8*em, p.Title)
		left := x + (each-1.14*cell*float64(perRow))/2 + 0.07*cell
		for fl, b := range p.Brightness {
			cx := left + 1.14*cell*float64(fl%perRow)
			// The lowest floors stand in the lowest row.
			cy := y + 2.6*em + 1.14*cell*float64(rows-1-fl/perRow)
			lampCell(f, &k, cx, cy, cell, b, names[fl])
		}
	}
	return f
}

// lampCell is one lamp behind its glass: as bright as its filament, always
// outlined, the name in ink that can be read on it.
func lampCell(f *figure.Figure, k *inks, x, y, side, b float64, name string) {
	b = math.Max(0, math.Min(1, b))
	first := len(f.Items)
	f.Box(sheet(solid(figure.Panel), solid(figure.Ink), k.thin), x, y, x+side, y+side, 0.12*side)
	if b > 0.005 {
		glow := figure.Paint{Role: figure.Lamp, Alpha: b}
		if b > 0.995 {
			glow.Alpha = 0
		}
		f.Box(sheet(glow, solid(figure.Ink), k.thin+1.4*k.thin*b), x, y, x+side, y+side, 0.12*side)
	}
	em := math.Min(0.52*side, 0.8*side/math.Max(figure.Measure(name, 1, true), 0.5))
	ink := solid(figure.Muted)
	if b > 0.4 {
		ink = solid(figure.LampInk)
	}
	f.Text(ink, figure.Face{Size: em, Bold: true, Align: figure.Middle}, x+side/2, middle(y+side/2, em), name)
	f.Mark(first, lampPart(name))
}
