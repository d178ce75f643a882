// Package plot draws curves over a common axis, and causes in a row, as
// figures: data for game/svg and game/paint like any other drawing.
//
// Logical units are CSS pixels. A sheet is laid out for the width it will be
// shown at, so that its type keeps its size on a narrow page and on a wide
// one. A curve is known by the style of its line and by its word in the
// legend, never by colour alone. The package knows nothing of lifts and no
// words of its own: every text is handed in.
package plot

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/physics/phrase"
)

// An Axis is one direction of a panel. Lo and Hi bound it; where both are 0
// the curves do.
type Axis struct {
	Label  string // with its unit: "Speed, m/s"
	Lo, Hi float64
	Zero   bool // zero is always on it
}

// A Pen is how a curve is drawn.
type Pen struct {
	Role  figure.Role
	Heavy bool // a thick line
	Dash  figure.Dash
	Dots  bool // a mark at every point
	Sign  Sign // of those
	Alone bool // no line, marks only: with Dots
}

// A Curve is a line through points of growing time. A NaN breaks it. Curves
// with the same name are one entry of the legend; "" is none.
type Curve struct {
	Name  string
	X, Y  []float64
	Pen   Pen
	Heads []int // points at which an arrowhead shows which way it runs
}

// Sign is the shape of a mark.
type Sign uint8

// The signs.
const (
	Disc Sign = iota
	Square
	Triangle
	Diamond
	Bare // none: a text alone
)

// A Mark is a point of a curve that has a meaning of its own. Marks with the
// same name are one entry of the legend.
type Mark struct {
	Name string
	Text string // beside it; "" for none
	Over bool   // the text above the point rather than below
	X, Y float64
	Sign Sign
	Role figure.Role
}

// A Guide is a straight line across a panel, at one value, with its words.
type Guide struct {
	At       float64
	Text     string
	Vertical bool
	Role     figure.Role
	Dash     figure.Dash
}

// A Band is a range of values of the panel's own axis, tinted; its name stands
// in the legend.
type Band struct {
	Name     string
	From, To float64
	Role     figure.Role
}

func (b *Band) tint() figure.Paint { return figure.Paint{Role: b.Role, Alpha: 0.14} }

// A Panel is one plot of a sheet.
type Panel struct {
	Y      Axis
	Height float64 // logical units of the plot itself; 0 for a usual one
	Curves []Curve
	Marks  []Mark
	Guides []Guide
	Bands  []Band
	Part   string
}

// A Sheet is panels above one another on one axis that runs to the right.
type Sheet struct {
	Width  float64 // logical units, from 320 up
	X      Axis
	Panels []Panel
	Number func(phrase.Number) string // how the language writes a number; nil for the plain way
}

// A Frame is where a panel came to lie and what its edges stand for, so that a
// page may move a point over it.
type Frame struct {
	X0 float64 `json:"x0"` // left and right edge
	X1 float64 `json:"x1"`
	Y0 float64 `json:"y0"` // upper and lower edge
	Y1 float64 `json:"y1"`

	Left  float64 `json:"left"` // values there
	Right float64 `json:"right"`
	Upper float64 `json:"upper"`
	Lower float64 `json:"lower"`
}

// At returns where a pair of values lies.
func (f *Frame) At(x, y float64) figure.Point {
	return figure.Point{
		X: f.X0 + (x-f.Left)/(f.Right-f.Left)*(f.X1-f.X0),
		Y: f.Y1 + (y-f.Lower)/(f.Upper-f.Lower)*(f.Y0-f.Y1),
	}
}

// type sizes by the width of the sheet: no larger step than the eye needs.
type inks struct {
	em                     float64
	hair, thin, thick, dot float64
}

func newInks(width float64) inks {
	k := math.Max(0, math.Min(1, (width-480)/1120))
	return inks{em: 13 + 4*k, hair: 0.8 + 0.3*k, thin: 1.5 + 0.7*k, thick: 3.2 + 1.4*k, dot: 3.2 + 1.3*k}
}

func solid(r figure.Role) figure.Paint            { return figure.Paint{Role: r} }
func mixed(r figure.Role, m float64) figure.Paint { return figure.Paint{Role: r, Mix: m} }

// middle is the base line of a text whose capitals are centred on y.
func middle(y, em float64) float64 { return y + em*figure.CapHeight/2 }
