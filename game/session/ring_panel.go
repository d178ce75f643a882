package session

import (
	"wheelroom/physics/bench"
	"wheelroom/physics/lamp"
	"wheelroom/physics/phrase"
)

// A RingRide is a ride in a car whose panel hangs on the ring of a building
// file.
type RingRide struct {
	Text     string
	From, To string // floors
	Lamp     string // quick, usual or slow
}

// A RingRidden is that ride in exact time, and what is to be known about it.
type RingRidden struct {
	bench.RidePage
	Says string `json:"says"`
}

var lampKinds = map[string]lamp.Lamp{"quick": lamp.Quick, "usual": lamp.Usual, "slow": lamp.Slow}

func (a Asking) ringRide(q RingRide) (any, error) {
	r := a.laid(q.Text)
	if r == nil {
		return nil, refuse("bench.no-ring-in-text")
	}
	from, to := r.Plan.Floor(q.From), r.Plan.Floor(q.To)
	kind, known := lampKinds[q.Lamp]
	switch {
	case from < 0:
		return nil, refuse("drive.no-floor", "floor", q.From)
	case to < 0:
		return nil, refuse("drive.no-floor", "floor", q.To)
	case from == to:
		return nil, refuse("drive.no-way", "floor", q.From)
	case !known:
		return nil, refuse("bench.no-lamp", "lamp", q.Lamp)
	}
	ride, ok := bench.Take(r.Plan, r.Ring, from, to)
	if !ok {
		return nil, refuse("bench.no-ride", "from", q.From, "to", q.To)
	}
	return RingRidden{ride.Page(r.Plan, kind), a.o.Words(phrase.Of("bench.ride", "from", q.From, "to", q.To,
		"seconds", phrase.Num(ride.ArriveS, 2), "full", phrase.Num(ride.FullMS, 2),
		"rise", phrase.Num(1000*kind.RiseS, 0), "fall", phrase.Num(1000*kind.FallS, 0)))}, nil
}
