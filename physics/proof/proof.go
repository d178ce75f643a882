// Package proof goes through every state in which a control circuit has to
// decide, lets it settle, and holds what it does against the written rule of
// service.
//
// States are: every call set, every place of the car at and between landings,
// every state of memory, and what the lift is doing. The circuit is judged at
// switch level, 64 call sets at a time; package control holds that level
// against the electrical network. Where the circuit agrees with the rule in
// every state, the rule itself is followed from every state until no call is
// left. Last, relay times are spread by ±30 % where relays move together, to
// find out whether which of them is first decides anything.
//
// Beyond FullCalls calls the sets are too many. Then they are tried by kind:
// which kinds of call lie above, here and below. That this is enough is itself
// checked against every set in buildings of 3 to 5 floors with the same
// scheme. What must never happen, whatever is called, is tried by kind in any
// building.
//
// The package leaves out the car's motion: how far it travels while relays
// move is for the running machine to show.
package proof

import (
	"context"
	"fmt"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// FullCalls is the greatest number of calls of which every set is tried: 13
// floors with one button each, or 5 with two landing buttons and a car button.
const FullCalls = 13

// A Question is what is to be proved.
type Question struct {
	Plan    *building.Plan
	Scheme  string           // "" for the plan's own
	Diagram *control.Diagram // nil for the scheme's own
}

// A Report is what came of it.
type Report struct {
	Scheme string
	Floors int
	Proved bool

	Cases   int64 // settled circuits held against the rule
	Places  int   // of the car
	Sets    int   // call sets of one state, all of them but for what must never happen; 0 where tried by kind
	Checked int64 // cases of the check that kinds are enough; 0 where not needed
	Served  int64 // states from which every call was seen to be served
	Corners int64 // combinations of relay times tried

	Wrong  *Case // the smallest case the circuit gets wrong; nil for none
	Weaker *Case // where the scheme's rule is weaker than keeping a direction: the smallest case; nil elsewhere
	Split  bool  // kinds of call were found not to be enough
	Lost   *Case // a state from which some call is never served; nil for none
	Race   *Race // a critical race; nil for none
}

// Refuting returns the case in which the circuit fails its rule, or the rule
// somebody who waits; nil where nothing fails, or what fails is no case: kinds
// that are not enough, or a race, which is for the relays' times to decide.
func (r *Report) Refuting() *Case {
	if r.Wrong != nil {
		return r.Wrong
	}
	return r.Lost
}

// Prove answers a question. progress, if not nil, is told now and then how
// much is done of how much; cancelling ctx ends the proof with ctx's error.
// Any other error is of a circuit that cannot be judged.
func Prove(ctx context.Context, q Question, progress func(done, of int)) (Report, error) {
	p := &prover{ctx: ctx, progress: progress}
	return p.prove(q)
}

type prover struct {
	ctx      context.Context
	progress func(done, of int)
	done, of int
}

// step counts one piece of work and tells whether to go on.
func (p *prover) step() error {
	p.done++
	if p.progress != nil {
		p.progress(min(p.done, p.of), p.of)
	}
	return p.ctx.Err()
}

func (p *prover) prove(q Question) (Report, error) {
	plan := *q.Plan
	if q.Scheme != "" {
		plan.Control.Scheme = q.Scheme
	}
	r := Report{Scheme: plan.Control.Scheme, Floors: len(plan.Floors)}
	rule, ok := rules[r.Scheme]
	if !ok {
		return r, fmt.Errorf("proof: scheme %q, want one of %v", r.Scheme, control.Schemes())
	}
	s, err := newGround(&plan, q.Diagram)
	if err != nil {
		return r, err
	}
	full := len(s.b.d.Calls) <= FullCalls
	p.of = s.pieces() + servePieces + racePieces
	var small []*ground
	if !full {
		if small, err = smaller(&plan); err != nil {
			return r, err
		}
		for _, o := range small {
			p.of += o.pieces()
		}
	}

	j := &judge{b: s.b, rule: rule}
	if err := p.judge(j, s, full); err != nil {
		return r, err
	}
	r.Cases, r.Places, r.Wrong = j.cases, len(s.places), j.worst
	if full {
		r.Sets = 1 << len(s.b.d.Calls)
	}
	if r.Wrong != nil {
		return r, nil
	}
	for _, o := range small {
		k := &judge{b: o.b, rule: rule, classes: &classes{}}
		if err := p.judge(k, o, true); err != nil {
			return r, err
		}
		r.Checked += k.cases
		r.Split = r.Split || k.classes.split
		if k.worst != nil {
			r.Wrong = k.worst
			return r, nil
		}
	}
	if err := p.others(&r, &plan, q, s, rule, full); err != nil {
		return r, err
	}
	r.Proved = r.Wrong == nil && !r.Split && r.Lost == nil && r.Race == nil
	return r, nil
}

// others follows the rule to the end of every call, looks for races, and for a
// scheme that keeps no direction for the case that shows it.
func (p *prover) others(r *Report, plan *building.Plan, q Question, s *ground, rule rule, full bool) error {
	var err error
	if r.Served, r.Lost, err = p.serve(s.b, rule, full); err != nil {
		return err
	}
	if r.Corners, r.Race, err = p.races(plan, q.Diagram); err != nil {
		return err
	}
	if s.b.part.direction < 0 {
		r.Weaker = weaker(s)
	}
	return nil
}

// ground is a circuit with all the places its car can be.
type ground struct {
	b      *bench
	places []*place
}

func newGround(plan *building.Plan, d *control.Diagram) (*ground, error) {
	m, err := lift.New(plan, lift.Options{})
	if err != nil {
		return nil, err
	}
	if d == nil {
		d = m.Wiring().Diagram
	}
	b, err := newBench(d)
	if err != nil {
		return nil, err
	}
	return &ground{b, b.places(m)}, nil
}

// smaller are buildings of 3 to 5 floors with the plan's scheme.
func smaller(plan *building.Plan) ([]*ground, error) {
	var out []*ground
	for n := 3; n <= 5; n++ {
		p := building.Evenly(plan.Name, n, 3.2)
		p.Control = plan.Control
		s, err := newGround(&p, nil)
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, nil
}

// pieces is how many pieces of work it makes.
func (s *ground) pieces() int { return (int(lastPhase) + 1) * len(s.places) }

// landingsFirst is the order in which places are looked at: of two cases
// equally small the one at a landing is easier to set up.
func (s *ground) landingsFirst() []*place {
	var at, between []*place
	for _, p := range s.places {
		if p.landing >= 0 {
			at = append(at, p)
		} else {
			between = append(between, p)
		}
	}
	return append(at, between...)
}

// judge goes through all phases, places, memories and call sets.
func (p *prover) judge(j *judge, s *ground, full bool) error {
	every := []chunk{}
	if full {
		every = everySet(len(s.b.d.Calls))
	}
	for phase := Resting; phase <= lastPhase; phase++ {
		if phase > Closing && j.worst != nil {
			break // what goes wrong in service is the smaller case to show
		}
		for _, at := range s.landingsFirst() {
			sets := every
			if phase.guards() {
				sets = nil
			}
			for _, m := range s.b.memories() {
				if !phase.belongs(s.b, at, m) {
					continue
				}
				if len(sets) == 0 {
					sets = packed(byKind(s.b.d, at), len(s.b.d.Calls))
				}
				if j.classes != nil {
					clear(j.classes.seen)
				}
				for _, c := range sets {
					j.look(phase, at, c, m)
				}
			}
			if err := p.step(); err != nil {
				return err
			}
		}
	}
	return nil
}

// weaker finds the smallest case in which the circuit does not go on in the
// direction from which it has come, as a scheme with a direction relay would.
func weaker(s *ground) *Case {
	j := &judge{b: s.b, rule: rules["directional"]}
	for _, at := range s.places {
		if at.landing < 0 || !at.first {
			continue
		}
		j.phase, j.place, j.memory = Resting, at, memory{Down: true}
		for _, c := range packed(byKind(s.b.d, at), len(s.b.d.Calls)) {
			j.chunk = c
			j.b.lay(at, c, memory{})
			j.b.follow()
			j.b.settle()
			_, up, _ := j.rule.rest(&sight{d: s.b.d, calls: c.calls, p: at, m: j.memory})
			j.relay("relay.up", j.b.part.up, up)
		}
	}
	return j.worst
}
