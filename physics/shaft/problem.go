package shaft

import (
	"math"

	"wheelroom/physics/phrase"
	"wheelroom/physics/selector"
)

// Problems returns what is wrong with the order of the switches beyond a
// terminal landing: vane, stop limit, final limit.
func (s *Shaft) Problems() []selector.Problem {
	var out []selector.Problem
	if s.stopM <= s.vaneHalfM {
		out = append(out, selector.Problem{Key: "shaft.stop_limit_m",
			Say: phrase.Of("shaft.stop-limit-early", "limit", phrase.Num(s.stopM, 3),
				"cure", phrase.Num(math.Floor(s.vaneHalfM*1000+1e-6)/1000+0.001, 3))})
	}
	if s.finalM <= s.stopM {
		out = append(out, selector.Problem{Key: "shaft.final_limit_m", Grave: true,
			Say: phrase.Of("shaft.final-limit-early", "final", phrase.Num(s.finalM, 3),
				"stop", phrase.Num(s.stopM, 3))})
	}
	return out
}
