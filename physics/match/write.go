package match

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"text/tabwriter"

	"wheelroom/physics/phrase"
)

// A Sheet is a result as data for other programs and for a page.
type Sheet struct {
	Verdict     string         `json:"verdict"` // one, several, set, none
	SpeedKnown  bool           `json:"speed_known"`
	Motion      string         `json:"motion"` // driven, steady
	From        string         `json:"from"`
	To          string         `json:"to"`
	Live        int            `json:"live_terminals"`
	PerFloor    Range          `json:"terminals_per_floor"`
	Rate        Range          `json:"terminals_per_second"`
	First       Range          `json:"first_terminal_m"`
	Widths      Range          `json:"widths_sum"`
	Speed       Range          `json:"speed_m_s"`
	Start       Range          `json:"start_s"`
	Delay       Range          `json:"delay_difference_s"`
	SameLamps   []JoiningRow   `json:"same_lamps"`
	OtherRings  []OtherRow     `json:"other_rings"`
	Pairs       [][2]string    `json:"indistinguishable"`
	Unexplained []string       `json:"unexplained_lamps"`
	Unseen      []string       `json:"unseen_lamps"`
	ScatterS    float64        `json:"scatter_s"`
	Edges       []EdgeRow      `json:"edges"`
	FileRing    *ComparisonRow `json:"file_ring"`
	Says        []string       `json:"says"`
}

// A Range is every value that fits; Value is nil where no single one may be
// named, and all three where nothing is known.
type Range struct {
	Value *float64 `json:"value"`
	Low   *float64 `json:"low"`
	High  *float64 `json:"high"`
}

// A JoiningRow is a number of joined terminals and its widths.
type JoiningRow struct {
	Live   int   `json:"live_terminals"`
	Widths Range `json:"widths_sum"`
}

// An OtherRow is a ring with another number of terminals that fits as well.
type OtherRow struct {
	PerFloor Range        `json:"terminals_per_floor"`
	Rate     Range        `json:"terminals_per_second"`
	Speed    Range        `json:"speed_m_s"`
	Joined   []JoiningRow `json:"joined"`
}

// An EdgeRow is one edge as observed and as fitted.
type EdgeRow struct {
	Row       int      `json:"row"`
	TimeS     float64  `json:"time_s"`
	Lamp      string   `json:"lamp"`
	State     string   `json:"state"`
	ModelS    *float64 `json:"model_s"`
	ResidualS *float64 `json:"residual_s"`
	Used      bool     `json:"used"`
}

// A ComparisonRow is how the building file's own ring does.
type ComparisonRow struct {
	SpeedMS  float64 `json:"speed_m_s"`
	StartS   float64 `json:"start_s"`
	RootS    float64 `json:"rms_s"`
	LargestS float64 `json:"largest_s"`
	Missing  int     `json:"missing_edges"`
}

// Sheet makes the result's sheet; text words its sentences.
func (r *Result) Sheet(text func(phrase.Phrase) string) Sheet {
	s := Sheet{Verdict: r.Verdict.String(), SpeedKnown: r.SpeedKnown, Motion: r.Motion.String(), Live: r.Live,
		From: r.Plan.Floors[r.From].Name, To: r.Plan.Floors[r.To].Name, ScatterS: rounded(r.ScatterS),
		SameLamps: []JoiningRow{}, OtherRings: []OtherRow{}, Pairs: [][2]string{}, Unexplained: []string{}, Unseen: []string{}, Edges: []EdgeRow{}, Says: []string{}}
	for quantity, to := range [quantities]*Range{&s.PerFloor, &s.Rate, &s.First, &s.Widths, &s.Speed, &s.Start, &s.Delay} {
		*to = span(r.Of(Quantity(quantity)))
	}
	for _, j := range r.Joinings {
		s.SameLamps = append(s.SameLamps, JoiningRow{j.Live, span(j.Widths)})
	}
	for _, o := range r.Others {
		row := OtherRow{PerFloor: span(o.Unknowns[0]), Rate: span(o.Unknowns[1]), Speed: span(o.Unknowns[2])}
		for _, j := range o.Joinings {
			row.Joined = append(row.Joined, JoiningRow{j.Live, span(j.Widths)})
		}
		s.OtherRings = append(s.OtherRings, row)
	}
	for _, p := range r.Pairs {
		s.Pairs = append(s.Pairs, [2]string{p.A.key(), p.B.key()})
	}
	for _, f := range r.Unexplained {
		s.Unexplained = append(s.Unexplained, r.Plan.Floors[f].Name)
	}
	for _, f := range r.Unseen {
		s.Unseen = append(s.Unseen, r.Plan.Floors[f].Name)
	}
	for _, e := range r.Edges {
		row := EdgeRow{Row: e.Row, TimeS: rounded(e.TimeS), Lamp: r.Plan.Floors[e.Floor].Name, State: "off",
			ModelS: number(e.ModelS), ResidualS: number(e.ResidualS), Used: e.Used}
		if e.On {
			row.State = "on"
		}
		s.Edges = append(s.Edges, row)
	}
	if c := r.File; c != nil {
		s.FileRing = &ComparisonRow{rounded(c.SpeedMS), rounded(c.StartS), rounded(c.RootS), rounded(c.MostS), c.Missing}
	}
	for _, p := range r.Says() {
		s.Says = append(s.Says, text(p))
	}
	return s
}

// key returns the quantity's name in a sheet.
func (q Quantity) key() string {
	return [...]string{"terminals_per_floor", "terminals_per_second", "first_terminal_m", "widths_sum", "speed_m_s",
		"start_s", "delay_difference_s"}[q]
}

func span(u Unknown) Range {
	r := Range{Low: number(u.Low), High: number(u.High)}
	if u.Told {
		r.Value = number(u.Value)
	}
	return r
}

// number is nil for what is none.
func number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v = rounded(v)
	return &v
}

// rounded keeps a tenth of a millisecond, a tenth of a millimetre.
func rounded(v float64) float64 { return math.Round(v*1e4)/1e4 + 0 }

// WriteJSON writes the result's sheet.
func WriteJSON(w io.Writer, r *Result, text func(phrase.Phrase) string) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(r.Sheet(text))
}

// WriteText writes the result in words: sentences, intervals, residuals.
func WriteText(w io.Writer, r *Result, text func(phrase.Phrase) string) error {
	say := func(id string, slots ...any) string { return text(phrase.Of("match."+id, slots...)) }
	fmt.Fprintln(w, say("trip", "building", r.Plan.Name, "from", r.Plan.Floors[r.From].Name, "to", r.Plan.Floors[r.To].Name))
	for _, p := range r.Says() {
		fmt.Fprintln(w, text(p))
	}
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	row := func(cells ...string) {
		for _, c := range cells {
			fmt.Fprint(t, c, "\t")
		}
		fmt.Fprintln(t)
	}
	figure := func(v float64, decimals int) string {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return say("no-value")
		}
		return say("figure", "figure", phrase.Num(v, decimals))
	}
	if len(r.Unknowns) > 0 {
		fmt.Fprintln(w)
		row(say("head-unknown"), say("head-value"), say("head-low"), say("head-high"))
		for _, u := range r.Unknowns {
			value := say("no-value")
			if u.Told {
				value = figure(u.Value, 3)
			}
			row(say("quantity-"+u.Quantity.String()), value, figure(u.Low, 3), figure(u.High, 3))
		}
		t.Flush()
	}
	if len(r.Edges) > 0 {
		fmt.Fprintln(w)
		row(say("head-row"), say("head-lamp"), say("head-state"), say("head-time"), say("head-model"), say("head-residual"))
		for _, e := range r.Edges {
			state := "state-off"
			if e.On {
				state = "state-on"
			}
			row(itoa(e.Row), r.Plan.Floors[e.Floor].Name, say(state), figure(e.TimeS, 3), figure(e.ModelS, 3), figure(e.ResidualS, 3))
		}
		t.Flush()
	}
	fmt.Fprintln(w)
	fmt.Fprintln(w, text(phrase.Of("match.observe")))
	fmt.Fprintln(w, text(phrase.Of("bench.caution")))
	return nil
}
