package scene

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/physics/control"
)

func TestBranchesOfLikeShapeMakeABank(t *testing.T) {
	p := even(4)
	c := &circuitPicture{s: &Scene{plan: &p}}
	each := func(f string) control.Body {
		return control.Series{control.Contact{Part: "advance-up." + f}, control.Parallel{
			control.Contact{Part: "call." + f}, control.Contact{Part: "relay.up-line", Breaks: true}}}
	}
	leaf := 10
	n := c.build(control.Series{control.Contact{Part: "relay.up"}, control.Parallel{
		each("1"), each("2"), each("3"), each("4"), control.Contact{Part: "slow-down-top"}}}, &leaf)
	assert.Equal(t, 24, leaf)
	par := n.kids[1]
	assert.Len(t, par.kids, 2)
	bank := par.kids[0]
	assert.Equal(t, bankNode, bank.kind)
	assert.Equal(t, []int{0, 1, 2, 3}, bank.floors)
	assert.Equal(t, 11, bank.leaf)
	assert.Equal(t, 23, bank.end)
	assert.Equal(t, 17, bank.kids[bank.shown(2)].leaf)
	assert.Equal(t, "slow-down-top", par.kids[1].part)
}

func TestContactsOfOneFloorAreNoBank(t *testing.T) {
	p := even(4)
	c := &circuitPicture{s: &Scene{plan: &p}}
	leaf := 0
	n := c.build(control.Parallel{control.Contact{Part: "terminal.3"}, control.Contact{Part: "terminal.4"}}, &leaf)
	assert.Len(t, n.kids, 2)
	n = c.build(control.Parallel{control.Contact{Part: "relay.up"}, control.Contact{Part: "relay.down"}}, &leaf)
	assert.Len(t, n.kids, 2)
	n = c.build(control.Parallel{control.Contact{Part: "call-up.3"}, control.Contact{Part: "call-down.3"}}, &leaf)
	assert.Len(t, n.kids, 2)
}

// Letters of IEC 81346-2, value from memory: K relays, Q contactors, S hand
// switches, B position switches, P lamps, M magnets, X terminals.
func TestLetterCodes(t *testing.T) {
	for part, want := range map[string]string{
		"relay.direction": "K", "call.3": "K", "relay.up": "K", "relay.up-contactor": "Q", "relay.fast": "Q",
		"button.3": "S", "stop-switch": "S", "rim.3": "B", "advance-up.3": "B", "car-door": "B", "final-limit-top": "B",
		"lamp.3": "P", "call-lamp.3": "P", "relay.brake": "M", "cam": "M", "terminal.7": "X",
	} {
		assert.Equal(t, want, Code(part), part)
	}
}
