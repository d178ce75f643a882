// Package figure is a drawing as plain data: what game/scene composes,
// game/paint puts on the screen and game/svg writes into a file.
//
// Logical units, x right, y down, origin at the top left. An item carries its
// whole style; there is no current colour and no stack of transforms. Items
// are drawn in the order they were added. A figure may be Reset and filled
// again sixty times a second without allocating.
package figure

// Point is a place in the drawing, logical units.
type Point struct{ X, Y float64 }

// Role says what a colour means; a Palette says how it looks. The zero role
// paints nothing.
type Role uint8

// The roles, one meaning each.
const (
	None   Role = iota
	Ground      // the paper
	Panel       // a raised sheet on the paper
	Ink
	Muted
	Up
	Down
	Brass
	Steel
	Fault
	Call
	Lamp
	LampInk // what is written on a lamp: dark in every theme
)

// Paint is a role, moved towards the ground (Mix > 0, to 1) or towards ink
// (Mix < 0, to -1). Alpha 0 means opaque; otherwise 0 < Alpha <= 1.
type Paint struct {
	Role  Role
	Mix   float64
	Alpha float64
}

// Dash is the rhythm of a line.
type Dash uint8

// The dashes. Down wires are Dashed, guides to the eye Dotted.
const (
	Solid Dash = iota
	Dashed
	Dotted
)

// A Style is how an item is filled and stroked. A Fill with a Shade is a
// linear gradient across the item's Frame, from Fill at its top left to Shade at
// its bottom right. Joins are mitred, up to MitreLimit.
type Style struct {
	Fill, Shade Paint
	Stroke      Paint
	Width       float64 // of the stroke, logical units
	Dash        Dash
	Phase       float64 // where in the rhythm a dashed line begins, logical units
	Round       bool    // round joins, and round caps on an open solid line
	Glide       bool    // moves smoothly: paint does not settle it on whole pixels
}

// MitreLimit is the longest mitre, in widths of the line; a sharper corner is
// bevelled. It is SVG's own default.
const MitreLimit = 4

// Shape is the kind of an item.
type Shape uint8

// The shapes. Line is open, Polygon closed and free of crossings; Circle has
// one point and Radius; Arc has one point, Radius and the angles From and To in
// radians, clockwise as seen, 0 to the right, and runs backwards where To is
// less than From; Box has two opposite corners and the corner Radius; Text
// stands at one point and is painted with Fill. A filled Line or Arc is closed
// by a straight edge for the filling only.
const (
	Line Shape = iota
	Polygon
	Circle
	Arc
	Box
	Text
)

// Align is where a text's point lies in it: start, middle or end of its
// base line.
type Align uint8

// The alignments.
const (
	Start Align = iota
	Middle
	End
)

// An Item is one mark of the drawing.
type Item struct {
	Shape    Shape
	Style    Style
	At       int // first point, an index into Figure.Points
	N        int // number of points
	Radius   float64
	From, To float64
	Text     string
	Size     float64 // of a text: its em, logical units
	Bold     bool
	Align    Align
	Part     string // the machine's part this mark shows; "" for none
}

// A Figure is a drawing of a given size.
type Figure struct {
	Width, Height float64
	Items         []Item
	Points        []Point
}

// Reset empties the figure and keeps its storage.
func (f *Figure) Reset(width, height float64) {
	f.Width, f.Height = width, height
	f.Items, f.Points = f.Items[:0], f.Points[:0]
}
