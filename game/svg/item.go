package svg

import (
	"math"
	"strconv"

	"wheelroom/game/figure"
)

// item writes one mark as one element.
func (p *picture) item(i int) {
	it := &p.f.Items[i]
	at := p.f.Of(it)
	switch it.Shape {
	case figure.Line, figure.Polygon:
		p.poly(it, at)
	case figure.Circle:
		p.circle(at[0], it.Radius)
	case figure.Arc:
		if math.Abs(it.To-it.From) >= 2*math.Pi {
			p.circle(at[0], it.Radius)
		} else {
			p.arc(it, at[0])
		}
	case figure.Box:
		p.box(it, at[0], at[1])
	case figure.Text:
		p.words(it, at[0])
		return
	}
	p.fill(&it.Style)
	p.stroke(it)
	p.part(it)
	p.raw("/>\n")
}

func (p *picture) poly(it *figure.Item, at []figure.Point) {
	if len(at) == 2 && it.Shape == figure.Line {
		p.raw("<line")
		p.number("x1", at[0].X)
		p.number("y1", at[0].Y)
		p.number("x2", at[1].X)
		p.number("y2", at[1].Y)
		return
	}
	if it.Shape == figure.Line {
		p.raw(`<polyline points="`)
	} else {
		p.raw(`<polygon points="`)
	}
	for i, q := range at {
		if i > 0 {
			p.raw(" ")
		}
		p.raw(decimal(q.X) + "," + decimal(q.Y))
	}
	p.raw(`"`)
}

func (p *picture) circle(c figure.Point, radius float64) {
	p.raw("<circle")
	p.number("cx", c.X)
	p.number("cy", c.Y)
	p.number("r", radius)
}

func (p *picture) arc(it *figure.Item, c figure.Point) {
	at := func(angle float64) string {
		sin, cos := math.Sincos(angle)
		return decimal(c.X+it.Radius*cos) + " " + decimal(c.Y+it.Radius*sin)
	}
	long, clockwise := "0", "0"
	if math.Abs(it.To-it.From) > math.Pi {
		long = "1"
	}
	if it.To > it.From {
		clockwise = "1"
	}
	r := decimal(it.Radius)
	p.raw(`<path d="M` + at(it.From) + "A" + r + " " + r + " 0 " + long + " " + clockwise + " " + at(it.To) + `"`)
}

func (p *picture) box(it *figure.Item, a, b figure.Point) {
	p.raw("<rect")
	p.number("x", a.X)
	p.number("y", a.Y)
	p.number("width", b.X-a.X)
	p.number("height", b.Y-a.Y)
	if r := figure.CornerRadius(a, b, it.Radius); r > 0 {
		p.number("rx", r)
	}
}

func (p *picture) words(it *figure.Item, at figure.Point) {
	p.raw("<text")
	p.number("x", at.X)
	p.number("y", at.Y)
	p.number("font-size", it.Size)
	if it.Bold {
		p.raw(` font-weight="700"`)
	}
	switch it.Align {
	case figure.Middle:
		p.raw(` text-anchor="middle"`)
	case figure.End:
		p.raw(` text-anchor="end"`)
	}
	if width := figure.Measure(it.Text, it.Size, it.Bold); width > 0 {
		p.number("textLength", width)
	}
	p.fill(&it.Style)
	p.part(it)
	p.raw(">")
	p.escape(it.Text)
	p.raw("</text>\n")
}

func (p *picture) fill(s *figure.Style) {
	if shaded(s) {
		p.text("fill", "url(#"+p.blendName(p.blendOf(s))+")")
	} else if s.Fill.Role != figure.None {
		p.colour("fill", s.Fill)
	}
}

func (p *picture) stroke(it *figure.Item) {
	s := &it.Style
	if s.Stroke.Role == figure.None || s.Width <= 0 {
		return
	}
	p.colour("stroke", s.Stroke)
	p.number("stroke-width", s.Width)
	if mark, gap := s.Dash.Pattern(s.Width); mark > 0 {
		p.text("stroke-dasharray", decimal(mark)+" "+decimal(gap))
		if s.Phase != 0 {
			p.number("stroke-dashoffset", s.Phase)
		}
	} else if s.Round && (it.Shape == figure.Line || it.Shape == figure.Arc) {
		p.raw(` stroke-linecap="round"`)
	}
	if s.Round && it.Shape != figure.Circle && it.Shape != figure.Arc {
		p.raw(` stroke-linejoin="round"`)
	}
}

func (p *picture) part(it *figure.Item) {
	if p.Parts && it.Part != "" {
		p.text("data-part", it.Part)
	}
}

// colour writes a paint under the name of its attribute, and its opacity where
// it has one.
func (p *picture) colour(name string, paint figure.Paint) {
	c := p.palette.Colour(paint)
	const digits = "0123456789abcdef"
	hex := []byte{'#', 0, 0, 0, 0, 0, 0}
	for i, v := range [...]uint8{c.R, c.G, c.B} {
		hex[1+2*i], hex[2+2*i] = digits[v>>4], digits[v&15]
	}
	p.text(name, string(hex))
	if c.A < 255 {
		if name == "stop-color" {
			name = "stop"
		}
		p.number(name+"-opacity", float64(c.A)/255)
	}
}

func (p *picture) raw(s string) { p.w.WriteString(s) }

func (p *picture) number(name string, v float64) { p.raw(" " + name + `="` + decimal(v) + `"`) }

func (p *picture) text(name, value string) {
	p.raw(" " + name + `="`)
	p.escape(value)
	p.raw(`"`)
}

func (p *picture) escape(s string) {
	for _, r := range s {
		switch r {
		case '&':
			p.raw("&amp;")
		case '<':
			p.raw("&lt;")
		case '>':
			p.raw("&gt;")
		case '"':
			p.raw("&quot;")
		default:
			if r < ' ' {
				r = ' ' // XML has no way to write most control characters
			}
			p.w.WriteRune(r)
		}
	}
}

// decimal writes a length with two decimals at most and no negative zero.
func decimal(v float64) string {
	r := math.Round(v*100) / 100
	if math.IsNaN(r) || math.IsInf(r, 0) {
		panic("svg: a length is not a number")
	}
	if r == 0 {
		r = 0 // not -0
	}
	return strconv.FormatFloat(r, 'f', -1, 64)
}
