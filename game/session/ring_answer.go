package session

import (
	"bytes"
	"math"
	"strings"

	drawn "wheelroom/game/bench"
	"wheelroom/game/machineroom"
	"wheelroom/physics/building"
	"wheelroom/physics/lamp"
	"wheelroom/physics/match"
	"wheelroom/physics/phrase"
)

// A RingAnswer is a fitted ring, or a set of them, in words, tables and traces.
// Its clock begins with the observation.
type RingAnswer struct {
	Trip     string              `json:"trip"`
	Verdict  string              `json:"verdict"` // one, several, set or none
	Try      bool                `json:"try"`     // the ring can be laid out on the bench
	Says     []string            `json:"says"`
	Apart    []string            `json:"apart"` // what cannot be told apart
	Odd      []string            `json:"odd"`   // lamps no such ring explains
	Unknowns [][4]string         `json:"unknowns"`
	Edges    []RingEdge          `json:"edges"`
	Traces   machineroom.Picture `json:"traces"`
	Clock    machineroom.Clock   `json:"clock"`
	RiseS    float64             `json:"rise_s"`
	FallS    float64             `json:"fall_s"`
	Floors   []string            `json:"floors"`
	Seen     [][]float64         `json:"seen"`   // by floor: fed, cut off, fed …
	Fitted   [][]float64         `json:"fitted"` // nil where nothing is explained
}

// A RingEdge is one edge as seen and as fitted.
type RingEdge struct {
	Row    int      `json:"row"`
	Lamp   string   `json:"lamp"`
	State  string   `json:"state"`
	Seen   string   `json:"seen"`
	Fitted string   `json:"fitted"`
	Off    string   `json:"off"`
	OffMS  *float64 `json:"off_ms"` // seen less fitted; nil where the ring has no such edge
	Used   bool     `json:"used"`
}

// tryable reports whether there is one ring to be laid out: a set of them has
// no first.
func tryable(r *match.Result) bool { return r.Verdict == match.One || r.Verdict == match.Several }

// fitted is the ring that was fitted last, if it is one and of the building on
// the stage.
func (a Asking) fitted() (*building.Selector, error) {
	d := a.desks.ring.matching
	if d == nil || d.key.building != string(a.text) {
		return nil, refuse("bench.no-fit")
	}
	r := a.desks.ring.matched(d.key)
	if r == nil || !tryable(r) {
		return nil, refuse("bench.no-fit")
	}
	s := writable(r.Selector)
	return &s, nil
}

// writable is a fitted ring as a person would write it down.
func writable(s building.Selector) building.Selector {
	to := func(v float64) float64 { return math.Round(v*1e3) / 1e3 }
	s.TerminalsPerFloor, s.TerminalWidth, s.BrushWidth = to(s.TerminalsPerFloor), to(s.TerminalWidth), to(s.BrushWidth)
	if s.FirstTerminalM != nil {
		first := to(*s.FirstTerminalM)
		s.FirstTerminalM = &first
	}
	return s
}

func (a Asking) answerOf(r *match.Result, q *RingSeen) *RingAnswer {
	say := func(id string, slots ...any) string { return a.o.Words(phrase.Of(id, slots...)) }
	figure := func(v float64) string {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return say("match.no-value")
		}
		return say("match.figure", "figure", phrase.Num(v, 3))
	}
	out := &RingAnswer{
		Trip:    say("match.trip", "building", r.Plan.Name, "from", r.Plan.Floors[r.From].Name, "to", r.Plan.Floors[r.To].Name),
		Verdict: r.Verdict.String(), Try: tryable(r),
		Says: []string{}, Apart: []string{}, Odd: []string{}, Unknowns: [][4]string{}, Edges: []RingEdge{},
		RiseS: lamp.Usual.RiseS, FallS: lamp.Usual.FallS, Floors: r.Plan.Names(),
	}
	for _, p := range r.Says() {
		to := &out.Says
		switch {
		case strings.HasPrefix(p.ID, "match.pair-"), p.ID == "match.joining", strings.HasPrefix(p.ID, "match.other"):
			to = &out.Apart
		case strings.HasPrefix(p.ID, "match.unexplained"):
			to = &out.Odd
		}
		*to = append(*to, a.o.Words(p))
	}
	for _, u := range r.Unknowns {
		row := [4]string{say("match.quantity-" + u.Quantity.String()), say("match.no-value"), figure(u.Low), figure(u.High)}
		if u.Told {
			row[1] = figure(u.Value)
		}
		out.Unknowns = append(out.Unknowns, row)
	}
	for _, e := range r.Edges {
		row := RingEdge{Row: e.Row, Lamp: r.Plan.Floors[e.Floor].Name, State: say("match.state-" + lampState(e.On)),
			Seen: figure(e.TimeS), Fitted: figure(e.ModelS), Off: figure(e.ResidualS), Used: e.Used}
		if ms := 1000 * e.ResidualS; !math.IsNaN(ms) && !math.IsInf(ms, 0) {
			row.OffMS = &ms
		}
		out.Edges = append(out.Edges, row)
	}
	a.watchable(out, r, q)
	return out
}

// lampState is the last word of a message about a lamp.
func lampState(on bool) string {
	if on {
		return "on"
	}
	return "off"
}

// watchable adds what is played: the traces, the clock and when each lamp is
// fed.
func (a Asking) watchable(out *RingAnswer, r *match.Result, q *RingSeen) {
	width := min(max(q.Width, 320), 2400)
	frame := drawn.TracesFrame(r, width)
	begin := frame.Left
	frame.Left, frame.Right = 0, frame.Right-begin
	out.Traces = a.tracesPicture(r, width, q.Paper)
	out.Traces.Frames = append(out.Traces.Frames, frame)
	out.Clock = machineroom.Clock{EndS: frame.Right, TickS: 0.02}
	key := func(timeS float64, id string, slots ...any) {
		out.Clock.Keys = append(out.Clock.Keys, machineroom.Key{AtS: timeS - begin, Name: a.o.Words(phrase.Of("bench.key-"+id, slots...))})
	}
	o := r.Observation
	depart, arrive := o.Depart, o.Arrive
	for _, e := range o.Edges {
		if depart != nil && depart.TimeS <= e.TimeS {
			key(depart.TimeS, "depart")
			depart = nil
		}
		if arrive != nil && arrive.TimeS <= e.TimeS {
			key(arrive.TimeS, "arrive")
			arrive = nil
		}
		key(e.TimeS, lampState(e.On), "lamp", r.Plan.Floors[e.Floor].Name)
	}
	if arrive != nil {
		key(arrive.TimeS, "arrive")
	}
	changes := func(lit []match.Interval) []float64 {
		out := []float64{}
		for _, i := range lit {
			out = append(out, max(i.OnS-begin, longAgoS))
			if !math.IsInf(i.OffS, 1) {
				out = append(out, i.OffS-begin)
			}
		}
		return out
	}
	for _, lit := range r.Lamps {
		out.Seen = append(out.Seen, changes(lit[0]))
		if r.Verdict != match.None {
			out.Fitted = append(out.Fitted, changes(lit[1]))
		}
	}
}

func (a Asking) tracesPicture(r *match.Result, width float64, paper bool) machineroom.Picture {
	return a.ringPicture(drawn.Traces(r, width, a.o.Words), "traces-", paper, phrase.Of("bench.traces-title",
		"from", r.Plan.Floors[r.From].Name, "to", r.Plan.Floors[r.To].Name))
}

// ringAnswer writes an answer for paper or another program.
func (a Asking) ringAnswer(q RingSeen) (any, error) {
	r := a.desks.ring.matched(a.matchKey(&q))
	if r == nil {
		return nil, refuse("bench.no-answer")
	}
	var text bytes.Buffer
	var err error
	switch q.Which {
	case "text":
		err = match.WriteText(&text, r, a.o.Words)
	case "json":
		err = match.WriteJSON(&text, r, a.o.Words)
	case "traces":
		return a.tracesPicture(r, sheetWidth, true).SVG, nil
	case "panels":
		at := drawn.TracesFrame(r, sheetWidth).Left + q.TimeS
		panels := []drawn.Panel{{Title: a.o.Words(phrase.Of("bench.seen")), Brightness: r.Brightness(false, lamp.Usual, at)},
			{Title: a.o.Words(phrase.Of("bench.fitted")), Brightness: r.Brightness(true, lamp.Usual, at)}}
		return a.ringPicture(drawn.Panels(panels, r.Plan.Names(), sheetWidth, a.o.Words), "panels-", true,
			phrase.Of("bench.panels-title", "seconds", phrase.Num(at, 2))).SVG, nil
	default:
		return nil, refuse("stage.unknown-question", "question", "ring/answer/"+q.Which)
	}
	return text.String(), err
}
