package selector

import (
	"math"

	"wheelroom/physics/phrase"
)

// Anomalies says in words where the ring's lamps do not behave evenly: floors
// without a lamp, landings that do not light their own, lamps that blink
// within their floor or are lit for less travel than the longest, and floors
// between which another's lamp is lit or no dark interval lies. They are in that
// order, each from the lowest floor up. None of them need be a fault.
func (r *Ring) Anomalies() []phrase.Phrase {
	var out []phrase.Phrase
	for f, spans := range r.lit {
		if len(spans) == 0 {
			out = append(out, phrase.Of("ring.no-lamp", "floor", r.names[f]))
		}
	}
	for f, y := range r.landingsM {
		if len(r.lit[f]) > 0 && !r.Feeds(f, y) {
			out = append(out, phrase.Of("ring.landing-dark", "floor", r.names[f]))
		}
	}
	for f, spans := range r.lit {
		if len(spans) > 1 {
			out = append(out, phrase.Of("ring.blinks-within", "floor", r.names[f], "count", len(spans)-1))
		}
	}
	longest := 0.0
	for f := range r.lit {
		longest = math.Max(longest, r.LitM(f))
	}
	for f, spans := range r.lit {
		if lit := r.LitM(f); len(spans) > 0 && longest-lit > tieInPitch*r.pitchM {
			out = append(out, phrase.Of("ring.lit-shorter", "floor", r.names[f],
				"lit", phrase.Num(lit, 3), "longest", phrase.Num(longest, 3)))
		}
	}
	for _, b := range r.Boundaries() {
		two := []any{"below", r.names[b.Below], "above", r.names[b.Above]}
		for _, f := range b.Others {
			out = append(out, phrase.Of("ring.lit-between", append(two, "floor", r.names[f])...))
		}
		switch {
		case b.DarkM > 0:
		case b.OverlapM > 0:
			out = append(out, phrase.Of("ring.no-dark-interval", append(two, "overlap", phrase.Num(b.OverlapM, 3))...))
		default:
			out = append(out, phrase.Of("ring.never-dark-between", two...))
		}
	}
	return out
}

// LitM returns the car travel for which the floor's lamp is fed, metres.
func (r *Ring) LitM(floor int) float64 {
	sum := 0.0
	for _, s := range r.lit[floor] {
		sum += s.UpBreak - s.UpMake
	}
	return sum
}
