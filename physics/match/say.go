package match

import (
	"math"

	"wheelroom/physics/phrase"
)

// Says puts the result into sentences: what fits, what cannot be told apart,
// which lamps are left over, how the building file's own ring does.
func (r *Result) Says() []phrase.Phrase {
	var out []phrase.Phrase
	add := func(id string, slots ...any) { out = append(out, phrase.Of("match."+id, slots...)) }
	name := func(floor int) string { return r.Plan.Floors[floor].Name }

	perFloor, rate := r.Of(TerminalsPerFloor), r.Of(TerminalsPerS)
	switch r.Verdict {
	case None:
		add("none")
	case Set:
		speed := r.Of(SpeedMS)
		add("set", rangeOf(rate, 3)...)
		add("set-pairs", "low", phrase.Num(perFloor.Low, 2), "high", phrase.Num(perFloor.High, 2),
			"slow", phrase.Num(speed.Low, 2), "fast", phrase.Num(speed.High, 2), "rate", phrase.Num(rate.Value, 3))
	case Several:
		add(asFarAsTold(perFloor, "several", "several-range"), append(rangeOf(perFloor, 3), "live", r.Live)...)
	default:
		add(asFarAsTold(perFloor, "one", "one-range"), append(rangeOf(perFloor, 3), "live", r.Live)...)
	}
	if r.Good() {
		out = append(out, r.joined()...)
	}
	for _, o := range r.Others {
		add(asFarAsTold(o.Unknowns[0], "other", "other-range"), append(rangeOf(o.Unknowns[0], 2), "joined", listOf(o.Joinings))...)
	}
	for _, p := range r.Pairs {
		add("pair-"+p.A.String()+"-"+p.B.String(), "rate", phrase.Num(rate.Value, 3))
	}
	for _, f := range r.Unexplained {
		if !r.Good() {
			break
		}
		worst := FitEdge{}
		for _, e := range r.Edges {
			if e.Floor == f && math.Abs(e.ResidualS) > math.Abs(worst.ResidualS) {
				worst = e
			}
		}
		if worst.Row == 0 {
			add("unexplained", "lamp", name(f))
			continue
		}
		id := "unexplained-off"
		if worst.On {
			id = "unexplained-on"
		}
		if worst.ResidualS < 0 {
			id += "-early"
		} else {
			id += "-late"
		}
		add(id, "lamp", name(f), "row", worst.Row, "seconds", phrase.Num(math.Abs(worst.ResidualS), 2))
	}
	for _, f := range r.Unseen {
		add("unseen", "lamp", name(f), "on", seconds(r.Lamps[f][1][0].OnS))
	}
	if r.Good() {
		add("motion-" + r.Motion.String())
		add("scatter", "scatter", phrase.Num(1000*r.ScatterS, 0))
	}
	if c := r.File; c != nil {
		id := "file"
		if c.Missing > 0 {
			id = "file-missing"
		}
		add(id, "root", phrase.Num(1000*c.RootS, 0), "most", phrase.Num(1000*c.MostS, 0), "count", c.Missing)
	}
	return out
}

// joined says which other numbers of joined terminals show the same.
func (r *Result) joined() []phrase.Phrase {
	out := []phrase.Phrase{phrase.Of("match.widths", "low", phrase.Num(r.Joinings[0].Widths.Low, 2),
		"high", phrase.Num(r.Joinings[0].Widths.High, 2), "count", r.Live)}
	for _, j := range r.Joinings[1:] {
		out = append(out, phrase.Of("match.joining", "count", j.Live,
			"low", phrase.Num(j.Widths.Low, 2), "high", phrase.Num(j.Widths.High, 2)))
	}
	return out
}

// listOf spells numbers of joined terminals as "2, 1".
func listOf(joinings []Joining) string {
	var n []int
	for _, j := range joinings {
		n = append(n, j.Live)
	}
	return listed(n)
}

// asFarAsTold is the message that names a value, or the one that names only its
// interval where there is no value to name.
func asFarAsTold(u Unknown, value, interval string) string {
	if u.Told {
		return value
	}
	return interval
}

// Of returns a quantity's interval, or one without a value.
func (r *Result) Of(q Quantity) Unknown {
	for _, u := range r.Unknowns {
		if u.Quantity == q {
			return u
		}
	}
	return Unknown{Quantity: q, Value: math.NaN(), Low: math.Inf(-1), High: math.Inf(1)}
}

func rangeOf(u Unknown, decimals int) []any {
	return []any{"value", phrase.Num(u.Value, decimals), "low", phrase.Num(u.Low, decimals), "high", phrase.Num(u.High, decimals)}
}
