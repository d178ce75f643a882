package proof

import (
	"math/bits"

	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// maxCalls is how many call relays a circuit may have: a building of 32
// floors with two landing buttons each has 94.
const maxCalls = 128

// A mask is a set of calls by their index.
type mask [2]uint64

func (m mask) has(i int) bool { return m[i/64]>>(i%64)&1 == 1 }
func (m *mask) add(i int)     { m[i/64] |= 1 << (i % 64) }
func (m mask) size() int      { return bits.OnesCount64(m[0]) + bits.OnesCount64(m[1]) }

// A chunk is up to 64 call sets side by side.
type chunk struct {
	calls []uint64 // by call: in which lanes it stands
	valid uint64   // lanes in use
}

// mask reads one lane back.
func (c chunk) mask(lane int) mask {
	var m mask
	for i, w := range c.calls {
		if w>>lane&1 == 1 {
			m.add(i)
		}
	}
	return m
}

// everySet lists all sets of n calls.
func everySet(n int) []chunk {
	// Six calls tell the lanes of a chunk apart, the others the chunks.
	within := [...]uint64{0xaaaaaaaaaaaaaaaa, 0xcccccccccccccccc, 0xf0f0f0f0f0f0f0f0, 0xff00ff00ff00ff00, 0xffff0000ffff0000, 0xffffffff00000000}
	var out []chunk
	for c := range 1 << max(0, n-len(within)) {
		k := chunk{calls: make([]uint64, n), valid: all}
		for i := range n {
			if i < len(within) {
				k.calls[i] = within[i]
			} else {
				k.calls[i] = word(c>>(i-len(within))&1 == 1)
			}
		}
		if n < len(within) {
			k.valid = 1<<(1<<n) - 1
		}
		out = append(out, k)
	}
	return out
}

// packed lays sets side by side.
func packed(sets []mask, calls int) []chunk {
	var out []chunk
	for from := 0; from < len(sets); from += 64 {
		k := chunk{calls: make([]uint64, calls)}
		for lane, m := range sets[from:min(from+64, len(sets))] {
			k.valid |= 1 << lane
			for i := range calls {
				if m.has(i) {
					k.calls[i] |= 1 << lane
				}
			}
		}
		out = append(out, k)
	}
	return out
}

// here are the floors whose calls may count by themselves at a place: those
// whose zone, advance contact or crossover it is.
func (p *place) here() []int {
	var out []int
	for f := range p.rim {
		if p.rim[f] || p.advanceUp[f] || p.advanceDown[f] || p.Stand[f] == lift.Between {
			out = append(out, f)
		}
	}
	return out
}

// byKind lists, for a place, one call set for each combination of kinds: every
// set of the calls here, and above and below them what few has of those there.
func byKind(d *control.Diagram, p *place) []mask {
	here := map[int]bool{}
	for _, f := range p.here() {
		here[f] = true
	}
	var near []int // calls here
	sides := [2][]int{}
	for i, c := range d.Calls {
		switch {
		case here[c.Floor]:
			near = append(near, i)
		case p.Stand[c.Floor] == lift.Above:
			sides[0] = append(sides[0], i)
		default:
			sides[1] = append(sides[1], i)
		}
	}
	// What is alone at one end of a side at this place is so at the other end
	// at the next.
	upper := p.index%2 == 0
	var out []mask
	for _, above := range few(d, sides[0], upper) {
		for _, below := range few(d, sides[1], upper) {
			for s := range 1 << len(near) {
				m := mask{above[0] | below[0], above[1] | below[1]}
				for j, i := range near {
					if s>>j&1 == 1 {
						m.add(i)
					}
				}
				out = append(out, m)
			}
		}
	}
	return out
}

// few is what stands for all call sets of one side, its calls lowest first:
// none, for every other set of kinds one call of each, and all calls there
// are. With up to three kinds that is eight sets at most. A kind alone is
// called at one end of the side, at its highest floor or at its lowest, and
// kinds together at the other; the only kind there is at either.
func few(d *control.Diagram, calls []int, upper bool) []mask {
	out := []mask{{}}
	if len(calls) == 0 {
		return out
	}
	lowest, highest := map[control.CallKind]int{}, map[control.CallKind]int{}
	var kinds []control.CallKind
	var whole mask
	for _, i := range calls {
		k := d.Calls[i].Kind
		if _, ok := lowest[k]; !ok {
			lowest[k] = i
			kinds = append(kinds, k)
		}
		highest[k] = i
		whole.add(i)
	}
	one := func(set int, of map[control.CallKind]int) {
		var m mask
		for j, k := range kinds {
			if set>>j&1 == 1 {
				m.add(of[k])
			}
		}
		if m != whole {
			out = append(out, m)
		}
	}
	if len(kinds) == 1 {
		one(1, lowest)
		if len(calls) > 1 {
			one(1, highest)
		}
		return append(out, whole)
	}
	for set := 1; set < 1<<len(kinds)-1; set++ {
		if alone := bits.OnesCount(uint(set)) == 1; alone == upper {
			one(set, highest)
		} else {
			one(set, lowest)
		}
	}
	return append(out, whole)
}
