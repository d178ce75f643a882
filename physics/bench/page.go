package bench

import (
	"wheelroom/physics/building"
	"wheelroom/physics/lamp"
	"wheelroom/physics/phrase"
	"wheelroom/physics/selector"
)

// A Page is a report as data for a page, its sentences worded.
type Page struct {
	Building   string         `json:"building"`
	PitchM     float64        `json:"pitch_m"`
	FullMS     float64        `json:"full_m_s"`
	SlowMS     float64        `json:"slow_m_s"`
	Terminals  []terminalRow  `json:"terminals"`
	Boundaries []PageBoundary `json:"boundaries"`
	Lamps      []PageLamp     `json:"lamps"`
	Joins      []PageJoin     `json:"joins"` // made by hand
	Notes      []string       `json:"notes"`
	Problems   []PageProblem  `json:"problems"`
}

// A PageBoundary is what lies between two lamps, at both speeds.
type PageBoundary struct {
	boundaryRow
	DarkSlowS float64 `json:"dark_slow_s"`
	OverlapS  float64 `json:"overlap_s"`
	Sight     string  `json:"sight"` // hidden, doubtful, seen
}

// A PageLamp is how long one lamp is lit as the car passes.
type PageLamp struct {
	Floor string  `json:"floor"`
	LitM  float64 `json:"lit_m"`
	LitS  float64 `json:"lit_s"`
}

// A PageJoin is a terminal joined by hand; floor is "" for none.
type PageJoin struct {
	Terminal int    `json:"terminal"`
	Floor    string `json:"floor"`
}

// A PageProblem is something wrong with the ring, with the key that cures it.
type PageProblem struct {
	Key   string `json:"key"`
	Grave bool   `json:"grave"`
	Text  string `json:"text"`
}

// Page makes the report's page; text words its sentences.
func (r *Report) Page(text func(phrase.Phrase) string) Page {
	p := Page{Building: r.Plan.Name, PitchM: millionths(r.Ring.PitchM()), FullMS: millionths(r.FullMS), SlowMS: millionths(r.SlowMS),
		Joins: []PageJoin{}, Notes: []string{}, Problems: []PageProblem{}}
	s := scheduleOf(r)
	p.Terminals = s.Terminals
	for i, b := range r.Boundaries {
		p.Boundaries = append(p.Boundaries, PageBoundary{s.Boundaries[i], millionths(b.DarkSlowS), millionths(b.OverlapS), b.Sight.String()})
	}
	for _, l := range r.Lamps {
		p.Lamps = append(p.Lamps, PageLamp{l.Floor, millionths(l.LitM), millionths(l.LitS)})
	}
	for _, j := range r.Ring.Joins() {
		row := PageJoin{Terminal: j.Terminal}
		if j.Floor != building.Blank {
			row.Floor = j.Floor
		}
		p.Joins = append(p.Joins, row)
	}
	for _, n := range r.Notes {
		p.Notes = append(p.Notes, text(n))
	}
	for _, f := range r.Problems {
		p.Problems = append(p.Problems, PageProblem{f.Key, f.Grave, text(f.Say)})
	}
	return p
}

// An AdvicePage is an advice as data for a page.
type AdvicePage struct {
	Possible  bool           `json:"possible"`
	Argument  []string       `json:"argument"`
	Proposals []ProposalPage `json:"proposals"`
}

// A ProposalPage is one ring proposed, with the values for the building file.
type ProposalPage struct {
	Says          []string `json:"says"`
	PerFloor      float64  `json:"terminals_per_floor"`
	Live          int      `json:"live_terminals"`
	FirstM        float64  `json:"first_terminal_m"`
	TerminalWidth float64  `json:"terminal_width"`
	BrushWidth    float64  `json:"brush_width"`
	DarkM         float64  `json:"dark_m"`
}

// Page makes the advice's page.
func (a Advice) Page(text func(phrase.Phrase) string) AdvicePage {
	say := func(phrases []phrase.Phrase) []string {
		out := []string{}
		for _, p := range phrases {
			out = append(out, text(p))
		}
		return out
	}
	page := AdvicePage{Possible: a.Possible, Argument: say(a.Argument), Proposals: []ProposalPage{}}
	for _, p := range a.Proposals {
		s := &p.Selector
		page.Proposals = append(page.Proposals, ProposalPage{say(p.Says), s.TerminalsPerFloor, s.LiveTerminals,
			*s.FirstTerminalM, s.TerminalWidth, s.BrushWidth, millionths(p.DarkM)})
	}
	return page
}

// A RidePage is a ride as data for a page that plays it in exact time: when
// each lamp is fed and cut off, seconds from setting off, and how its filament
// follows.
type RidePage struct {
	From    string      `json:"from"`
	To      string      `json:"to"`
	ArriveS float64     `json:"arrive_s"`
	RiseS   float64     `json:"rise_s"` // from cold to nine tenths
	FallS   float64     `json:"fall_s"` // from hot to one tenth
	Floors  []string    `json:"floors"`
	Lamps   [][]float64 `json:"lamps"` // by floor: fed, cut off, fed ...
}

// Page makes the ride's page with lamps of a kind.
func (r *Ride) Page(p *building.Plan, l lamp.Lamp) RidePage {
	page := RidePage{From: p.Floors[r.From].Name, To: p.Floors[r.To].Name, ArriveS: millionths(r.ArriveS), RiseS: l.RiseS, FallS: l.FallS}
	for f, floor := range p.Floors {
		page.Floors = append(page.Floors, floor.Name)
		changes := []float64{}
		for _, t := range r.Lamps[f] {
			changes = append(changes, millionths(t))
		}
		page.Lamps = append(page.Lamps, changes)
	}
	return page
}

// Move returns the plan with one terminal joined by hand to another floor,
// selector.Blank for none, as its building file would say it. A terminal moved
// back to where it is laid out is no longer in the file.
func Move(p *building.Plan, terminal, floor int) *building.Plan {
	ring, _ := selector.NewRing(p)
	q := *p
	q.Selector.Joins = ring.Join(terminal, floor).Joins()
	return &q
}
