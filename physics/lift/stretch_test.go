package lift

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestStretchesAreWhatACarMeets runs from end to end both ways and finds the
// switches at every step as the list of stretches has them.
func TestStretchesAreWhatACarMeets(t *testing.T) {
	for _, up := range []bool{true, false} {
		start, to := "G", "5"
		if !up {
			start, to = to, start
		}
		r := newRig(t, tidemill(), start)
		var stretches []Stretch
		for _, p := range r.Stretches() {
			if p.Up == up && p.ToM > 0 && p.FromM < 16.8 {
				stretches = append(stretches, p)
			}
		}
		r.call(to)
		r.until("stop", "-")
		var v View
		met := map[int]bool{}
		for r.Look(&v); v.Moving; r.Look(&v) {
			for i, p := range stretches {
				if v.CarM <= p.FromM+1e-9 || v.CarM >= p.ToM-1e-9 {
					continue
				}
				met[i] = true
				require.Equal(t, p.Stand, v.Direction, "at %.4f m", v.CarM)
				for s, made := range p.Made {
					switch r.edges.parts[s] {
					case "at-rest", "car-door", "landing-door", "lock", "door-open", "button." + Part(to):
						continue
					}
					if r.edges.cross[s] == (crossing{}) {
						require.Equal(t, made, v.Switches[s], "%s at %.4f m", r.edges.parts[s], v.CarM)
					}
				}
			}
			r.Step(0.005)
		}
		assert.Greater(t, len(met), len(stretches)*9/10, "nearly all were met")
		assert.Less(t, stretches[0].FromM, 17.0)
	}
}
