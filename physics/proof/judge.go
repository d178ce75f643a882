package proof

import (
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// A judge holds what a circuit does against a rule, counts the cases and keeps
// the smallest that fails.
type judge struct {
	b    *bench
	rule rule

	phase  Phase
	place  *place
	memory memory
	chunk  chunk

	cases int64
	worst *Case // the smallest failure so far

	// by class of call set; nil unless the reduction is being checked
	classes *classes
}

// A Case is one circuit that does not settle as the rule says.
type Case struct {
	Phase  Phase
	FromM  float64 // where the car is: somewhere between these heights
	ToM    float64
	Up     bool // come from below; while it runs, going up
	Floor  int  // the landing at which it stands, -1 between two
	Memory Memory
	Calls  []control.Call
	Part   lift.Part // relay that stands wrong; "" when the circuit never settles
	In     bool      // how it stands; it should be the other way
	Both   bool      // both directions, or both windings, are on together
}

// Memory is what the circuit remembered besides its calls.
type Memory = memory

// relay holds a relay against how it should stand in every lane.
func (j *judge) relay(part string, signal int, want uint64) { j.within(part, signal, want, all) }

// within does so in some lanes.
func (j *judge) within(part string, signal int, want, lanes uint64) {
	if signal < 0 {
		return
	}
	if wrong := (j.b.lanes.In[signal] ^ want) & lanes & j.b.valid; wrong != 0 {
		j.fail(wrong, Case{Part: lift.Part(part)}, j.b.lanes.In[signal])
	}
}

// either: one of two relays is in, or neither.
func (j *judge) either(part string, one, two int, want uint64) {
	a, b := j.b.get(one), j.b.get(two)
	if wrong := ((a | b) ^ want | a&b) & j.b.valid; wrong != 0 {
		j.fail(wrong, Case{Part: lift.Part(part)}, a|b)
	}
}

// both: never both directions or both windings, and it settles. It counts the
// cases of this look.
func (j *judge) both() {
	for w := j.b.valid; w != 0; w &= w - 1 {
		j.cases++
	}
	if j.b.shorted != 0 {
		j.fail(j.b.shorted, Case{Both: true}, 0)
	}
	if j.b.unsettled != 0 {
		j.fail(j.b.unsettled, Case{}, 0)
	}
}

// fail keeps the smallest of the failing lanes if it is smaller than the
// smallest so far: fewer calls, and the earlier of equals.
func (j *judge) fail(wrong uint64, c Case, in uint64) {
	for ; wrong != 0; wrong &= wrong - 1 {
		lane := lowest(wrong)
		calls := j.chunk.mask(lane)
		if j.worst != nil && calls.size() >= len(j.worst.Calls) {
			continue
		}
		found := c
		found.Phase, found.Memory, found.Up = j.phase, j.memory, j.place.Up
		found.FromM, found.ToM, found.Floor = j.place.FromM, j.place.ToM, j.place.landing
		found.In = in>>lane&1 == 1
		for i, call := range j.b.d.Calls {
			if calls.has(i) {
				found.Calls = append(found.Calls, call)
			}
		}
		j.worst = &found
	}
}

// note keeps what was decided for the check of the reduction to kinds.
func (j *judge) note(decided ...uint64) {
	if j.classes != nil {
		j.classes.note(j, decided)
	}
}

// classes checks that the decision depends on the kinds of call above, here
// and below only.
type classes struct {
	seen  []uint16 // by class: 1 + decision, 0 for none yet
	split bool     // two members of one class were decided differently
}

// note takes over the decisions of one look, lane by lane. A look begins a new
// table: classes belong to a place, a phase and a memory.
func (k *classes) note(j *judge, decided []uint64) {
	d := j.b.d
	here := map[int]bool{}
	for _, f := range j.place.here() {
		here[f] = true
	}
	// Where each call's bit goes in the number of the class.
	bit := make([]int, len(d.Calls))
	next := 0
	for i, c := range d.Calls {
		if here[c.Floor] {
			bit[i] = next
			next++
		}
	}
	for i, c := range d.Calls {
		switch {
		case here[c.Floor]:
		case j.place.Stand[c.Floor] == lift.Above:
			bit[i] = next + int(c.Kind)
		default:
			bit[i] = next + 4 + int(c.Kind)
		}
	}
	if size := 1 << (next + 8); len(k.seen) < size {
		k.seen = make([]uint16, size)
	}
	for w := j.b.valid; w != 0; w &= w - 1 {
		lane := lowest(w)
		class, decision := 0, uint16(1)
		for i, calls := range j.chunk.calls {
			class |= int(calls>>lane&1) << bit[i]
		}
		for n, word := range decided {
			decision += uint16(word>>lane&1) << n
		}
		if k.seen[class] == 0 {
			k.seen[class] = decision
		}
		k.split = k.split || k.seen[class] != decision
	}
}
