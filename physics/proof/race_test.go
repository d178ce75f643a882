package proof

import (
	"context"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/trial"
)

func races(t *testing.T, p *building.Plan, d *control.Diagram) *Race {
	t.Helper()
	corners, race, err := (&prover{ctx: context.Background()}).races(p, d)
	require.NoError(t, err)
	require.Positive(t, corners)
	return race
}

func TestNoSchemeRacesAsShipped(t *testing.T) {
	for _, scheme := range []string{"interlocked", "directional", "two-button"} {
		assert.Nil(t, races(t, evenly(6, scheme), nil), scheme)
	}
}

func TestADirectionRelayTooQuickRacesTheUpLine(t *testing.T) {
	p := evenly(6, "directional")
	p.Control.DirectionOperateS = 0.010
	r := races(t, p, nil)
	require.NotNil(t, r)
	assert.Equal(t, Pressing, r.Scene)
	assert.ElementsMatch(t, []lift.Part{"relay.direction", "relay.up-line"}, r.Relays[:])
	said := english(t, (&Report{Scheme: "directional", Floors: 6, Sets: 1, Race: r}).Say(p))
	assert.Contains(t, said, "critical race: when buttons are pressed at one instant")

	full := prove(t, p)
	assert.False(t, full.Proved)
	assert.Nil(t, full.Wrong, "the settled circuit is right; only its times are not")
	assert.NotNil(t, full.Race)
}

func TestWithoutPriorityUpAndDownRace(t *testing.T) {
	p := evenly(3, "interlocked")
	m, err := lift.New(p, lift.Options{})
	require.NoError(t, err)
	for k := 0; ; k++ {
		d, said := spoiled(m.Wiring().Diagram, k, true)
		require.NotEmpty(t, said)
		if said != "break relay.up-line in down-pull" {
			continue
		}
		r := races(t, p, d)
		require.NotNil(t, r)
		assert.ElementsMatch(t, []lift.Part{"relay.up", "relay.down"}, r.Relays[:])
		break
	}
}

func TestAnAdvanceContactTooShortIsARace(t *testing.T) {
	p := evenly(3, "directional")
	for _, c := range []struct {
		metres float64
		late   bool
	}{{0.05, false}, {0.018, true}, {0.01, true}} {
		p.Selector.AdvanceContactM = c.metres
		r := races(t, p, nil)
		assert.Equal(t, c.late, r != nil && r.Late, "%v m", c.metres)
	}
}

// TestTimesAgreeWithTheNetwork presses buttons at one instant on the running
// machine, whose relays are coils in a network, and on the timed switches, at
// random corners of the relay times: they come to the same.
func TestTimesAgreeWithTheNetwork(t *testing.T) {
	rng := rand.New(rand.NewSource(7))
	for _, scheme := range []string{"interlocked", "directional", "two-button"} {
		p := evenly(3, scheme)
		g, err := newGround(p, nil)
		require.NoError(t, err)
		timed := newTimed(g.b, p)
		var pressing []scenario
		for _, s := range g.scenarios() {
			if s.scene == Pressing {
				pressing = append(pressing, s)
			}
		}
		for range trial.Runs(12) {
			s := pressing[rng.Intn(len(pressing))]
			factors := map[string]float64{}
			for c, part := range g.b.l.Coils() {
				f := 1 + spreadShare*float64(2*rng.Intn(2)-1)
				factors[part], timed.factor[c] = f, f
			}
			m, err := lift.New(p, lift.Options{Start: 1, Spread: func(part string) float64 { return factors[part] }})
			require.NoError(t, err)
			for i, c := range g.b.d.Calls {
				if s.calls.has(i) {
					require.Empty(t, m.Do(lift.Input{Kind: lift.Press, Part: lift.Part(c.Button)}).ID)
				}
			}
			acts, _ := g.stage(timed, p, s)
			timed.run(acts, 0.7)
			m.RunTo(0.7)
			var v lift.View
			m.Look(&v)
			for c, part := range g.b.l.Coils() {
				switch part {
				case "relay.brake", "cam", "relay.safety":
					continue // the brake is slower, and the car begins to move
				}
				in := v.Relays[m.Wiring().Coil(part)]
				assert.Equal(t, in, timed.in(g.b.l.CoilSignal(c)), "%s %s", scheme, part)
			}
		}
	}
}
