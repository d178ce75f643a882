package bench

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/lamp"
	"wheelroom/physics/phrase"
	"wheelroom/physics/selector"
)

// A Report is everything there is to say about one ring.
type Report struct {
	Plan       *building.Plan
	Ring       *selector.Ring
	FullMS     float64 // car speed, metres a second
	SlowMS     float64
	Terminals  []Terminal
	Boundaries []Boundary
	Lamps      []Lamp
	Notes      []phrase.Phrase    // what is uneven about the lamps; none of it need be a fault
	Problems   []selector.Problem // what is wrong with the ring as planned
}

// A Terminal is one line of the schedule.
type Terminal struct {
	Index    int
	AngleDeg float64
	HeightM  float64
	Floor    string // "" where blank
}

// A Boundary is what lies between the lamps of two floors that follow each
// other: a dark interval, an overlap, both or neither. Where a hand has joined
// another floor's terminal in between, all that is dark counts together.
type Boundary struct {
	Below, Above   string // floors
	BlankTerminals int
	DarkM          float64    // 0 where there is no dark interval
	DarkS          float64    // at full speed
	DarkSlowS      float64    // at slow speed
	LongestDarkS   float64    // at full speed, where other lamps part the dark interval
	OverlapM       float64    // 0 where the lamps do not overlap
	OverlapS       float64    // at full speed
	Sight          lamp.Sight // of the longest
}

// A Lamp is how long one floor's lamp is lit as the car passes.
type Lamp struct {
	Floor string
	LitM  float64
	LitS  float64 // at full speed
}

// Lay reports on the ring of a plan with at least two landings.
func Lay(p *building.Plan) *Report {
	ring, problems := selector.NewRing(p)
	r := LayRing(p, ring)
	r.Problems = problems
	return r
}

// LayRing reports on a ring of the plan that was joined otherwise.
func LayRing(p *building.Plan, ring *selector.Ring) *Report {
	r := &Report{Plan: p, Ring: ring, FullMS: p.Machine.RatedSpeedMS, SlowMS: drive.SynchronousSpeedMS(p, drive.Slow)}
	for i, t := range ring.Terminals() {
		row := Terminal{Index: i, AngleDeg: t.AngleRad * 180 / math.Pi, HeightM: t.HeightM}
		if t.Floor != selector.Blank {
			row.Floor = p.Floors[t.Floor].Name
		}
		r.Terminals = append(r.Terminals, row)
	}
	for _, b := range ring.Boundaries() {
		longest := b.LongestDarkM() / r.FullMS
		r.Boundaries = append(r.Boundaries, Boundary{
			Below: p.Floors[b.Below].Name, Above: p.Floors[b.Above].Name, BlankTerminals: b.BlankTerminals,
			DarkM: b.DarkM, DarkS: b.DarkM / r.FullMS, DarkSlowS: b.DarkM / r.SlowMS, LongestDarkS: longest,
			OverlapM: b.OverlapM, OverlapS: b.OverlapM / r.FullMS, Sight: lamp.Sees(longest),
		})
	}
	for f, floor := range p.Floors {
		lit := ring.LitM(f)
		r.Lamps = append(r.Lamps, Lamp{Floor: floor.Name, LitM: lit, LitS: lit / r.FullMS})
	}
	r.Notes = append(ring.Anomalies(), r.unseen()...)
	return r
}

// unseen are the dark intervals too short for the lamps, and the lamps that
// are passed too quickly to come up.
func (r *Report) unseen() []phrase.Phrase {
	var out []phrase.Phrase
	for _, b := range r.Boundaries {
		id := map[lamp.Sight]string{lamp.Hidden: "bench.dark-hidden", lamp.Doubtful: "bench.dark-doubtful"}[b.Sight]
		if b.DarkM == 0 || id == "" {
			continue
		}
		out = append(out, phrase.Of(id, "below", b.Below, "above", b.Above, "dark", milliseconds(b.LongestDarkS),
			"quick", milliseconds(lamp.Quick.FallS), "slow", milliseconds(lamp.Slow.FallS)))
	}
	for _, l := range r.Lamps {
		if l.LitM > 0 && l.LitS < lamp.Slow.RiseS {
			out = append(out, phrase.Of("bench.lamp-flash", "floor", l.Floor, "lit", milliseconds(l.LitS),
				"rise", milliseconds(lamp.Slow.RiseS)))
		}
	}
	return out
}

func milliseconds(s float64) phrase.Number { return phrase.Num(1000*s, 0) }
