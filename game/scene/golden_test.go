package scene

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
	"wheelroom/game/svg"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

// The pictures as files, to be looked at when they change. They are taken
// before anything moves, so that they hang on the drawing and little else.
func TestGolden(t *testing.T) {
	for _, g := range []struct {
		name    string
		floors  int
		seconds float64 // after the highest and the second floor have called
		palette *figure.Palette
		options Options
	}{
		{"at-rest", 3, 0, &figure.Paper, Options{Width: 948, Height: 590}},
		{"called", 6, 0.15, &figure.Slate, Options{Width: 948, Height: 590, Chosen: "direction.2"}},
		{"wheel-of-32", 32, 0, &figure.Paper, Options{Width: 480, Height: 480, Picture: Wheel}},
		{"circuit", 3, 0.15, &figure.Paper, Options{Width: 1280, Height: 800, Picture: Circuit}},
	} {
		t.Run(g.name, func(t *testing.T) {
			p := even(g.floors)
			r := newRide(t, &p, 0)
			if g.seconds > 0 {
				r.m.Press(g.floors - 1)
				r.m.Press(1)
				r.advance(g.seconds)
			}
			g.options.Words = english(t)
			var b bytes.Buffer
			require.NoError(t, svg.Write(&b, whole(New(&p, r.m.Wiring(), g.options), r), g.palette, svg.Options{ID: g.name}))
			path := filepath.Join("testdata", g.name+".svg")
			if *update {
				require.NoError(t, os.MkdirAll("testdata", 0o755))
				require.NoError(t, os.WriteFile(path, b.Bytes(), 0o644))
				return
			}
			want, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.True(t, bytes.Equal(want, b.Bytes()), "%s is drawn otherwise; look at it and run with -update", path)
		})
	}
}
