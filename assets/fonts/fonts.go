// Package fonts holds Atkinson Hyperlegible Next, regular and bold, Latin
// subset, version 2.001, under the SIL Open Font License (OFL.txt).
//
// The TTF files are for the canvas: the same glyphs as the woff2 files, in the
// one format that golang.org/x/image reads. The woff2 files are for the page
// and for pictures that carry their own type. The font has no arrows, no
// triangles, no ≥ and no Σ.
package fonts

import _ "embed"

// The two weights as TrueType.
var (
	//go:embed regular.ttf
	Regular []byte
	//go:embed bold.ttf
	Bold []byte
)

// The two weights compressed for the web.
var (
	//go:embed regular.woff2
	RegularWeb []byte
	//go:embed bold.woff2
	BoldWeb []byte
)

// Licence is the text of the SIL Open Font License with the copyright line.
//
//go:embed OFL.txt
var Licence string
