package lift

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/control"
)

// A call's lamp draws 13.7 times its current while it is cold (OpenStax,
// University Physics vol. 2, Example 9.6) and is hot within a tenth of a second
// (IES Lighting Handbook, value from memory).
func TestACallLampDrawsItsInrush(t *testing.T) {
	r := newRig(t, tidemill(), "G")
	lamp := -1
	for i, l := range r.Wiring().Leaves {
		if _, ok := l.Body.(control.Lamp); ok && l.Part() == "call-lamp.3" {
			lamp = i
		}
	}
	require.GreaterOrEqual(t, lamp, 0)
	var v View
	amps := func() float64 {
		r.Look(&v)
		return v.Amperes[lamp]
	}
	assert.InDelta(t, 0, amps(), 1e-4)
	r.call("3")
	r.until("call.3", "1")
	inrush := amps()
	volts := v.Volts[r.Wiring().Node(control.Plus)]
	r.Advance(0.030)
	assert.InEpsilon(t, inrush, amps(), 0.01, "still cold")
	r.Advance(0.070)
	assert.InEpsilon(t, 3.0/110, amps(), 0.02, "3 W at 110 V")
	assert.InDelta(t, 13.7, inrush/amps(), 0.1)
	assert.InDelta(t, 0.5*(inrush-amps()), v.Volts[r.Wiring().Node(control.Plus)]-volts, 0.15, "over half an ohm")
}

// The trace's lamp is whether it is fed: at the instant of its contact, not
// when its filament has followed.
func TestAPositionLampIsLitByItsTerminal(t *testing.T) {
	r := newRig(t, tidemill(), "G")
	r.call("2")
	on := r.until("lamp.1", "1")
	touch := r.Events()[on.Cause]
	assert.Contains(t, string(touch.Part), "terminal.")
	assert.Equal(t, touch.TimeS, on.TimeS)
	element := r.indexes.lampLeaf[1]
	assert.False(t, r.circuit.Hot(element))
	assert.InDelta(t, 0, r.circuit.Glow(element), 1e-9)
	r.Advance(0.1)
	assert.True(t, r.circuit.Hot(element))
	off := r.until("lamp.1", "0")
	assert.Equal(t, r.Events()[off.Cause].TimeS, off.TimeS)
	assert.True(t, r.circuit.Hot(element), "it glows on")
}

// All buttons at once, every lamp cold: each call relay comes in once and
// holds, and no relay chatters.
func TestManyLampsAtOnce(t *testing.T) {
	for _, scheme := range []string{"interlocked", "directional", "two-button"} {
		for _, volts := range []float64{24, 110} {
			p := tidemill()
			p.Control.Scheme, p.Control.SupplyV = scheme, volts
			r := newRig(t, p, "2")
			for _, c := range r.Wiring().Diagram.Calls {
				require.Empty(t, r.Do(Input{Kind: Press, Part: Part(c.Button)}).ID)
			}
			r.Advance(1)
			moves := map[Part]int{}
			for _, e := range r.Events() {
				moves[e.Part]++
			}
			for _, c := range r.Wiring().Diagram.Calls {
				if c.Floor != 2 { // that of the car's own floor is answered
					assert.Equal(t, 1, moves[Part(c.Relay)], "%s %s", scheme, c.Relay)
				}
			}
			for _, part := range r.Wiring().Coils {
				assert.LessOrEqual(t, moves[Part(part)], 2, "%s %s", scheme, part)
			}
			assert.Empty(t, r.Stopped())
		}
	}
}
