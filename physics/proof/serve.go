package proof

import (
	"math/rand/v2"

	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// servePieces is how many pieces of work following the rule counts as.
const servePieces = 10

// A rested is a lift ready at a landing, doors closed.
type rested struct {
	floor int
	m     memory
	calls mask
}

// A round follows the written rule from landing to landing, on a building
// drawn from nothing but the order of its floors. That the circuit does what
// the rule says has been seen before; this is whether the rule is any good.
type round struct {
	d        *control.Diagram
	rule     rule
	bound    bool // the scheme remembers that calls lie ahead
	keeps    bool // and which way
	landings []*place
	upward   []*place // at the advance contact of a floor, going up
	downward []*place
	calls    []uint64
}

func newRound(b *bench, rule rule) *round {
	r := &round{d: b.d, rule: rule, bound: b.part.boundUp >= 0, keeps: b.part.direction >= 0, calls: make([]uint64, len(b.d.Calls))}
	n := len(b.d.Floors)
	draw := func(f int, upper bool) *place {
		p := &place{rim: make([]bool, n), advanceUp: make([]bool, n), advanceDown: make([]bool, n), landing: -1}
		p.Stand = make([]lift.Stand, n)
		for g := range p.Stand {
			p.Stand[g] = lift.Above
			if g < f || g == f && upper {
				p.Stand[g] = lift.Below
			}
		}
		return p
	}
	for f := range n {
		at, up, down := draw(f, false), draw(f, false), draw(f, true)
		at.Stand[f], at.rim[f], at.landing = lift.Between, true, f
		up.advanceUp[f], up.slowTop = true, f == n-1
		down.advanceDown[f], down.slowLow = true, f == 0
		r.landings, r.upward, r.downward = append(r.landings, at), append(r.upward, up), append(r.downward, down)
	}
	return r
}

// sight looks at one state from a place.
func (r *round) sight(p *place, s *rested) *sight {
	for i := range r.calls {
		r.calls[i] = word(s.calls.has(i))
	}
	return &sight{d: r.d, calls: r.calls, p: p, m: s.m}
}

// next is the state of the lift when it is next ready: after its doors have
// been open for a call here, or after a trip to the next stop. It reports
// false when it stays where it is.
func (r *round) next(s rested) (rested, bool) {
	open, up, down := r.rule.rest(r.sight(r.landings[s.floor], &s))
	switch {
	case open&1 == 1:
		r.answer(&s)
		return s, true
	case up&1 == 1:
		r.travel(&s, true)
	case down&1 == 1:
		r.travel(&s, false)
	default:
		return s, false
	}
	r.answer(&s)
	return s, true
}

// travel runs to the next stop.
func (r *round) travel(s *rested, up bool) {
	s.m = memory{}
	if r.keeps {
		s.m.Down = !up
	}
	if r.bound {
		s.m.BoundUp, s.m.BoundDown = up, !up
	}
	step, approach := -1, r.downward
	if up {
		step, approach = 1, r.upward
	}
	for s.floor += step; ; s.floor += step {
		if r.rule.stop(r.sight(approach[s.floor], s), up)&1 == 1 {
			break
		}
	}
	r.forget(s)
}

// forget lets the bound relays go when no call is left ahead.
func (r *round) forget(s *rested) {
	v := r.sight(r.landings[s.floor], s)
	s.m.BoundUp = s.m.BoundUp && v.on(lift.Above)&1 == 1
	s.m.BoundDown = s.m.BoundDown && v.on(lift.Below)&1 == 1
}

// answer lets go the calls that are answered when the doors open.
func (r *round) answer(s *rested) {
	v := r.sight(r.landings[s.floor], s)
	left := s.calls
	for i, c := range r.d.Calls {
		if c.Floor == s.floor && s.calls.has(i) && r.rule.answered(v, c)&1 == 1 {
			left[i/64] &^= 1 << (i % 64)
		}
	}
	s.calls = left
}

// serve follows the rule from every landing, memory and call set, or from
// drawn ones where there are too many, until no call is left. It returns how
// many states were followed and the smallest found from which some call is
// never served.
func (p *prover) serve(b *bench, rule rule, full bool) (int64, *Case, error) {
	r := newRound(b, rule)
	count := int64(0)
	var lost *Case
	try := func(s rested) {
		count++
		if (lost == nil || s.calls.size() < len(lost.Calls)) && !r.serves(s) {
			lost = r.lostCase(s)
		}
	}
	n := len(b.d.Floors)
	for piece := range servePieces {
		switch {
		case full:
			sets := uint64(1) << len(b.d.Calls)
			for set := sets * uint64(piece) / servePieces; set < sets*uint64(piece+1)/servePieces; set++ {
				for f := range n {
					for _, m := range b.memories() {
						try(rested{f, m, mask{set}})
					}
				}
			}
		default:
			rng := rand.New(rand.NewPCG(1, uint64(piece)))
			for range drawnSets / servePieces {
				s := rested{floor: rng.IntN(n), m: b.memories()[rng.IntN(len(b.memories()))]}
				share := rng.Float64()
				for i := range b.d.Calls {
					if rng.Float64() < share {
						s.calls.add(i)
					}
				}
				try(s)
			}
		}
		if err := p.step(); err != nil {
			return count, lost, err
		}
	}
	return count, lost, nil
}

// drawnSets is how many states are followed where not all can be.
const drawnSets = 20000

// serves follows one state. Every stop of a sound rule answers a call, and
// between two stops that do not it must have turned, so that there cannot be
// more stops than twice the calls and two.
func (r *round) serves(s rested) bool {
	for most := 2*s.calls.size() + 2; most >= 0; most-- {
		next, goes := r.next(s)
		if !goes {
			return s.calls.size() == 0
		}
		s = next
	}
	return false
}

func (r *round) lostCase(s rested) *Case {
	c := &Case{Phase: Resting, Floor: s.floor, Memory: s.m}
	for i, call := range r.d.Calls {
		if s.calls.has(i) {
			c.Calls = append(c.Calls, call)
		}
	}
	return c
}
