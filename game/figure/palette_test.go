package figure

import (
	"fmt"
	"image/color"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestContrastFormula(t *testing.T) {
	white := rgb(0xFFFFFF)
	assert.InDelta(t, 21, Contrast(white, rgb(0)), 1e-9)          // WCAG 2.2, definition: 21:1 at most
	assert.InDelta(t, 4.54, Contrast(rgb(0x767676), white), 0.01) // the lightest grey that passes 4.5 on white; value from memory
	assert.Equal(t, Contrast(white, rgb(0x123456)), Contrast(rgb(0x123456), white))
}

// Texts reach 4.5 and lines 3 (WCAG 2.2, 1.4.3 and 1.4.11) on either ground;
// on a projector all reach 7 (1.4.6). So does what is written on a lamp.
func TestContrastOfPalettes(t *testing.T) {
	texts := []Role{Ink, Muted, Up, Down, Brass, Fault, Call}
	for _, c := range []struct {
		name        string
		p           *Palette
		text, line  float64
		outlineLamp bool
	}{
		{"paper", &Paper, 4.5, 3, true},
		{"slate", &Slate, 4.5, 3, false},
		{"paper projector", &PaperProjector, 7, 7, true},
		{"slate projector", &SlateProjector, 7, 7, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, ground := range []Role{Ground, Panel} {
				for _, r := range texts {
					assert.GreaterOrEqual(t, Contrast(c.p[r], c.p[ground]), c.text, fmt.Sprint("role ", r))
				}
				assert.GreaterOrEqual(t, Contrast(c.p[Steel], c.p[ground]), c.line)
				if !c.outlineLamp {
					assert.GreaterOrEqual(t, Contrast(c.p[Lamp], c.p[ground]), c.line)
				}
			}
			assert.GreaterOrEqual(t, Contrast(c.p[LampInk], c.p[Lamp]), c.text)
		})
	}
}

func TestColour(t *testing.T) {
	for _, c := range []struct {
		name  string
		paint Paint
		want  color.NRGBA
	}{
		{"none", Paint{}, color.NRGBA{}},
		{"none with a mix", Paint{Mix: 1, Alpha: 1}, color.NRGBA{}},
		{"plain", Paint{Role: Up}, color.NRGBA{0x00, 0x5A, 0x92, 255}},
		{"all ground", Paint{Role: Up, Mix: 1}, color.NRGBA{0xF7, 0xF4, 0xEC, 255}},
		{"all ink", Paint{Role: Up, Mix: -1}, color.NRGBA{0x1F, 0x2A, 0x30, 255}},
		{"half ground", Paint{Role: Up, Mix: 0.5}, color.NRGBA{124, 167, 191, 255}}, // (0+247)/2, (90+244)/2, (146+236)/2
		{"half clear", Paint{Role: Up, Alpha: 0.5}, color.NRGBA{0x00, 0x5A, 0x92, 128}},
	} {
		assert.Equal(t, c.want, Paper.Colour(c.paint), c.name)
	}
}
