package main

import (
	"fmt"
	"strings"

	"wheelroom/game/figure"
)

// colours are the roles a style sheet names, in the order of the palette.
var colours = []struct {
	name string
	role figure.Role
}{
	{"ground", figure.Ground}, {"panel", figure.Panel}, {"ink", figure.Ink}, {"muted", figure.Muted},
	{"up", figure.Up}, {"down", figure.Down}, {"brass", figure.Brass}, {"steel", figure.Steel},
	{"fault", figure.Fault}, {"call", figure.Call}, {"lamp", figure.Lamp},
}

// palette writes the style sheet of the themes from the palettes of the
// drawing, so that page and picture cannot come apart.
func (s *site) palette() error {
	var b strings.Builder
	paper, slate := colourRules("light", &figure.Paper), colourRules("dark", &figure.Slate)
	fmt.Fprintf(&b, ":root {%s}\n", paper)
	fmt.Fprintf(&b, ":root[data-theme=\"slate\"] {%s}\n", slate)
	// With no script there is no data-theme: follow the reader's own setting.
	fmt.Fprintf(&b, "@media (prefers-color-scheme: dark) {\n:root:not([data-theme]) {%s}\n}\n", slate)
	fmt.Fprintf(&b, ":root:is([data-view=\"lecture\"], [data-view=\"exhibit\"]) {%s}\n", colourRules("light", &figure.PaperProjector))
	fmt.Fprintf(&b, ":root:is([data-view=\"lecture\"], [data-view=\"exhibit\"])[data-theme=\"slate\"] {%s}\n", colourRules("dark", &figure.SlateProjector))
	return s.write("style/palette.css", []byte(b.String()))
}

func colourRules(scheme string, p *figure.Palette) string {
	var b strings.Builder
	fmt.Fprintf(&b, "\n  color-scheme: %s;\n", scheme)
	for _, c := range colours {
		k := p[c.role]
		fmt.Fprintf(&b, "  --%s: #%02X%02X%02X;\n", c.name, k.R, k.G, k.B)
	}
	return b.String()
}
