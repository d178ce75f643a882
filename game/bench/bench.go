// Package bench draws the selector's ring by itself and what a passenger sees
// of it: the ring as it is, the ring unrolled along the travel, the lamps of a
// trip against time, and the panel in the car.
//
// Each drawing is as wide as it is asked to be and as high as it needs to be.
// Marks carry the part they show: "terminal.7", "lamp.3", "brush".
package bench

import (
	"math"
	"strconv"
	"strings"

	"wheelroom/game/figure"
	"wheelroom/game/svg"
	"wheelroom/physics/phrase"
)

// Words puts a phrase into words.
type Words func(phrase.Phrase) string

func (w Words) say(id string, slots ...any) string { return w(phrase.Of("bench."+id, slots...)) }

// figure spells a quantity as the language does.
func (w Words) number(v float64, decimals int) string {
	return w.say("figure", "figure", phrase.Num(v, decimals))
}

// SVG writes a drawing for a page or a file. The title is read out instead of
// it; id begins every id in it, so that one page can hold several.
func SVG(f *figure.Figure, palette *figure.Palette, id, title string) string {
	var b strings.Builder
	if err := svg.Write(&b, f, palette, svg.Options{ID: id, Title: title, Parts: true}); err != nil {
		panic("bench: a builder cannot fail: " + err.Error())
	}
	return b.String()
}

// inks are the measures of a drawing by its width, as the plots have them.
type inks struct{ em, small, hair, thin, thick float64 }

func newInks(width float64) inks {
	k := math.Max(0, math.Min(1, (width-480)/1120))
	em := 13 + 4*k
	return inks{em: em, small: 0.88 * em, hair: 0.8 + 0.3*k, thin: 1.3 + 0.5*k, thick: 2.6 + k}
}

func solid(r figure.Role) figure.Paint            { return figure.Paint{Role: r} }
func mixed(r figure.Role, m float64) figure.Paint { return figure.Paint{Role: r, Mix: m} }
func line(p figure.Paint, w float64) figure.Style { return figure.Style{Stroke: p, Width: w} }

func sheet(fill, edge figure.Paint, w float64) figure.Style {
	return figure.Style{Fill: fill, Stroke: edge, Width: w}
}

// middle is the base line of a text whose capitals are centred on y.
func middle(y, em float64) float64 { return y + em*figure.CapHeight/2 }

func polar(x, y, r, a float64) figure.Point {
	sin, cos := math.Sincos(a)
	return figure.Point{X: x + r*cos, Y: y + r*sin}
}

func terminalPart(i int) string    { return "terminal." + strconv.Itoa(i) }
func lampPart(floor string) string { return "lamp." + floor }

// every returns how many neighbours to skip so that labels of a width fit at a
// distance: 1 labels all, then 2, 5, 10 and so on.
func every(width, apart float64) int {
	for n := 1; ; n *= 10 {
		for _, k := range [...]int{1, 2, 5} {
			if float64(n*k)*apart >= width {
				return n * k
			}
		}
	}
}

// tick returns an even step of an axis such that so many ticks at most fall
// within a range: 1, 2 or 5 and a power of ten, and its decimals.
func tick(span float64, most int) (step float64, decimals int) {
	step, decimals = 0.01, 2
	for i := 0; span/step > float64(most); i++ {
		step *= [...]float64{2, 2.5, 2}[i%3]
		if step > 0.095 {
			decimals = 1
		}
		if step > 0.95 {
			decimals = 0
		}
	}
	return step, decimals
}
