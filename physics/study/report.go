package study

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/phrase"
	"wheelroom/physics/survey"
)

// A Report is everything worth knowing of a plan's drive: one trip, the loads,
// the handwheels, and what to change.
type Report struct {
	Plan    *building.Plan
	Trip    Trip
	HeatW   float64 // the rotor heat that limits the starts an hour
	Run     *Run
	Figures drive.Figures
	Sweep   Sweep
	Weighed []Weighed
	Cures   []survey.Cure
}

// Look makes the report of a plan on a trip; heatW 0 stands for HeatW. Its
// errors are Ride's.
func Look(p *building.Plan, t Trip, heatW float64) (*Report, error) {
	if heatW == 0 {
		heatW = HeatW
	}
	run, err := Ride(p, t)
	if err != nil {
		return nil, err
	}
	sweep, err := Over(p, t.From, t.To, Shares)
	if err != nil {
		return nil, err
	}
	return &Report{Plan: p, Trip: t, HeatW: heatW, Run: run, Figures: run.Figures(), Sweep: sweep,
		Weighed: Weigh(p, Handwheels, t), Cures: survey.Cures(p)}, nil
}

// DistanceM returns the length of the trip, metres.
func (r *Report) DistanceM() float64 {
	return math.Abs(r.Plan.Floors[r.Trip.To].HeightM - r.Plan.Floors[r.Trip.From].HeightM)
}

// Say is the trip in words.
func (r *Report) Say() phrase.Phrase { return r.Trip.Say(r.Plan) }

// Say is the trip in words.
func (t Trip) Say(p *building.Plan) phrase.Phrase {
	return phrase.Of("drive.trip", "from", p.Floors[t.From].Name, "to", p.Floors[t.To].Name, "load", phrase.Num(t.LoadKG, 0),
		"metres", phrase.Num(math.Abs(p.Floors[t.To].HeightM-p.Floors[t.From].HeightM), 1))
}

// WriteText writes the report for people, in the words of say. Its errors are
// those of w.
func WriteText(w io.Writer, r *Report, say func(phrase.Phrase) string) error {
	t := text{w: w, say: say}
	t.line(phrase.Of("drive.caution"))
	t.gap()
	t.line(r.Say())
	t.table(Table(r.Figures, r.HeatW))
	t.line(phrase.Of("drive.limit", "watts", phrase.Num(r.HeatW, 0)))
	t.line(r.Run.SayTraction())
	t.gap()
	t.line(phrase.Of("drive.made"))
	t.table(Make(r.Plan))
	t.gap()
	t.line(r.Sweep.Say())
	t.cells([]int{16, 12, 12, 10, 10, 10, 10}, t.says("drive.head-load", "drive.short-level-up", "drive.short-level-down",
		"drive.short-slow-up", "drive.short-slow-down", "drive.short-jerk-up", "drive.short-jerk-down"))
	for _, l := range r.Sweep.Loads {
		t.cells([]int{16, 12, 12, 10, 10, 10, 10}, []string{
			t.say(phrase.Of("drive.load", "percent", phrase.Num(100*l.Share, 0), "kg", phrase.Num(l.LoadKG, 0))),
			t.number(1000*l.Up.LevelM, 1), t.number(1000*l.Down.LevelM, 1), t.number(l.Up.SlowDownM, 3), t.number(l.Down.SlowDownM, 3),
			t.number(l.Up.ChangeJerkMS3, 1), t.number(l.Down.ChangeJerkMS3, 1)})
	}
	t.gap()
	t.line(phrase.Of("drive.wheels-say"))
	t.cells([]int{16, 12, 12, 10, 10, 10}, t.says("drive.short-handwheel", "drive.short-advance", "drive.short-vane", "drive.short-jolt", "drive.short-trip", "drive.short-energy"))
	for _, h := range r.Weighed {
		t.cells([]int{16, 12, 12, 10, 10, 10}, []string{t.number(h.HandwheelKGM2, 2), t.number(h.NeedM, 2), t.number(1000*h.NeedVaneM, 0),
			t.number(h.ChangeJerkMS3, 1), t.number(h.TripS, 2), t.number(h.HandwheelJ/1000, 1)})
	}
	t.gap()
	t.line(Verdict(r.Cures))
	for i := range r.Cures {
		if c := &r.Cures[i]; !c.Met {
			t.put("  " + c.Path + ": " + t.say(c.Name()) + ": " + t.say(phrase.Of("drive.value", "value", phrase.Num(c.Is, c.Decimals), "unit", c.Unit)) +
				" → " + t.say(c.Say()))
		}
	}
	return t.err
}

// Verdict says how many values should be changed.
func Verdict(cures []survey.Cure) phrase.Phrase {
	open := 0
	for _, c := range cures {
		if !c.Met {
			open++
		}
	}
	if open == 0 {
		return phrase.Of("drive.cures-none")
	}
	return phrase.Of("drive.cures", "count", open)
}

// text is a report being written for people.
type text struct {
	w   io.Writer
	say func(phrase.Phrase) string
	err error
}

func (t *text) put(line string) {
	if t.err == nil {
		_, t.err = fmt.Fprintln(t.w, line)
	}
}

func (t *text) gap()                           { t.put("") }
func (t *text) line(p phrase.Phrase)           { t.put(t.say(p)) }
func (t *text) number(v float64, d int) string { return t.say(Entry{Value: v, Decimals: d}.Say()) }

func (t *text) says(ids ...string) []string {
	var out []string
	for _, id := range ids {
		out = append(out, t.say(phrase.Of(id)))
	}
	return out
}

// table writes figures with their names in one column.
func (t *text) table(entries []Entry) {
	for _, e := range entries {
		t.cells([]int{68, 0}, []string{"  " + t.say(e.Name()), t.say(e.Say())})
	}
}

// cells writes texts in columns so many characters wide, the first to the left
// and, where there are more than two, the others to the right.
func (t *text) cells(widths []int, cells []string) {
	line := ""
	for i, c := range cells {
		n := max(widths[i]-len([]rune(c)), 0)
		if i == 0 || len(cells) == 2 {
			line += c
			for range n {
				line += " "
			}
			continue
		}
		for range n {
			line += " "
		}
		line += c
	}
	t.put(line)
}

// WriteCSV writes every figure as one row (RFC 4180):
// set,load_kg,direction,handwheel_kg_m2,figure,value,unit. The sets are trip,
// machine, sweep and handwheel; a figure that was not reached has no value.
func WriteCSV(w io.Writer, r *Report) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true
	rows := [][]string{{"set", "load_kg", "direction", "handwheel_kg_m2", "figure", "value", "unit"}}
	add := func(set string, loadKG float64, way string, kgm2 float64, entries []Entry) {
		for _, e := range entries {
			rows = append(rows, []string{set, spell(loadKG, 3), way, spell(kgm2, 3), e.Key, spell(e.Value, 6), e.Unit})
		}
	}
	wheel := r.Plan.Machine.HandwheelKGM2
	add("trip", r.Trip.LoadKG, r.way(), wheel, Table(r.Figures, r.HeatW))
	add("machine", r.Plan.Lift.LoadKG, "", wheel, Make(r.Plan))
	for _, l := range r.Sweep.Loads {
		add("sweep", l.LoadKG, "up", wheel, Table(l.Up, r.HeatW))
		add("sweep", l.LoadKG, "down", wheel, Table(l.Down, r.HeatW))
	}
	for _, h := range r.Weighed {
		add("handwheel", r.Trip.LoadKG, r.way(), h.HandwheelKGM2, append(needs(&h), Table(h.Figures, r.HeatW)...))
	}
	// A buffered writer keeps its first error.
	_ = c.WriteAll(rows)
	return c.Error()
}

func (r *Report) way() string {
	if r.Plan.Floors[r.Trip.To].HeightM < r.Plan.Floors[r.Trip.From].HeightM {
		return "down"
	}
	return "up"
}

func needs(h *Weighed) []Entry {
	return []Entry{{"advance-needed", h.NeedM, "m", 2}, {"vane-half-needed", 1000 * h.NeedVaneM, "mm", 0}}
}

// spell writes a number with at most so many decimals; "" for none.
func spell(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	scale := math.Pow10(decimals)
	return strconv.FormatFloat(math.Round(v*scale)/scale, 'f', -1, 64)
}

// WriteJSON writes the report as one object. A figure that was not reached is
// null.
func WriteJSON(w io.Writer, r *Report) error {
	type load struct {
		LoadKG float64             `json:"load_kg"`
		Share  float64             `json:"share"`
		Up     map[string]*float64 `json:"up"`
		Down   map[string]*float64 `json:"down"`
	}
	type wheel struct {
		HandwheelKGM2 float64             `json:"handwheel_kg_m2"`
		AdvanceM      float64             `json:"advance_needed_m"`
		VaneHalfM     float64             `json:"vane_half_needed_m"`
		Figures       map[string]*float64 `json:"figures"`
	}
	type change struct {
		Path  string  `json:"path"`
		Is    float64 `json:"is"`
		Wants float64 `json:"wants"`
		Bound string  `json:"bound"` // "least", "most" or "near"
		Unit  string  `json:"unit"`
		Met   bool    `json:"met"`
	}
	out := struct {
		Building string              `json:"building"`
		From     string              `json:"from"`
		To       string              `json:"to"`
		LoadKG   float64             `json:"load_kg"`
		Distance float64             `json:"distance_m"`
		Wheel    float64             `json:"handwheel_kg_m2"`
		HeatW    float64             `json:"rotor_heat_limit_w"`
		Units    map[string]string   `json:"units"`
		Figures  map[string]*float64 `json:"figures"`
		Machine  map[string]*float64 `json:"machine"`
		Sweep    struct {
			Least   *float64 `json:"least_mm"`
			Most    *float64 `json:"most_mm"`
			Spread  *float64 `json:"spread_mm"`
			Wanted  float64  `json:"accuracy_mm"`
			Within  bool     `json:"within_accuracy"`
			Usual   float64  `json:"usual_mm"`
			InUsual bool     `json:"within_usual"`
			Loads   []load   `json:"loads"`
		} `json:"sweep"`
		Wheels  []wheel  `json:"handwheels"`
		Changes []change `json:"changes"`
	}{
		Building: r.Plan.Name, From: r.Plan.Floors[r.Trip.From].Name, To: r.Plan.Floors[r.Trip.To].Name,
		LoadKG: r.Trip.LoadKG, Distance: r.DistanceM(), Wheel: r.Plan.Machine.HandwheelKGM2, HeatW: r.HeatW,
		Units: map[string]string{}, Figures: keyed(Table(r.Figures, r.HeatW)), Machine: keyed(Make(r.Plan)),
	}
	for _, e := range append(Table(r.Figures, r.HeatW), Make(r.Plan)...) {
		out.Units[e.Key] = e.Unit
	}
	s := &out.Sweep
	s.Least, s.Most, s.Spread = number(1000*r.Sweep.LeastM), number(1000*r.Sweep.MostM), number(1000*r.Sweep.SpreadM())
	s.Wanted, s.Within, s.Usual, s.InUsual = LevelMM, r.Sweep.Within(LevelMM), OpenLoopMM, r.Sweep.Within(OpenLoopMM)
	for _, l := range r.Sweep.Loads {
		s.Loads = append(s.Loads, load{l.LoadKG, l.Share, keyed(Table(l.Up, r.HeatW)), keyed(Table(l.Down, r.HeatW))})
	}
	for _, h := range r.Weighed {
		out.Wheels = append(out.Wheels, wheel{h.HandwheelKGM2, h.NeedM, h.NeedVaneM, keyed(Table(h.Figures, r.HeatW))})
	}
	for _, c := range r.Cures {
		bound := map[int8]string{1: "least", -1: "most", 0: "near"}[c.Bound]
		out.Changes = append(out.Changes, change{c.Path, c.Is, c.Wants, bound, c.Unit, c.Met})
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(out)
}

func keyed(entries []Entry) map[string]*float64 {
	out := map[string]*float64{}
	for _, e := range entries {
		out[e.Key] = number(e.Value)
	}
	return out
}

// number is a figure for JSON, to six decimals; null where there is none.
func number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v = math.Round(v*1e6) / 1e6
	return &v
}
