// Package rungs draws a whole control circuit the way a fitter's diagram shows
// it: every branch a numbered line of its own, from the conductor it leaves to
// the one it ends on, with every contact, coil, lamp and joint in it.
//
// Logical units, x right, y down. A Sheet is laid out once for a wiring and a
// width; it may come out wider, where a line has no room, and is as high as
// its lines need. Joints within a line are named by the line's number and
// their own, "14.2"; those between lines are the conductors.
//
// The package knows no colours, only roles. It leaves out the power circuit.
package rungs

import (
	"strconv"
	"strings"

	"wheelroom/game/figure"
	"wheelroom/game/scene"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/relay"
)

// Sizes of the drawing, logical units.
const (
	em     = 13.0 // of its labels
	reach  = 9.0  // half a contact
	lead   = 8.0  // before and behind pieces side by side
	number = 30.0 // room of the line's number
	gap    = 12.0 // between a conductor's name and the line
	apart  = 9.0  // between two lines
	wrap   = 12.0 // between the parts of a line that is folded
)

// A Sheet is the drawing of one circuit. Make it with New.
type Sheet struct {
	wiring *control.Wiring
	words  func(phrase.Phrase) string
	lines  []line
	spots  []Spot
	names  map[relay.Node]string
	joints map[relay.Node]point // the first place of every node
	meet   map[relay.Node]int   // how many leaves hang on it
	boxes  []rect               // by leaf
	axes   []float64            // by leaf: the height of its wire
	x0, x1 float64              // where the lines begin and end
	size   point
}

type point struct{ x, y float64 }
type rect struct{ x0, y0, x1, y1 float64 }

// A Spot is a place one can point at: a leaf of the wiring, or a node of its
// network.
type Spot struct {
	Leaf, Node     int // -1 for the other kind
	X0, Y0, X1, Y1 float64
}

// Options say how wide a sheet is to be and what of the circuit it shows.
type Options struct {
	Width float64
	Floor int // only the lines of this floor and those of no floor; -1 for all
	Words func(phrase.Phrase) string
}

// A line is one branch.
type line struct {
	branch     int
	body       piece
	folds      [][]piece // its pieces in series, part by part
	up, down   float64
	parts      []float64 // axes of its parts
	from, to   string
	start, end relay.Node
}

// New lays a circuit out.
func New(w *control.Wiring, o Options) *Sheet {
	s := &Sheet{wiring: w, words: o.Words, names: map[relay.Node]string{}, joints: map[relay.Node]point{}, meet: map[relay.Node]int{}, boxes: make([]rect, len(w.Leaves)), axes: make([]float64, len(w.Leaves))}
	if s.words == nil {
		s.words = phrase.Phrase.String
	}
	s.name()
	s.lay(o)
	return s
}

// name names every node: conductors by what they are, joints by their line.
func (s *Sheet) name() {
	d := s.wiring.Diagram
	for i := range d.Branches {
		for _, bus := range []control.Bus{d.Branches[i].From, d.Branches[i].To} {
			if n := s.wiring.Node(bus); s.names[n] == "" {
				s.names[n] = s.busName(bus)
			}
		}
	}
	branch, count := -1, 0
	for i := range s.wiring.Leaves {
		l := &s.wiring.Leaves[i]
		if l.Branch != branch {
			branch, count = l.Branch, 0
		}
		for _, n := range []relay.Node{l.From, l.To} {
			s.meet[n]++
			if s.names[n] == "" {
				count++
				s.names[n] = strconv.Itoa(branch+1) + "." + strconv.Itoa(count)
			}
		}
	}
}

// busName is a conductor in words.
func (s *Sheet) busName(b control.Bus) string {
	kind, rest, of := strings.Cut(string(b), ".")
	if f, err := strconv.Atoi(rest); of && err == nil && f < len(s.wiring.Diagram.Floors) {
		return s.words(phrase.Of("circuit.bus-"+kind, "floor", s.wiring.Diagram.Floors[f]))
	}
	return s.words(phrase.Of("circuit.bus-" + kind))
}

// Node names a node of the network.
func (s *Sheet) Node(n relay.Node) string { return s.names[n] }

// Line is the number of the line a leaf stands in, from 1.
func (s *Sheet) Line(leaf int) int { return s.wiring.Leaves[leaf].Branch + 1 }

// Label is the name of a leaf as the drawing bears it.
func (s *Sheet) Label(leaf int) string { return scene.Label(s.words, s.wiring.Leaves[leaf].Part()) }

// Spots returns every place one can point at, in the order of the lines.
func (s *Sheet) Spots() []Spot { return s.spots }

// Size returns width and height.
func (s *Sheet) Size() (width, height float64) { return s.size.x, s.size.y }

// Marks are what a drawing points out besides the current.
type Marks struct {
	Path     []int // leaves in the order in which current passes them
	Blockers []int // open contacts that have to close
	Leaf     int   // the one that is asked about; -1 for none
	Probes   []int // nodes on which a probe stands, -1 for none; the first is to be read against the second
	Joints   bool  // joints of two pieces, which only a probe has use for
}

// Draw returns the circuit as it stands.
func (s *Sheet) Draw(v *lift.View, m Marks) *figure.Figure {
	f := &figure.Figure{}
	f.Reset(s.size.x, s.size.y)
	p := &pen{s: s, f: f, v: v, joints: m.Joints, live: make([]bool, len(s.wiring.Leaves))}
	for i := range p.live {
		p.live[i] = i < len(v.Amperes) && (v.Amperes[i] > liveA || v.Amperes[i] < -liveA)
	}
	p.glow(m)
	for i := range s.lines {
		p.line(&s.lines[i])
	}
	p.marks(m)
	return f
}

// liveA is the least current drawn as flowing, ampere: under a lamp's, over
// what an open contact leaks.
const liveA = 0.004
