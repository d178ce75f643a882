package selector

import (
	"slices"
	"strconv"

	"wheelroom/physics/building"
	"wheelroom/physics/phrase"
)

// Join returns the ring with one terminal joined to another floor, or to none
// (Blank). Made by hand, a ring may be anything: Anomalies says what it does.
func (r *Ring) Join(terminal, floor int) *Ring {
	other := *r
	other.terminals = slices.Clone(r.terminals)
	other.terminals[terminal].Floor = floor
	other.light()
	return &other
}

// Joins returns what the ring owes to the hand, as a building file says it:
// every terminal whose floor is not the one it is laid out for, from the
// lowest up; nil where there is none.
func (r *Ring) Joins() []building.Join {
	var out []building.Join
	for i, t := range r.terminals {
		if t.Floor == r.laidOut[i] {
			continue
		}
		j := building.Join{Terminal: i, Floor: building.Blank}
		if t.Floor != Blank {
			j.Floor = r.names[t.Floor]
		}
		out = append(out, j)
	}
	return out
}

// terminalsOf marks the terminals that joins name, as far as the ring has them.
func (r *Ring) terminalsOf(joins []building.Join) []bool {
	named := make([]bool, len(r.terminals))
	for _, j := range joins {
		if j.Terminal >= 0 && j.Terminal < len(named) {
			named[j.Terminal] = true
		}
	}
	return named
}

// joinByHand makes the joins of the plan and returns what is wrong with them:
// terminals the ring does not have, and floors left without any.
func (r *Ring) joinByHand(p *building.Plan) []Problem {
	var out []Problem
	for i, j := range p.Selector.Joins {
		if j.Terminal < 0 || j.Terminal >= len(r.terminals) {
			out = append(out, Problem{Key: "selector.joins[" + strconv.Itoa(i) + "].terminal", Grave: true,
				Say: phrase.Of("ring.no-such-terminal", "terminal", j.Terminal, "last", len(r.terminals)-1)})
			continue
		}
		r.terminals[j.Terminal].Floor = p.Floor(j.Floor) // none for Blank
	}
	if len(p.Selector.Joins) == 0 {
		return out
	}
	owns := make([]bool, len(r.landingsM))
	for _, t := range r.terminals {
		if t.Floor != Blank {
			owns[t.Floor] = true
		}
	}
	for f, any := range owns {
		if !any {
			out = append(out, Problem{Key: "selector.joins", Grave: true,
				Say: phrase.Of("ring.joins-leave-out", "floor", r.names[f])})
		}
	}
	return out
}
