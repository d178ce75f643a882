// Package why explains a running machine from its circuit: why a relay is in
// or out, a lamp lit or dark, a contact open or closed, at one instant.
//
// Every answer is computed from the network as it stands. What is on has a
// conducting path from the live rail, named contact by contact. What is off
// has a smallest set of open contacts whose closing would complete one. Each
// of them can be asked about next, until an answer ends at something from
// outside: a button, the place of the car, or the memory of a relay that
// holds itself.
//
// The package leaves out how long a coil takes; an answer says only that it
// is on its way.
package why

import (
	"strings"

	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// A Target is what is asked about: a part with a coil, a lamp or a switch, or
// one contact by its leaf.
type Target struct {
	Part lift.Part // "" for a contact
	Leaf int       // index into Wiring().Leaves; of no use while Part is set
}

// Part asks about a part, Contact about one contact.
func Part(part lift.Part) Target { return Target{Part: part, Leaf: -1} }

// Contact asks about the contact that leaf i of the wiring is.
func Contact(i int) Target { return Target{Leaf: i} }

// End says why there is nothing further to ask.
type End uint8

// The ends. Open means that it can be followed further.
const (
	Open     End = iota
	Input        // something done from outside: a button, a switch
	Position     // where the car and its doors stand, or how it moves
	Memory       // a relay that holds itself since it was pulled in
	Fault        // the contact does not do what its part does
)

// String returns the end's word; "" for Open.
func (e End) String() string { return [...]string{"", "input", "position", "memory", "fault"}[e] }

// A Step is one contact of a conducting path, or the coil or lamp at its end.
type Step struct {
	Leaf     int
	Say      phrase.Phrase // why it conducts
	Next     Target        // what to ask about next
	End      End           // or why there is nothing to ask
	Bypassed bool          // another path would take over if it opened
}

// A Blocker is an open contact that has to close before the target comes on.
type Blocker struct {
	Leaf  int           // -1 for the main isolator, which is no leaf
	Say   phrase.Phrase // why it is open
	Next  Target
	End   End
	Guard control.Guard
	Or    []int // leaves of other contacts any one of which would do as well
}

// An Answer explains one target at one instant.
type Answer struct {
	Target   Target
	On       bool      // fed, lit or made; of a contact, closed
	In       bool      // of a part with a coil: its armature is in
	Path     []Step    // on: from the live rail to the target, in order
	Beside   [][]int   // on: leaves of other paths that conduct as well
	Blockers []Blocker // off: all of them have to close
	Next     Target    // of a contact: the part that moves it
	End      End
	Sentence phrase.Phrase
}

// Of explains a target as the machine stands. For a part or a leaf that the
// machine does not have the sentence is "why.unknown".
func Of(m *lift.Machine, t Target) Answer {
	n := look(m)
	switch {
	case t.Part == "":
		return n.ofContact(t)
	case n.load(string(t.Part)) >= 0:
		return n.ofLoad(t)
	case m.Switch(t.Part) >= 0:
		return n.ofSwitch(t)
	}
	return Answer{Target: t, Sentence: phrase.Of("why.unknown", "part", string(t.Part))}
}

// ofLoad explains a coil or a lamp.
func (n *network) ofLoad(t Target) Answer {
	leaf := n.load(string(t.Part))
	part := string(t.Part)
	a := Answer{Target: t}
	a.On = n.isolated < 0 && n.reached(-1)[n.leaves[leaf].From]
	coil := n.w.Coil(part)
	if coil >= 0 {
		a.In = n.view.Relays[coil]
	}
	var reason phrase.Phrase
	if a.On {
		n.path(&a, leaf)
		reason = n.onReason(&a, part)
	} else {
		a.Blockers = n.blockers(leaf)
		reason = n.offReason(a.Blockers, part)
	}
	a.Sentence = phrase.Of(n.verdict(&a, coil >= 0), "part", n.name(part), "reason", reason)
	heads := coil >= 0 && n.m.Heading(t.Part)
	if coil >= 0 && a.On != heads && a.In == heads {
		// Fed and yet it will not come in, or dead and yet it stays.
		a.End = Fault
		a.Sentence = phrase.Of(map[bool]string{true: "why.fed-but-out", false: "why.dead-but-in"}[a.On], "part", n.name(part), "reason", reason)
	}
	return a
}

// verdict is the sentence for how a load stands.
func (n *network) verdict(a *Answer, relay bool) string {
	switch {
	case !relay && a.On:
		return "why.lit"
	case !relay:
		return "why.dark"
	case a.On && a.In:
		return "why.in"
	case a.On:
		return "why.coming"
	case a.In:
		return "why.going"
	}
	return "why.out"
}

// ofContact explains a single contact by the part that moves it.
func (n *network) ofContact(t Target) Answer {
	if t.Leaf < 0 || t.Leaf >= len(n.leaves) {
		return Answer{Target: t, Sentence: phrase.Of("why.unknown", "part", "")}
	}
	c, ok := n.leaves[t.Leaf].Body.(control.Contact)
	if !ok {
		return n.ofLoad(Part(lift.Part(n.leaves[t.Leaf].Part())))
	}
	a := Answer{Target: t, On: n.view.Contacts[t.Leaf], Next: Part(lift.Part(c.Part))}
	a.End = n.end(t.Leaf)
	id := "why.contact-open"
	if a.On {
		id = "why.contact-closed"
	}
	a.Sentence = phrase.Of(id, "contact", n.contactName(t.Leaf), "reason", n.because(t.Leaf))
	return a
}

// ofSwitch explains a switch that no coil moves.
func (n *network) ofSwitch(t Target) Answer {
	part := string(t.Part)
	a := Answer{Target: t, On: n.made(part), End: outside(part)}
	if f := n.floorOf(part); f >= 0 && strings.HasPrefix(part, "direction.") {
		a.On = n.view.Direction[f] != lift.Between
		a.Sentence = phrase.Of("why.stands-"+n.view.Direction[f].String(), "floor", n.w.Diagram.Floors[f])
		return a
	}
	a.Sentence = phrase.Of("why.switch", "reason", n.fact(part, "", a.On))
	if part == "lock" {
		// The bolt follows the locking cam.
		a.Next, a.End = Part("cam"), Open
		a.Sentence = phrase.Of("why.switch", "reason", n.withCause("lock", n.fact(part, "", a.On)))
	}
	return a
}

// ask is where a contact's explanation goes on.
func (n *network) ask(leaf int) (Target, End) {
	end := n.end(leaf)
	if end != Open {
		return Target{Leaf: -1}, end
	}
	part := n.leaves[leaf].Part()
	if part == "lock" {
		part = "cam"
	}
	return Part(lift.Part(part)), Open
}

// end tells whether a contact's part moves for a reason inside the circuit.
func (n *network) end(leaf int) End {
	c := n.leaves[leaf].Body.(control.Contact)
	if n.contradicts(leaf) {
		return Fault
	}
	if n.w.Coil(c.Part) >= 0 || c.Part == "lock" {
		return Open
	}
	return outside(c.Part)
}
