package study

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/phrase"
)

// A Side is one of two machines that make the same trip.
type Side struct {
	Fitting
	Run     *Run
	Figures drive.Figures
}

// A Comparison is one trip made twice with different handwheels, both clocks
// beginning when the contactors come in. A has the lighter wheel.
type Comparison struct {
	Trip Trip
	A, B Side
}

// Compare runs the trip with two handwheels, in any order. Its errors are
// those of Ride.
func Compare(p *building.Plan, t Trip, a, b Choice) (Comparison, error) {
	if b.HandwheelKGM2 < a.HandwheelKGM2 {
		a, b = b, a
	}
	c := Comparison{Trip: t}
	for _, s := range []struct {
		side   *Side
		choice Choice
	}{{&c.A, a}, {&c.B, b}} {
		plan, fitting := With(p, s.choice)
		run, err := Ride(&plan, t)
		if err != nil {
			return Comparison{}, err
		}
		*s.side = Side{Fitting: fitting, Run: run, Figures: run.Figures()}
	}
	return c, nil
}

// Say states the trade-off in the numbers of the two runs: what the heavier
// wheel softens, what it costs, and where a wheel does not fit its shaft.
func (c *Comparison) Say() []phrase.Phrase {
	a, b := &c.A, &c.B
	if a.HandwheelKGM2 == b.HandwheelKGM2 {
		return append([]phrase.Phrase{phrase.Of("drive.same-wheels", "wheel", phrase.Num(a.HandwheelKGM2, 2))}, c.misfits()...)
	}
	var out []phrase.Phrase
	light, heavy := phrase.Num(a.HandwheelKGM2, 2), phrase.Num(b.HandwheelKGM2, 2)
	ja, jb := a.Figures.ChangeJerkMS3, b.Figures.ChangeJerkMS3
	if !math.IsNaN(ja) && !math.IsNaN(jb) {
		id := "drive.softer"
		if jb >= ja {
			id = "drive.not-softer"
		}
		out = append(out, phrase.Of(id, "light", light, "heavy", heavy, "from", phrase.Num(ja, 1), "to", phrase.Num(jb, 1),
			"percent", phrase.Num(100*(1-jb/ja), 0)))
	}
	if sa, sb := a.Figures.SlowDownM, b.Figures.SlowDownM; !math.IsNaN(sa) && !math.IsNaN(sb) {
		out = append(out, phrase.Of("drive.longer", "light", phrase.Num(sa, 2), "heavy", phrase.Num(sb, 2),
			"need-light", phrase.Num(a.NeedM, 2), "need-heavy", phrase.Num(b.NeedM, 2)))
	}
	if ta, tb := a.Figures.TripS, b.Figures.TripS; !math.IsNaN(ta) && !math.IsNaN(tb) {
		id := "drive.slower"
		if tb < ta {
			id = "drive.quicker"
		}
		out = append(out, phrase.Of(id, "light", phrase.Num(ta, 2), "heavy", phrase.Num(tb, 2), "by", phrase.Num(math.Abs(tb-ta), 2),
			"energy-light", phrase.Num(a.Figures.HandwheelJ/1000, 1), "energy-heavy", phrase.Num(b.Figures.HandwheelJ/1000, 1),
			"heat-light", phrase.Num(a.Figures.RotorHeatJ/1000, 1), "heat-heavy", phrase.Num(b.Figures.RotorHeatJ/1000, 1)))
	}
	return append(out, c.misfits()...)
}

// misfits says where a wheel does not suit the advance and the vanes it got.
func (c *Comparison) misfits() []phrase.Phrase {
	out := c.A.Misfits()
	if c.A.Fitting != c.B.Fitting {
		out = append(out, c.B.Misfits()...)
	}
	return out
}

// Misfits says where the handwheel does not suit its advance and its vanes;
// nothing where it does.
func (s *Side) Misfits() []phrase.Phrase {
	wheel := phrase.Num(s.HandwheelKGM2, 2)
	switch {
	case s.NeedM == 0:
		return []phrase.Phrase{phrase.Of("drive.motor-too-weak", "wheel", wheel)}
	case math.IsNaN(s.Figures.TripS):
		return []phrase.Phrase{phrase.Of("drive.not-arrived", "wheel", wheel)}
	case s.Cramped:
		return []phrase.Phrase{phrase.Of("drive.no-room", "wheel", wheel, "need", phrase.Num(s.NeedM, 2), "room", phrase.Num(s.RoomM, 2),
			"speed", phrase.Num(s.Figures.VaneSpeedMS, 2), "level", level(s.Figures.LevelM))}
	case s.Short:
		return []phrase.Phrase{phrase.Of("drive.advance-short", "wheel", wheel, "need", phrase.Num(s.NeedM, 2), "has", phrase.Num(s.AdvanceM, 2),
			"speed", phrase.Num(s.Figures.VaneSpeedMS, 2), "level", level(s.Figures.LevelM))}
	case math.Abs(s.VaneM-s.NeedVaneM) > 0.005:
		return []phrase.Phrase{phrase.Of("drive.vane-misfits", "wheel", wheel, "need", phrase.Num(1000*s.NeedVaneM, 0),
			"has", phrase.Num(1000*s.VaneM, 0), "level", level(s.Figures.LevelM))}
	}
	return nil
}

// level words a levelling error: so many millimetres past the landing, or
// short of it.
func level(m float64) phrase.Phrase {
	mm := math.Round(10000*m) / 10
	switch {
	case mm > 0:
		return phrase.Of("drive.past", "mm", phrase.Num(mm, 1))
	case mm < 0:
		return phrase.Of("drive.short", "mm", phrase.Num(-mm, 1))
	}
	return phrase.Of("drive.level")
}
