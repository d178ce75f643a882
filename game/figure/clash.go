package figure

import "fmt"

// A Clash is a text that another mark comes too near.
type Clash struct {
	Text, Other *Item
	At          Rect // the text
}

// String names both marks and the place, for a failing test.
func (c Clash) String() string {
	other := fmt.Sprintf("a mark of part %q", c.Other.Part)
	if c.Other.Shape == Text {
		other = fmt.Sprintf("text %q", c.Other.Text)
	}
	return fmt.Sprintf("text %q at %.1f, %.1f is touched by %s", c.Text.Text, c.At.X0, c.At.Y1, other)
}

// Clashes returns every text that another text, a line or an edge comes nearer
// to than gap, or that a later fill hides, in drawing order. An opaque fill
// under the whole text takes away what was drawn before it.
func (f *Figure) Clashes(gap float64) []Clash {
	edges := make([][]Point, len(f.Items))
	closed := make([]bool, len(f.Items))
	for i := range f.Items {
		edges[i], closed[i] = f.Outline(&f.Items[i], 0.25, nil)
	}
	var found []Clash
	for i := range f.Items {
		text := &f.Items[i]
		if text.Shape != Text || text.Text == "" {
			continue
		}
		at := f.ink(text)
		first := 0
		for j := i - 1; j >= 0 && first == 0; j-- {
			if f.Items[j].Style.opaque() && covers(edges[j], at) {
				first = j
			}
		}
		for j := first; j < len(f.Items); j++ {
			other := &f.Items[j]
			switch {
			case j == i || !other.Style.visible():
			case other.Shape == Text:
				// Of two texts the later one is named once.
				if j < i && other.Text != "" && at.Grow(gap).Overlaps(f.ink(other)) {
					found = append(found, Clash{text, other, at})
				}
			case touches(edges[j], closed[j], at.Grow(gap+other.Style.reach())),
				j > i && other.Style.Fill.Role != None && covers(edges[j], at):
				found = append(found, Clash{text, other, at})
			}
		}
	}
	return found
}

func (s *Style) visible() bool {
	return s.Fill.Role != None || s.Stroke.Role != None && s.Width > 0
}

func (s *Style) opaque() bool {
	return s.Fill.Role != None && (s.Fill.Alpha == 0 || s.Fill.Alpha >= 1)
}

// covers tells whether an outline holds the whole rectangle.
func covers(edge []Point, r Rect) bool {
	return len(edge) > 2 && inside(edge, r.X0, r.Y0) && !touches(edge, true, r)
}
