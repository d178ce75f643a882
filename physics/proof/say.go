package proof

import (
	"strings"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/phrase"
	"wheelroom/physics/why"
)

// Say puts the report into sentences: the verdict, the rule, what was tried,
// and where it fails the smallest case. plan is the one that was proved.
func (r *Report) Say(plan *building.Plan) []phrase.Phrase {
	scheme := control.Name(r.Scheme)
	verdict := "proof.refuted"
	if r.Proved {
		verdict = "proof.proved"
	}
	out := []phrase.Phrase{
		phrase.Of(verdict, "scheme", scheme, "count", r.Floors),
		phrase.Of("proof.rule-" + r.Scheme),
	}
	if r.Wrong != nil {
		return append(out, r.Wrong.Say(plan), control.Limits(r.Scheme))
	}
	if r.Sets > 0 {
		out = append(out, phrase.Of("proof.every-set", "cases", number(r.Cases), "sets", r.Sets, "places", r.Places))
	} else {
		out = append(out, phrase.Of("proof.by-kind", "cases", number(r.Cases), "places", r.Places),
			phrase.Of("proof.kinds-checked", "cases", number(r.Checked)))
	}
	if r.Split {
		return append(out, phrase.Of("proof.kinds-not-enough"))
	}
	if r.Lost != nil {
		return append(out, phrase.Of("proof.lost", "where", r.Lost.where(plan), "calls", callList(plan, r.Lost.Calls)))
	}
	served := "proof.served-all"
	if r.Sets == 0 {
		served = "proof.served-drawn"
	}
	out = append(out, phrase.Of(served, "states", number(r.Served)))
	if r.Race != nil {
		return append(out, r.Race.Say())
	}
	out = append(out, phrase.Of("proof.no-race", "corners", number(r.Corners)))
	if r.Weaker != nil {
		forgets := *r.Weaker
		forgets.Memory = memory{} // which is the point
		out = append(out, phrase.Of("proof.weaker", "where", forgets.where(plan), "calls", callList(plan, forgets.Calls)))
	}
	return append(out, control.Limits(r.Scheme))
}

// number is a large whole number, for which an int may be too small.
func number(n int64) phrase.Number { return phrase.Num(float64(n), 0) }

// Say puts a case into a sentence: what the lift is doing, what is called, and
// what its circuit does wrong.
func (c *Case) Say(plan *building.Plan) phrase.Phrase {
	wrong := phrase.Of("proof.never-settles")
	switch {
	case c.Both:
		wrong = phrase.Of("proof.both")
	case c.Part != "" && c.In:
		wrong = phrase.Of("proof.is-in", "part", why.Name(c.Part))
	case c.Part != "":
		wrong = phrase.Of("proof.is-out", "part", why.Name(c.Part))
	}
	return phrase.Of("proof.case", "where", c.where(plan), "calls", callList(plan, c.Calls), "wrong", wrong)
}

// where says what the lift is doing, and where.
func (c *Case) where(plan *building.Plan) phrase.Phrase {
	place := c.place(plan)
	id := "proof.phase-" + c.Phase.String()
	switch {
	case c.Phase == Running || c.Phase == Slowing || c.Phase == Starting || c.Phase == Tripped:
		if c.Up {
			id += "-up"
		} else {
			id += "-down"
		}
	case c.Memory.Down:
		return phrase.Of("proof.remembers-down", "where", phrase.Of(id, "place", place))
	case c.Memory.BoundUp:
		return phrase.Of("proof.remembers-up", "where", phrase.Of(id, "place", place))
	}
	return phrase.Of(id, "place", place)
}

func (c *Case) place(plan *building.Plan) phrase.Phrase {
	if c.Floor >= 0 {
		return phrase.Of("proof.at-landing", "floor", plan.Floors[c.Floor].Name)
	}
	at := (c.FromM + c.ToM) / 2
	for f := range plan.Floors {
		if plan.Floors[f].HeightM < at {
			continue
		}
		if f == 0 {
			return phrase.Of("proof.under", "floor", plan.Floors[0].Name)
		}
		return phrase.Of("proof.between", "below", plan.Floors[f-1].Name, "above", plan.Floors[f].Name)
	}
	return phrase.Of("proof.over", "floor", plan.Floors[len(plan.Floors)-1].Name)
}

// callList writes calls as one gives them on the command line.
func callList(plan *building.Plan, calls []control.Call) any {
	if len(calls) == 0 {
		return phrase.Of("proof.no-calls")
	}
	var out []string
	for _, c := range calls {
		name := plan.Floors[c.Floor].Name
		if c.Kind != control.AnyCall {
			name += ":" + c.Kind.String()
		}
		out = append(out, name)
	}
	return strings.Join(out, ", ")
}

// Say names a race.
func (r *Race) Say() phrase.Phrase {
	id := "proof.race"
	if r.Late {
		return phrase.Of("proof.race-late", "relay", why.Name("relay.stop"))
	}
	if r.Both {
		id = "proof.race-both"
	}
	return phrase.Of(id, "first", why.Name(r.Relays[0]), "second", why.Name(r.Relays[1]),
		"scene", phrase.Of("proof.scene-"+r.Scene.String()))
}
