// Package svg writes a figure as a picture in SVG: for printed sheets, for the
// page where no canvas runs and for documents. The output is the same byte for
// byte for the same figure; lengths have at most two decimals.
//
// Only presentation attributes are used unless the fonts are put in, so that a
// picture inside a page needs no style of its own and no exception from a
// strict content policy. Each text keeps the width it was measured with, by
// textLength, whatever face a reader has and whether it kerns or not.
package svg

import (
	"bufio"
	"encoding/base64"
	"fmt"
	"io"
	"strconv"

	"wheelroom/game/figure"
)

// Options are what a picture carries besides its marks; the zero value is a
// bare picture on its own ground.
type Options struct {
	Title, Desc string // read out instead of the picture; "" leaves them out
	ID          string // begins every id in the file: give each picture of one page its own
	Parts       bool   // write each mark's part as data-part
	Bare        bool   // no ground: transparent where nothing is drawn

	// Fonts as woff2. Given, the picture carries the weights it needs and
	// looks the same where the face is not installed.
	Regular, Bold []byte
}

const family = "'Atkinson Hyperlegible Next','Atkinson Hyperlegible',Verdana,'DejaVu Sans',sans-serif"

// Write writes the figure in the palette's colours. Its errors are those of w.
func Write(w io.Writer, f *figure.Figure, palette *figure.Palette, options Options) error {
	p := picture{w: bufio.NewWriter(w), f: f, palette: palette, Options: options}
	p.open()
	p.style()
	p.gradients()
	if !options.Bare {
		p.raw(`<rect`)
		p.number("width", f.Width)
		p.number("height", f.Height)
		p.colour("fill", figure.Paint{Role: figure.Ground})
		p.raw("/>\n")
	}
	for i := range f.Items {
		p.item(i)
	}
	p.raw("</svg>\n")
	return p.w.Flush()
}

// A picture is one file being written.
type picture struct {
	Options
	w       *bufio.Writer
	f       *figure.Figure
	palette *figure.Palette
	blends  []blend
}

// A blend is a gradient, written once for all marks that use it.
type blend struct{ from, to figure.Paint }

func (p *picture) open() {
	p.raw(`<svg xmlns="http://www.w3.org/2000/svg"`)
	p.number("width", p.f.Width)
	p.number("height", p.f.Height)
	fmt.Fprintf(p.w, ` viewBox="0 0 %s %s"`, decimal(p.f.Width), decimal(p.f.Height))
	p.text("font-family", family)
	p.raw(` font-variant="tabular-nums" text-rendering="geometricPrecision" fill="none"`)
	if p.Title == "" {
		p.raw(" aria-hidden=\"true\">\n")
		return
	}
	p.raw(` role="img"`)
	names := p.ID + "title"
	if p.Desc != "" {
		names += " " + p.ID + "desc"
	}
	p.text("aria-labelledby", names)
	p.raw(">\n")
	p.named("title", p.Title)
	if p.Desc != "" {
		p.named("desc", p.Desc)
	}
}

func (p *picture) named(tag, text string) {
	p.raw("<" + tag)
	p.text("id", p.ID+tag)
	p.raw(">")
	p.escape(text)
	p.raw("</" + tag + ">\n")
}

// style puts in the weights that the figure's texts use.
func (p *picture) style() {
	var used [2]bool
	for i := range p.f.Items {
		if it := &p.f.Items[i]; it.Shape == figure.Text {
			used[weight(it.Bold)] = true
		}
	}
	if used[0] && p.Regular == nil || used[1] && p.Bold == nil || used == [2]bool{} {
		return
	}
	p.raw("<style>text{font-variant-numeric:tabular-nums;font-kerning:none}\n")
	for i, data := range [...][]byte{p.Regular, p.Bold} {
		if used[i] {
			fmt.Fprintf(p.w, "@font-face{font-family:'Atkinson Hyperlegible Next';font-weight:%d;src:url(data:font/woff2;base64,%s)}\n",
				400+300*i, base64.StdEncoding.EncodeToString(data))
		}
	}
	p.raw("</style>\n")
}

func weight(bold bool) int {
	if bold {
		return 1
	}
	return 0
}

// gradients collects and writes the blends in order of first use.
func (p *picture) gradients() {
	for i := range p.f.Items {
		s := &p.f.Items[i].Style
		if !shaded(s) || p.blendOf(s) >= 0 {
			continue
		}
		if len(p.blends) == 0 {
			p.raw("<defs>\n")
		}
		p.raw(`<linearGradient`)
		p.text("id", p.blendName(len(p.blends)))
		p.raw(` x2="1" y2="1">`)
		p.stop("0", s.Fill)
		p.stop("1", s.Shade)
		p.raw("</linearGradient>\n")
		p.blends = append(p.blends, blend{s.Fill, s.Shade})
	}
	if len(p.blends) > 0 {
		p.raw("</defs>\n")
	}
}

func (p *picture) stop(offset string, paint figure.Paint) {
	p.raw(`<stop offset="` + offset + `"`)
	p.colour("stop-color", paint)
	p.raw("/>")
}

func shaded(s *figure.Style) bool {
	return s.Fill.Role != figure.None && s.Shade.Role != figure.None
}

func (p *picture) blendOf(s *figure.Style) int {
	for i, b := range p.blends {
		if b == (blend{s.Fill, s.Shade}) {
			return i
		}
	}
	return -1
}

func (p *picture) blendName(i int) string { return p.ID + "blend" + strconv.Itoa(i+1) }
