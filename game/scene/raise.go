package scene

import (
	"strings"

	"wheelroom/physics/control"
)

// wires are the ways current can take between the buses of a diagram.
type wires struct {
	c       *circuitPicture
	feeders map[control.Bus][]int // branches that end on a bus; look-up only
}

func (c *circuitPicture) wires() wires {
	w := wires{c: c, feeders: map[control.Bus][]int{}}
	for b := range c.s.wiring.Diagram.Branches {
		to := c.s.wiring.Diagram.Branches[b].To
		w.feeders[to] = append(w.feeders[to], b)
	}
	return w
}

// meets reports whether several branches meet on a bus that is no rail: they
// are the taps of one rung.
func (w *wires) meets(b control.Bus) bool { return railOf(b) < 0 && len(w.feeders[b]) > 1 }

// chains reports whether a bus that is no rail only carries on one branch.
func (w *wires) chains(b control.Bus) bool { return railOf(b) < 0 && len(w.feeders[b]) == 1 }

// chain follows a bus back to the rail it is fed from: the leaves passed, from
// the rail on, and the rail.
func (w *wires) chain(b control.Bus) (leaves []int, rail int) {
	for w.chains(b) {
		i := w.feeders[b][0]
		br := &w.c.s.wiring.Diagram.Branches[i]
		var passed []int
		for l := w.c.starts[i]; l < w.c.starts[i+1]; l++ {
			passed = append(passed, l)
		}
		leaves, b = append(passed, leaves...), br.From
	}
	return leaves, max(railOf(b), plusRail)
}

// piece is the node of a branch, behind the chain that leads to it, and the
// rail that feeds it.
func (w *wires) piece(b int) (node, int) {
	br := &w.c.s.wiring.Diagram.Branches[b]
	at := w.c.starts[b]
	body := w.c.build(br.Body, &at)
	if !w.chains(br.From) {
		return body, max(railOf(br.From), plusRail)
	}
	leaves, rail := w.chain(br.From)
	if len(leaves) == 0 {
		return body, rail
	}
	link := node{kind: chainNode, leaf: body.leaf, end: body.end, chain: leaves, part: strings.TrimRight(string(br.From), "0123456789.")}
	return node{kind: seriesNode, leaf: body.leaf, end: body.end, kids: []node{link, body}}, rail
}

// raise makes the rungs of the diagram. Branches that meet on a bus of their
// own are the taps of one rung; like branches of all floors are one bank.
func (c *circuitPicture) raise() []*rung {
	d := c.s.wiring.Diagram
	w := c.wires()
	var rungs []*rung
	met := map[control.Bus]*rung{}
	meeting := func(b control.Bus) *rung {
		if met[b] == nil {
			met[b] = &rung{}
			rungs = append(rungs, met[b])
		}
		return met[b]
	}
	done := map[string]bool{}
	for b := range d.Branches {
		br := &d.Branches[b]
		if br.Floor >= 0 && (br.From == control.Row(br.Floor) || br.To == control.Row(br.Floor)) || w.chains(br.To) {
			continue // it stands in a row, or leads on to another branch
		}
		var body node
		var rail int
		name := br.Name
		if br.Floor >= 0 {
			name = kindOf(br.Name)
			if done[name] {
				continue
			}
			done[name] = true
			body, rail = c.bankOf(&w, name)
		} else {
			body, rail = w.piece(b)
		}
		switch {
		case w.meets(br.From):
			r := meeting(br.From)
			tail := body
			r.tail, r.to, r.name, r.way = &tail, br.To, name, wayOf(name)
		case w.meets(br.To):
			r := meeting(br.To)
			r.taps = append(r.taps, tap{rail: rail, body: body})
		default:
			rungs = append(rungs, &rung{name: name, to: br.To, way: wayOf(name), floor: br.Floor >= 0, taps: []tap{{rail: rail, body: body}}})
		}
	}
	return rungs
}

// bankOf is the bank of all floors' branches of a name.
func (c *circuitPicture) bankOf(w *wires, name string) (node, int) {
	d := c.s.wiring.Diagram
	bank, rail := node{kind: bankNode, leaf: -1}, plusRail
	for b := range d.Branches {
		if d.Branches[b].Floor < 0 || kindOf(d.Branches[b].Name) != name {
			continue
		}
		kid, from := w.piece(b)
		if bank.leaf < 0 {
			bank.leaf, rail = c.starts[b], from
		}
		bank.kids, bank.floors, bank.end = append(bank.kids, kid), append(bank.floors, d.Branches[b].Floor), c.starts[b+1]
	}
	return bank, rail
}

func railOf(b control.Bus) int {
	for i, bus := range railBuses {
		if b == bus {
			return i
		}
	}
	if b == control.Minus {
		return minusRail
	}
	return -1
}

func kindOf(name string) string {
	kind, _, _ := strings.Cut(name, ".")
	return kind
}

func wayOf(name string) way {
	switch name {
	case "up", "up-line", "up-contactor":
		return upWay
	case "down", "down-line", "down-contactor":
		return downWay
	}
	return neither
}
