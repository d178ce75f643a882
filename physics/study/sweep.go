package study

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/phrase"
)

// Shares are the loads of a sweep, as shares of the rated load: empty to
// drive.MostLoad in steps of a tenth.
var Shares = []float64{0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1, drive.MostLoad}

// LevelMM is the stopping accuracy wanted of a lift, ± millimetres (EN 81-20
// 5.12.1.1.4; value from memory), and OpenLoopMM what a two-speed machine
// without re-levelling keeps to over all loads (common practice, no source).
const (
	LevelMM    = 10.0
	OpenLoopMM = 25.0
)

// A Loaded is one load of a sweep, with the figures of the trip both ways.
type Loaded struct {
	Share, LoadKG float64
	Up, Down      drive.Figures
}

// A Sweep is one trip there and back with every load.
type Sweep struct {
	From, To int // From is the lower landing
	Loads    []Loaded
	// Least and greatest levelling error over all of them, metres; NaN where
	// a trip did not arrive.
	LeastM, MostM float64
}

// Over runs the trip between two landings both ways with each share of the
// rated load. Its errors are those of Ride.
func Over(p *building.Plan, from, to int, shares []float64) (Sweep, error) {
	s := Sweep{From: min(from, to), To: max(from, to), LeastM: math.Inf(1), MostM: math.Inf(-1)}
	for _, share := range shares {
		l := Loaded{Share: share, LoadKG: share * p.Lift.RatedLoadKG}
		up, err := Ride(p, Trip{From: s.From, To: s.To, LoadKG: l.LoadKG})
		if err != nil {
			return Sweep{}, err
		}
		down, err := Ride(p, Trip{From: s.To, To: s.From, LoadKG: l.LoadKG})
		if err != nil {
			return Sweep{}, err
		}
		l.Up, l.Down = up.Figures(), down.Figures()
		// min and max carry a NaN on.
		s.LeastM = min(s.LeastM, l.Up.LevelM, l.Down.LevelM)
		s.MostM = max(s.MostM, l.Up.LevelM, l.Down.LevelM)
		s.Loads = append(s.Loads, l)
	}
	return s, nil
}

// SpreadM returns the range of the levelling error over all loads and both
// ways, metres.
func (s *Sweep) SpreadM() float64 { return s.MostM - s.LeastM }

// Within tells whether every stop came within ± mm of the landing.
func (s *Sweep) Within(mm float64) bool { return s.LeastM >= -mm/1000 && s.MostM <= mm/1000 }

// Say states the spread beside the accuracy wanted.
func (s *Sweep) Say() phrase.Phrase {
	if math.IsNaN(s.LeastM) || math.IsNaN(s.MostM) {
		return phrase.Of("drive.sweep-lost")
	}
	id := "drive.sweep-beyond"
	switch {
	case s.Within(LevelMM):
		id = "drive.sweep-accurate"
	case s.Within(OpenLoopMM):
		id = "drive.sweep-usual"
	}
	return phrase.Of(id, "least", phrase.Num(1000*s.LeastM, 1), "most", phrase.Num(1000*s.MostM, 1), "spread", phrase.Num(1000*s.SpreadM(), 1),
		"accuracy", phrase.Num(LevelMM, 0), "usual", phrase.Num(OpenLoopMM, 0))
}
