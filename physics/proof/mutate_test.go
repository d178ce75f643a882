package proof

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// never is a part that is never in: its make contact is always open, its break
// contact always closed.
const never = "never"

// spoiled returns the diagram with contact number k, in the order of the
// wiring, always open or always closed, and says which contact that is: "" for
// a number there is not.
func spoiled(d *control.Diagram, k int, closed bool) (*control.Diagram, string) {
	n, said := -1, ""
	var walk func(b control.Body, branch string) control.Body
	walk = func(b control.Body, branch string) control.Body {
		switch b := b.(type) {
		case control.Contact:
			if n++; n != k {
				return b
			}
			said = fmt.Sprintf("%s in %s", b.Part, branch)
			if b.Breaks {
				said = "break " + said
			}
			return control.Contact{Part: never, Breaks: closed}
		case control.Series:
			var s control.Series
			for _, kid := range b {
				s = append(s, walk(kid, branch))
			}
			return s
		case control.Parallel:
			var s control.Parallel
			for _, kid := range b {
				s = append(s, walk(kid, branch))
			}
			return s
		}
		return b
	}
	c := *d
	c.Branches = nil
	for _, b := range d.Branches {
		b.Body = walk(b.Body, b.Name)
		c.Branches = append(c.Branches, b)
	}
	return &c, said
}

// redundant are contacts without which the lift does the same. Some can never
// be used: the lowest landing is not approached going up. Some say what
// another contact says as well, which is no fault in a circuit on which lives
// depend: the slow-down switches set a stop as they open the fast contactor,
// the last landing ahead is always stopped at, and the door relay opens the
// landing lock besides its own contacts.
var redundant = map[string]map[bool][]string{
	"directional": {
		false: {
			"relay.up-contactor in direction",
			"advance-up.1 in stop", "call.1 in stop", "break relay.up-line in stop",
			"advance-down.3 in stop", "call.3 in stop", "break relay.down-line in stop",
			"slow-down-top in slow", "slow-down-bottom in slow",
		},
		true: {
			"break relay.down-contactor in direction",
			"break relay.door in start", "break relay.door in up-pull", "break relay.door in down-pull",
			"call.1 in stop", "call.3 in stop", "break relay.up-line in stop", "break relay.down-line in stop",
		},
	},
	"two-button": {
		false: {"relay.up-contactor in direction", "slow-down-top in slow", "slow-down-bottom in slow"},
		true: {
			"break relay.down-contactor in direction",
			"break relay.door in start", "break relay.door in up-pull", "break relay.door in down-pull",
		},
	},
}

// TestEverySpoiledContactIsFound opens, and bridges, one contact after the
// other: the proof refutes each such circuit except for those that are known
// to be redundant.
func TestEverySpoiledContactIsFound(t *testing.T) {
	for _, scheme := range []string{"directional", "two-button"} {
		p := building.Evenly("test", 3, 3.2)
		p.Control.Scheme = scheme
		m, err := lift.New(&p, lift.Options{})
		require.NoError(t, err)
		d := m.Wiring().Diagram
		for _, closed := range []bool{false, true} {
			t.Run(fmt.Sprintf("%s closed %v", scheme, closed), func(t *testing.T) {
				found := 0
				missed := map[string]bool{}
				for k := 0; ; k++ {
					s, said := spoiled(d, k, closed)
					if said == "" {
						break
					}
					if w := m.Wiring(); isLamp(w, k) {
						continue
					}
					g, err := newGround(&p, s)
					require.NoError(t, err)
					if refuted(g, scheme) {
						found++
					} else {
						missed[said] = true
					}
				}
				assert.Greater(t, found, 100)
				var names []string
				for name := range missed {
					names = append(names, name)
				}
				assert.ElementsMatch(t, redundant[scheme][closed], names)
			})
		}
	}
}

// refuted goes through all states until one is wrong.
func refuted(g *ground, scheme string) bool {
	j := &judge{b: g.b, rule: rules[scheme]}
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	p := &prover{ctx: ctx, progress: func(int, int) {
		if j.worst != nil {
			cancel()
		}
	}}
	// The only error is that of having found one.
	return p.judge(j, g, true) != nil || j.worst != nil
}

// isLamp tells whether a contact only lights something.
func isLamp(w *control.Wiring, k int) bool {
	branch := -1
	for i := range w.Leaves {
		if int(w.Leaves[i].Contact) == k {
			branch = w.Leaves[i].Branch
		}
	}
	for i := range w.Leaves {
		if _, lamp := w.Leaves[i].Body.(control.Lamp); lamp && w.Leaves[i].Branch == branch {
			return true
		}
	}
	return false
}
