package machineroom

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"fmt"
	"wheelroom/game/figure"
	"wheelroom/physics/lift"
	"wheelroom/physics/study"
	"wheelroom/physics/study/winding"
)

func TestPreview(t *testing.T) {
	dir := os.Getenv("SHOTS")
	if dir == "" {
		t.Skip()
	}
	for _, w := range []float64{360, 640, 1100, 1600} {
		for name, pal := range map[string]*figure.Palette{"paper": &figure.Paper, "slate": &figure.Slate} {
			r := &Room{Words: words(t), Palette: pal, Width: w}
			p := shipped(t)[0]
			put := func(n string, pic Picture) {
				require.NoError(t, os.WriteFile(filepath.Join(dir, fmt.Sprintf("%s-%s-%d.svg", n, name, int(w))), []byte(pic.SVG), 0o644))
			}
			trip := study.Trip{From: 1, To: 3, LoadKG: 150}
			d, err := r.Drive(&p, trip, 0)
			require.NoError(t, err)
			put("journey", d.Journey)
			put("sweep", d.Sweep)
			put("wheels", d.Wheels)
			c, err := r.Compare(&p, trip, study.Choice{HandwheelKGM2: 0.3, Fit: true}, study.Choice{HandwheelKGM2: 1.2, Fit: true})
			require.NoError(t, err)
			put("clock", c.Time)
			put("light", c.Light.Torque)
			put("heavy", c.Heavy.Torque)
			run, err := study.Ride(&p, trip)
			require.NoError(t, err)
			put("start", r.Sequence(run.Machine.Events(), run.StartOf(), "start").Picture)
			put("stop", r.Sequence(run.Machine.Events(), run.StopOf(), "stop").Picture)
			var v lift.View
			m, _ := lift.New(&p, lift.Options{Start: 2})
			m.Look(&v)
			ws := r.Winding(&p, 150, &v, &winding.Procedure{})
			put("effort", ws.Effort)
			put("runaway", ws.Runaway)
			if w == 640 && name == "paper" {
				fmt.Println(d.Trip, d.SweepSay, d.CuresSay)
				for _, x := range d.Figures {
					fmt.Println(" ", x.Name, "=", x.Text)
				}
				for _, x := range d.Make {
					fmt.Println(" ", x.Name, "=", x.Text)
				}
				for _, x := range d.Cures {
					fmt.Printf("  %+v\n", x)
				}
				for _, x := range c.Say {
					fmt.Println(x)
				}
				fmt.Println(ws.Drift, ws.Stays, ws.EffortSay, ws.RunawaySay, ws.Where)
				for _, x := range ws.Figures {
					fmt.Println(" ", x.Name, "=", x.Text)
				}
			}
			require.Empty(t, r.Words.Missing())
		}
	}
}
