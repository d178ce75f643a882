package figure

import (
	"image/color"
	"math"
)

// A Palette says how each role looks. Paints are mixed from it.
type Palette [LampInk + 1]color.NRGBA

// The themes. On a projector every ink and accent stands at least 7 to 1
// against the ground; elsewhere texts reach 4.5 and lines 3. The lamp is the
// exception: it is a surface and always outlined in ink.
var (
	Paper = Palette{
		Ground: rgb(0xF7F4EC), Panel: rgb(0xFFFEFA), Ink: rgb(0x1F2A30), Muted: rgb(0x55606A),
		Up: rgb(0x005A92), Down: rgb(0xA34100), Brass: rgb(0x8A5D14), Steel: rgb(0x6B7780),
		Fault: rgb(0x8E2F6F), Call: rgb(0x00664B), Lamp: rgb(0xF0B429), LampInk: rgb(0x1F2A30),
	}
	PaperProjector = Palette{
		Ground: rgb(0xF7F4EC), Panel: rgb(0xFFFEFA), Ink: rgb(0x141C21), Muted: rgb(0x434D56),
		Up: rgb(0x004A7A), Down: rgb(0x853300), Brass: rgb(0x664307), Steel: rgb(0x47525A),
		Fault: rgb(0x7A2360), Call: rgb(0x00513B), Lamp: rgb(0xF0B429), LampInk: rgb(0x141C21),
	}
	Slate = Palette{
		Ground: rgb(0x12191E), Panel: rgb(0x1C252B), Ink: rgb(0xF2EFE6), Muted: rgb(0xB4BDC4),
		Up: rgb(0x6CC1F2), Down: rgb(0xFF9A52), Brass: rgb(0xD9AE5F), Steel: rgb(0x93A0A9),
		Fault: rgb(0xF09AD0), Call: rgb(0x4FD3A6), Lamp: rgb(0xFFD24A), LampInk: rgb(0x12191E),
	}
	SlateProjector = Palette{
		Ground: rgb(0x12191E), Panel: rgb(0x1C252B), Ink: rgb(0xFFFDF6), Muted: rgb(0xC8D0D6),
		Up: rgb(0x84CDF7), Down: rgb(0xFFAE75), Brass: rgb(0xE2BC78), Steel: rgb(0xB3BDC4),
		Fault: rgb(0xF5ADDA), Call: rgb(0x66DDB4), Lamp: rgb(0xFFD24A), LampInk: rgb(0x12191E),
	}
)

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 255}
}

// Colour returns what a paint looks like, mixed in sRGB; transparent for None.
func (p *Palette) Colour(paint Paint) color.NRGBA {
	if paint.Role == None {
		return color.NRGBA{}
	}
	c := p[paint.Role]
	if paint.Mix > 0 {
		c = mix(c, p[Ground], paint.Mix)
	} else if paint.Mix < 0 {
		c = mix(c, p[Ink], -paint.Mix)
	}
	if paint.Alpha > 0 && paint.Alpha < 1 {
		c.A = uint8(math.Round(255 * paint.Alpha))
	}
	return c
}

func mix(a, b color.NRGBA, t float64) color.NRGBA {
	t = min(t, 1)
	m := func(x, y uint8) uint8 { return uint8(math.Round(float64(x) + t*(float64(y)-float64(x)))) }
	return color.NRGBA{R: m(a.R, b.R), G: m(a.G, b.G), B: m(a.B, b.B), A: 255}
}

// Contrast returns the ratio of two opaque colours, 1 to 21, by the formula of
// WCAG 2.2, "contrast ratio".
func Contrast(a, b color.NRGBA) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

// luminance is the relative luminance of WCAG 2.2, 0 to 1.
func luminance(c color.NRGBA) float64 {
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

func linear(v uint8) float64 {
	x := float64(v) / 255
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}
