package figure

import (
	"bytes"
	"flag"
	"fmt"
	"go/format"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"wheelroom/assets/fonts"
)

var update = flag.Bool("update", false, "write the table of glyphs anew")

var digits = []string{"zero.tf", "one.tf", "two.tf", "three.tf", "four.tf", "five.tf", "six.tf", "seven.tf", "eight.tf", "nine.tf"}

// The table is the font's own: every rune it has, figures by their tabular
// forms.
func TestTableEqualsTheFont(t *testing.T) {
	regular, bold := open(t, fonts.Regular), open(t, fonts.Bold)
	want := []glyph{{0, extentIn(t, regular, 0), extentIn(t, bold, 0)}}
	for r := ' '; r < 0x3000; r++ {
		a, b := index(t, regular, r), index(t, bold, r)
		require.Equal(t, a == 0, b == 0, "%q", r)
		if a != 0 {
			want = append(want, glyph{r, extentIn(t, regular, a), extentIn(t, bold, b)})
		}
	}
	if *update {
		write(t, want)
		return
	}
	assert.Equal(t, want, glyphs[:])
}

func TestHeightsEqualTheFont(t *testing.T) {
	for _, data := range [][]byte{fonts.Regular, fonts.Bold} {
		m, err := open(t, data).Metrics(new(sfnt.Buffer), fixed.I(unitsPerEm), font.HintingNone)
		require.NoError(t, err)
		assert.Equal(t, []int{984, 316, 668, 496},
			[]int{m.Ascent.Round(), m.Descent.Round(), m.CapHeight.Round(), m.XHeight.Round()})
	}
	assert.Equal(t, []float64{984. / 1000, 316. / 1000, 668. / 1000, 496. / 1000},
		[]float64{Ascent, Descent, CapHeight, XHeight})
}

func open(t *testing.T, data []byte) *sfnt.Font {
	f, err := sfnt.Parse(data)
	require.NoError(t, err)
	require.EqualValues(t, unitsPerEm, f.UnitsPerEm())
	return f
}

func index(t *testing.T, f *sfnt.Font, r rune) sfnt.GlyphIndex {
	var b sfnt.Buffer
	if '0' <= r && r <= '9' {
		for i := range f.NumGlyphs() {
			if name, _ := f.GlyphName(&b, sfnt.GlyphIndex(i)); name == digits[r-'0'] {
				return sfnt.GlyphIndex(i)
			}
		}
		t.Fatalf("no tabular %c", r)
	}
	i, err := f.GlyphIndex(&b, r)
	require.NoError(t, err)
	return i
}

func extentIn(t *testing.T, f *sfnt.Font, i sfnt.GlyphIndex) extent {
	box, advance, err := f.GlyphBounds(new(sfnt.Buffer), i, fixed.I(unitsPerEm), font.HintingNone)
	require.NoError(t, err)
	return extent{advance.Round(), -box.Max.Y.Round(), -box.Min.Y.Round()}
}

func write(t *testing.T, table []glyph) {
	var b bytes.Buffer
	b.WriteString("// Written by go test -run Table -update; do not edit.\n\npackage figure\n\n")
	b.WriteString("// Atkinson Hyperlegible Next 2.001: the empty box, then its runes in order.\nvar glyphs = [...]glyph{\n")
	for _, g := range table {
		fmt.Fprintf(&b, "{%q,extent{%d,%d,%d},extent{%d,%d,%d}},\n", g.r,
			g.regular.advance, g.regular.low, g.regular.high, g.bold.advance, g.bold.low, g.bold.high)
	}
	b.WriteString("}\n")
	out, err := format.Source(b.Bytes())
	require.NoError(t, err)
	require.NoError(t, os.WriteFile("glyphs.go", out, 0o644))
}
