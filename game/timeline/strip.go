package timeline

import (
	"wheelroom/physics/lift"
)

// A Strip is a whole run at a glance: the car's way, where it rested, and the
// calls. Times are seconds, heights metres, floors their names. Slices are
// never nil, so that a page finds lists.
type Strip struct {
	EndS  float64     `json:"endS"`
	TopM  float64     `json:"topM"` // of the highest landing
	Path  [][]float64 `json:"path"` // time and height
	Stops []Stop      `json:"stops"`
	Calls []Call      `json:"calls"`
}

// A Stop is a stretch for which the car rested level at a floor; ToS is the
// end of the run while it still does.
type Stop struct {
	Floor   string  `json:"floor"`
	HeightM float64 `json:"heightM"`
	FromS   float64 `json:"fromS"`
	ToS     float64 `json:"toS"`
}

// A Call is a call registered at FromS and answered at ToS; -1 while it waits.
type Call struct {
	Floor   string  `json:"floor"`
	HeightM float64 `json:"heightM"`
	FromS   float64 `json:"fromS"`
	ToS     float64 `json:"toS"`
}

// tally is what has been counted of a run's events.
type tally struct {
	seen  int
	stops []Stop
	calls []Call
	open  map[string]int // by floor: its waiting call; looked up, never ranged over
}

// Strip returns the whole run at a glance.
func (r *Run) Strip() Strip {
	r.count()
	end := r.End()
	plan := end.Plan()
	s := Strip{EndS: end.TimeS(), TopM: plan.TravelM(), Path: [][]float64{}, Stops: append([]Stop{}, r.tally.stops...), Calls: append([]Call{}, r.tally.calls...)}
	if k := len(s.Stops) - 1; k >= 0 && s.Stops[k].ToS < 0 {
		s.Stops[k].ToS = s.EndS
	}
	// The frames and the ends of every stop: the frames alone would cut the
	// corners.
	stops := s.Stops
	add := func(t, y float64) { s.Path = append(s.Path, []float64{t, y}) }
	for _, w := range r.history.Path() {
		for len(stops) > 0 && stops[0].FromS <= w.TimeS {
			add(stops[0].FromS, stops[0].HeightM)
			add(stops[0].ToS, stops[0].HeightM)
			stops = stops[1:]
		}
		if k := len(s.Path); k == 0 || w.TimeS > s.Path[k-1][0] {
			add(w.TimeS, w.CarM)
		}
	}
	return s
}

// count takes over the events since the last time.
func (r *Run) count() {
	t, plan, events := &r.tally, r.End().Plan(), r.End().Events()
	if t.open == nil {
		t.open = map[string]int{}
		if at := r.startFloor(); at != "" {
			t.stops = append(t.stops, Stop{at, plan.Floors[plan.Floor(at)].HeightM, 0, -1})
		}
	}
	for _, e := range events[t.seen:] {
		switch kind, floor := cut(e.Part); kind {
		case "stop":
			if f := plan.Floor(e.State); f >= 0 {
				t.stops = append(t.stops, Stop{e.State, plan.Floors[f].HeightM, e.TimeS, -1})
			} else if k := len(t.stops) - 1; k >= 0 {
				t.stops[k].ToS = e.TimeS
			}
		case "call":
			i, waits := t.open[floor]
			f := plan.Floor(floor)
			switch {
			case f < 0:
			case e.State == "1":
				t.open[floor] = len(t.calls)
				t.calls = append(t.calls, Call{floor, plan.Floors[f].HeightM, e.TimeS, -1})
			case waits:
				t.calls[i].ToS = e.TimeS
				delete(t.open, floor)
			}
		}
	}
	t.seen = len(events)
}

// startFloor is the floor at which the run began, "" between two.
func (r *Run) startFloor() string {
	var v lift.View
	r.history.AtTime(0).Look(&v)
	if v.AtFloor < 0 {
		return ""
	}
	return r.End().Plan().Floors[v.AtFloor].Name
}

// cut parts a part's name at its first point.
func cut(p lift.Part) (kind, rest string) {
	for i := range len(p) {
		if p[i] == '.' {
			return string(p[:i]), string(p[i+1:])
		}
	}
	return string(p), ""
}
