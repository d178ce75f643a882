package proof

import (
	"slices"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// Relay times are spread by this share either way.
const spreadShare = 0.3

// A Race is two relays of which the first decides what the lift does.
type Race struct {
	Relays [2]lift.Part // whose order differs between two corners
	Scene  Scene        // what was going on
	Calls  []control.Call
	Floor  int         // landing at or before which the car is
	Memory Memory      // what the circuit remembered
	Quick  []lift.Part // relays at 0.7 of their times where the first wins; the others at 1.3
	Both   bool        // both directions or both windings came on together
	Late   bool        // the stop relay misses the advance contact, or catches one it should not
}

// A Scene is a moment at which relays move together.
type Scene uint8

// The scenes.
const (
	Pressing Scene = iota // at rest: buttons pressed at one instant
	Locking               // the doors have closed on calls registered before
	Passing               // running past an advance contact, short as it is
	Levelled              // running slow into a vane, and to rest
)

// String returns the scene's word.
func (s Scene) String() string { return [...]string{"pressing", "locking", "passing", "levelled"}[s] }

// scenario is a scene with its calls, memory and way.
type scenario struct {
	scene Scene
	place *place
	calls mask
	m     memory
	up    bool
}

// racePieces is how many pieces of work the search for races counts as.
const racePieces = 20

// races runs every scenario at every corner of the relay times that can
// matter, on three landings with the car at the middle one: the others' calls
// are those above and below.
func (p *prover) races(plan *building.Plan, d *control.Diagram) (int64, *Race, error) {
	if d == nil && len(plan.Floors) != 3 {
		three := building.Evenly(plan.Name, 3, 3.2)
		three.Control, three.Brake, three.Door = plan.Control, plan.Brake, plan.Door
		three.Selector.AdvanceContactM, three.Machine.RatedSpeedMS = plan.Selector.AdvanceContactM, plan.Machine.RatedSpeedMS
		plan = &three
	}
	g, err := newGround(plan, d)
	if err != nil {
		return 0, nil, err
	}
	t := newTimed(g.b, plan)
	all := g.scenarios()
	corners := int64(0)
	for piece := range racePieces {
		for _, s := range all[len(all)*piece/racePieces : len(all)*(piece+1)/racePieces] {
			n, race := g.race(t, plan, s)
			corners += n
			if race != nil {
				return corners, race, nil
			}
		}
		if err := p.step(); err != nil {
			return corners, nil, err
		}
	}
	return corners, nil, nil
}

// scenarios lists them for a middle landing.
func (g *ground) scenarios() []scenario {
	var out []scenario
	middle := len(g.b.d.Floors) / 2
	find := func(fits func(p *place) bool) *place {
		i := slices.IndexFunc(g.places, fits)
		if i < 0 {
			return nil
		}
		return g.places[i]
	}
	add := func(scene Scene, p *place, up bool, m memory) {
		if p == nil {
			return
		}
		for _, set := range g.combinations(middle) {
			out = append(out, scenario{scene, p, set, m, up})
		}
	}
	at := find(func(p *place) bool { return p.landing == middle && p.Stand[middle] == lift.Between })
	add(Pressing, at, false, memory{})
	for _, m := range g.b.memories() {
		add(Locking, at, false, m)
		for _, up := range []bool{true, false} {
			if g.b.part.direction >= 0 && m.Down == up {
				continue
			}
			before := find(func(p *place) bool {
				return p.Up == up && p.FromM > g.places[0].FromM && (up && p.advanceUp[middle] || !up && p.advanceDown[middle])
			})
			add(Passing, before, up, m)
			add(Levelled, at, up, m)
		}
	}
	return out
}

// combinations are the call sets of a scenario: any calls at the middle
// landing, with or without one of one kind above and one below.
func (g *ground) combinations(middle int) []mask {
	var here, far []int
	side := map[bool]bool{}
	for i, c := range g.b.d.Calls {
		switch {
		case c.Floor == middle:
			here = append(here, i)
		case (c.Kind == control.AnyCall || c.Kind == control.CarCall) && !side[c.Floor > middle]:
			side[c.Floor > middle] = true
			far = append(far, i)
		}
	}
	var out []mask
	calls := append(far, here...)
	for set := 1; set < 1<<len(calls); set++ {
		var m mask
		for j, i := range calls {
			if set>>j&1 == 1 {
				m.add(i)
			}
		}
		out = append(out, m)
	}
	return out
}

// stage puts the timed circuit at the beginning of a scenario and returns what
// happens to it and for how long to look.
func (g *ground) stage(t *timed, plan *building.Plan, s scenario) ([]act, float64) {
	b := g.b
	calls := packed([]mask{s.calls}, len(b.d.Calls))[0]
	b.lay(s.place, calls, s.m)
	var acts []act
	untilS := 1.0
	longest := 0.0
	for _, n := range t.nominal {
		longest = max(longest, n[0], n[1])
	}
	switch s.scene {
	case Pressing:
		for i, signal := range b.calls {
			b.set(signal, false)
			if s.calls.has(i) {
				acts = append(acts, act{0, b.buttons[i], true})
			}
		}
		for i := range b.calls {
			if s.calls.has(i) {
				acts = append(acts, act{lift.HoldS, b.buttons[i], false})
			}
		}
	case Locking:
		b.set(b.part.cam, false)
		b.set(b.part.lock, false)
		b.set(b.part.safety, false)
		b.follow()
		// The cam begins now; it has been out with the doors open.
		b.set(b.part.cam, false)
		b.set(b.part.safety, false)
	case Passing:
		b.run(s.up, false)
		advance := b.l.Signal(b.d.Part(map[bool]string{true: "advance-up", false: "advance-down"}[s.up], len(b.d.Floors)/2), "")
		b.set(advance, false)
		b.follow()
		// The car is fastest a little above its rated speed.
		acts = []act{{0, advance, true}, {plan.Selector.AdvanceContactM / (1.1 * plan.Machine.RatedSpeedMS), advance, false}}
	case Levelled:
		b.run(s.up, true)
		b.set(b.part.vane, false)
		b.set(b.part.level, false)
		b.follow()
		acts = []act{{0, b.part.vane, true}, {restS(plan), b.part.atRest, true}}
		untilS += restS(plan)
	}
	t.begin(b)
	return acts, untilS + 8*longest
}

// restS is a time after which the car stands still that has met the vane at
// slow speed: level, way and contactor let go, the brake sets.
func restS(plan *building.Plan) float64 {
	c := &plan.Control
	return 1.4*(c.LevelOperateS+c.RelayReleaseS+c.ContactorReleaseS+plan.Brake.SetS) + 0.2
}

// race runs a scenario at its corners; it returns how many and the race found.
func (g *ground) race(t *timed, plan *building.Plan, s scenario) (int64, *Race) {
	play := func(movers []int, corner int) uint64 {
		for k, c := range movers {
			t.factor[c] = 1 + spreadShare
			if corner>>k&1 == 1 {
				t.factor[c] = 1 - spreadShare
			}
		}
		acts, untilS := g.stage(t, plan, s)
		t.run(acts, untilS)
		return g.outcome(t, s.scene)
	}
	// As built first: that tells which relays move at all.
	for c := range t.factor {
		t.factor[c] = 1
	}
	play(nil, 0)
	movers := g.racers(t)
	outcomes := make([]uint64, 1<<len(movers))
	for corner := range outcomes {
		outcomes[corner] = play(movers, corner)
		if s.scene == Passing && t.in(t.part.stop) != g.stops(s) {
			return int64(corner + 1), &Race{Scene: s.scene, Calls: g.called(s), Floor: len(g.b.d.Floors) / 2, Memory: s.m, Late: true}
		}
		if outcomes[corner] == outcomes[0] {
			continue
		}
		// Corners differ: two that differ in one relay tell which it is. It
		// cannot be but that such a pair has been played by now or will be.
		for rest := corner + 1; rest < len(outcomes); rest++ {
			outcomes[rest] = play(movers, rest)
		}
		return int64(len(outcomes)), g.named(t, s, movers, outcomes, play)
	}
	return int64(len(outcomes)), nil
}

// named finds two corners that differ in the time of one relay and in what
// comes of it: the first relays that move in another order are those that
// race. Calls are tried last; that they come in in any order is no news.
func (g *ground) named(t *timed, s scenario, movers []int, outcomes []uint64, play func([]int, int) uint64) *Race {
	r := &Race{Scene: s.scene, Calls: g.called(s), Floor: len(g.b.d.Floors) / 2, Memory: s.m}
	coils := t.l.Coils()
	for k := len(movers) - 1; k >= 0; k-- {
		for slow, out := range outcomes {
			quick := slow | 1<<k
			if quick == slow || outcomes[quick] == out {
				continue
			}
			play(movers, slow)
			one := slices.Clone(t.moved)
			play(movers, quick)
			r.Relays = [2]lift.Part{lift.Part(coils[movers[k]]), lift.Part(coils[movers[k]])}
			for i := range min(len(t.moved), len(one)) {
				if t.moved[i] != one[i] {
					r.Relays = [2]lift.Part{lift.Part(coils[t.moved[i]]), lift.Part(coils[one[i]])}
					break
				}
			}
			for i, c := range movers {
				if quick>>i&1 == 1 {
					r.Quick = append(r.Quick, lift.Part(coils[c]))
				}
			}
			r.Both = (out|outcomes[quick])&shorted != 0
			return r
		}
	}
	panic("proof: corners differ, and no two neighbours do")
}

// called are the calls of a scenario.
func (g *ground) called(s scenario) []control.Call {
	var out []control.Call
	for i, c := range g.b.d.Calls {
		if s.calls.has(i) {
			out = append(out, c)
		}
	}
	return out
}

// stops is what the rule says of the floor whose advance contact the car of a
// scenario passes.
func (g *ground) stops(s scenario) bool {
	calls := packed([]mask{s.calls}, len(g.b.d.Calls))[0]
	rule := rules[g.b.d.Scheme]
	return rule.stop(&sight{d: g.b.d, calls: calls.calls, p: s.place, m: s.m}, s.up)&1 == 1
}

// racers are the coils that moved and whose contacts decide something. The
// brake and the safety relay decide nothing.
func (g *ground) racers(t *timed) []int {
	var out []int
	for c := range t.due {
		s := t.l.CoilSignal(c)
		if slices.Contains(t.moved, c) && s != t.part.brake && s != t.part.safety {
			out = append(out, c)
		}
	}
	return out
}

// shorted is the bit of an outcome that says that both directions or both
// windings were on together at some moment.
const shorted = 1 << 63

// outcome is how everything that matters stands in the end.
func (g *ground) outcome(t *timed, scene Scene) uint64 {
	signals := []int{t.part.up, t.part.down, t.part.upContactor, t.part.downContactor, t.part.stop, t.part.door, t.part.fast, t.part.slow}
	if scene == Levelled || scene == Locking {
		signals = append(signals, t.part.direction)
	}
	w := uint64(0)
	for i, s := range append(signals, g.b.calls...) {
		if t.in(s) {
			w |= 1 << i
		}
	}
	if t.shorted {
		w |= shorted
	}
	return w
}
