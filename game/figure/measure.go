package figure

import (
	"sort"
	"unicode/utf8"
)

// Texts are set in Atkinson Hyperlegible Next without kerning and with its
// tabular figures, so that the width of a text is the sum of its advances on
// every output and a changing number does not dance.

// Heights of the face in ems: a line's reach above and below its base line,
// the height of capitals and figures, and of small letters.
const (
	Ascent    = 0.984
	Descent   = 0.316
	CapHeight = 0.668
	XHeight   = 0.496
)

// Measure returns the width of a text, in the unit of size. A rune the face
// lacks counts as the face's empty box.
func Measure(text string, size float64, bold bool) float64 {
	sum := 0
	for _, r := range text {
		sum += extentOf(r, bold).advance
	}
	return float64(sum) * size / unitsPerEm
}

// Advance returns how far a rune moves the pen, in ems.
func Advance(r rune, bold bool) float64 { return float64(extentOf(r, bold).advance) / unitsPerEm }

// Missing returns the first rune of the text that the face lacks, or
// utf8.RuneError and false when it has them all.
func Missing(text string) (rune, bool) {
	for _, r := range text {
		if _, ok := glyphIndex(r); !ok {
			return r, true
		}
	}
	return utf8.RuneError, false
}

// An extent is a glyph's advance and the reach of its ink below (negative) and
// above the base line, font units.
type extent struct{ advance, low, high int }

// A glyph is a rune with its extents in both weights.
type glyph struct {
	r             rune
	regular, bold extent
}

const unitsPerEm = 1000

func extentOf(r rune, bold bool) extent {
	i, _ := glyphIndex(r)
	if bold {
		return glyphs[i].bold
	}
	return glyphs[i].regular
}

// glyphIndex finds a rune in the table; 0, the empty box, where it is absent.
func glyphIndex(r rune) (int, bool) {
	// The table begins with the box, then ASCII from the space on.
	if ' ' <= r && r <= '~' {
		return int(r-' ') + 1, true
	}
	i := sort.Search(len(glyphs), func(i int) bool { return glyphs[i].r >= r })
	if i < len(glyphs) && glyphs[i].r == r {
		return i, i > 0
	}
	return 0, false
}
