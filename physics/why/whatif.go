package why

import (
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// A Change is one thing to be tried on a copy: a contact kept open or closed,
// or a call registered or taken back.
type Change struct {
	Leaf   int       // of a contact; of no use while Call is set
	Call   lift.Part // call relay, "call.3"; "" for a contact
	Closed bool      // contact closed, call registered; false: open, taken back
}

// WhatIf returns a copy of the machine that runs on with the change, beside
// the real one, which is untouched, and a phrase that says what is different.
// For what may not be tried it returns no machine, and the phrase says what
// must be made safe instead: contacts of the safety line, of doors and locks,
// of limits, and interlocks are never bridged here.
func WhatIf(m *lift.Machine, c Change) (*lift.Machine, phrase.Phrase) {
	n := look(m)
	if c.Call != "" {
		return n.tryCall(c)
	}
	if c.Leaf < 0 || c.Leaf >= len(n.leaves) || n.leaves[c.Leaf].Contact < 0 {
		return nil, phrase.Of("why.unknown", "part", string(c.Call))
	}
	contact := n.contactName(c.Leaf)
	if g := n.w.Guard(c.Leaf); g != control.NoGuard && c.Closed {
		return nil, phrase.Of("why.refuse-"+g.String(), "contact", contact)
	}
	state, id := "open", "why.if-open"
	if c.Closed {
		state, id = "closed", "why.if-closed"
	}
	copied := m.Clone()
	if wrong := copied.Do(lift.Input{TimeS: m.TimeS(), Kind: lift.Override, Part: lift.ContactPart(c.Leaf), State: state}); wrong.ID != "" {
		return nil, wrong
	}
	return copied, phrase.Of(id, "contact", contact)
}

// lettingGoS is how long a call relay's winding is taken out of circuit to
// cancel the call: ample for any relay to let go.
const lettingGoS = 0.5

// tryCall registers a call by its button, or takes it back by cutting its
// relay's winding for a moment.
func (n *network) tryCall(c Change) (*lift.Machine, phrase.Phrase) {
	copied := n.m.Clone()
	for _, call := range n.w.Diagram.Calls {
		if call.Relay != string(c.Call) {
			continue
		}
		ins := []lift.Input{{TimeS: n.m.TimeS(), Kind: lift.Press, Part: lift.Part(call.Button)}}
		id := "why.if-called"
		if !c.Closed {
			ins = []lift.Input{
				{TimeS: n.m.TimeS(), Kind: lift.Override, Part: c.Call, State: "coil-open"},
				{TimeS: n.m.TimeS() + lettingGoS, Kind: lift.Override, Part: c.Call},
			}
			id = "why.if-not-called"
		}
		for _, in := range ins {
			if wrong := copied.Do(in); wrong.ID != "" {
				return nil, wrong
			}
		}
		return copied, phrase.Of(id, "call", n.name(call.Relay))
	}
	return nil, phrase.Of("why.unknown", "part", string(c.Call))
}
