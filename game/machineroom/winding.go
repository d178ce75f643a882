package machineroom

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/game/plot"
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/study"
	"wheelroom/physics/study/winding"
)

// A WindingScreen is hand-winding of one machine: what it asks of the hand,
// what the load does, and how far the procedure has come. The cautions stand
// on the screen all the time.
type WindingScreen struct {
	Title      string    `json:"title"`
	Cautions   []string  `json:"cautions"`
	Figures    []Row     `json:"figures"`
	Storeys    Table     `json:"storeys"` // turns from each landing to the next
	Drift      string    `json:"drift"`   // which way the car goes by itself
	Stays      string    `json:"stays"`   // loads at which it stays
	Effort     Picture   `json:"effort"`
	EffortSay  string    `json:"effortSay"`
	Runaway    Picture   `json:"runaway"`
	RunawaySay string    `json:"runawaySay"`
	Steps      []StepRow `json:"steps"`
	Where      string    `json:"where"` // the car, the wheel and the switches now
}

// A StepRow is one step of the procedure.
type StepRow struct {
	Key  string `json:"key"`
	Step int    `json:"step"`
	Say  string `json:"say"`
	Why  string `json:"why"`
	Done bool   `json:"done"`
	Now  bool   `json:"now"`
}

// Winding prepares the screen for a plan, the load in the car and the machine
// as it stands. Figures and pictures follow plan, load and height; only Steps
// and Where follow the view and the procedure, and Progress gives them alone.
func (r *Room) Winding(p *building.Plan, loadKG float64, view *lift.View, pr *winding.Procedure) WindingScreen {
	f := winding.Of(p, loadKG, view.CarM, 0)
	run := winding.Release(p, loadKG, view.CarM)
	s := WindingScreen{Title: r.of("winding.title"), Cautions: r.all(winding.Cautions())}
	s.Figures = r.windingRows(&f)
	s.Storeys = Table{Head: []string{r.of("winding.head-storey"), r.of("winding.head-metres"), r.of("winding.head-turns")}}
	for i, turns := range f.TurnsPerFlr {
		below, above := p.Floors[i], p.Floors[i+1]
		s.Storeys.Rows = append(s.Storeys.Rows, []string{r.of("winding.storey", "from", below.Name, "to", above.Name),
			r.number(above.HeightM-below.HeightM, 2), r.number(turns, 1)})
	}
	s.Drift = r.of("winding.drift-"+way(f.Drift), "load", phrase.Num(loadKG, 0))
	s.Stays = r.stays(p, &f)
	s.Effort = r.effort(p, &f)
	s.EffortSay = r.effortSay(&f)
	s.Runaway, s.RunawaySay = r.runaway(p, &run)
	s.Steps, s.Where = r.Progress(p, view, pr)
	return s
}

// Progress words the steps of the procedure and where the car stands.
func (r *Room) Progress(p *building.Plan, view *lift.View, pr *winding.Procedure) ([]StepRow, string) {
	var rows []StepRow
	for _, l := range pr.Lines() {
		rows = append(rows, StepRow{Key: l.Step.String(), Step: int(l.Step), Say: r.say(l.Say), Why: r.say(l.Why), Done: l.Done, Now: l.Now})
	}
	near := p.Floors[view.NearFloor]
	off := view.CarM - near.HeightM
	id := "winding.where-at"
	if math.Abs(off) > 0.0005 {
		id = map[bool]string{true: "winding.where-above", false: "winding.where-below"}[off > 0]
	}
	return rows, r.of(id, "floor", near.Name, "off", phrase.Num(1000*math.Abs(off), 0),
		"turns", phrase.Num(view.HandwheelRad/(2*math.Pi), 1), "above", standing(view, lift.Above), "below", standing(view, lift.Below))
}

// standing counts the direction switches that stand one way.
func standing(view *lift.View, at lift.Stand) int {
	n := 0
	for _, s := range view.Direction {
		if s == at {
			n++
		}
	}
	return n
}

func way(dir int8) string { return [...]string{"down", "none", "up"}[dir+1] }

func (r *Room) windingRows(f *winding.Figures) []Row {
	mean := 0.0
	for _, t := range f.TurnsPerFlr {
		mean += t / float64(len(f.TurnsPerFlr))
	}
	entries := []study.Entry{
		{Key: "per-turn", Value: 1000 * f.PerTurnM, Unit: "mm", Decimals: 1},
		{Key: "turns-per-floor", Value: mean, Decimals: 1},
		{Key: "rim-radius", Value: f.RadiusM, Unit: "m", Decimals: 2},
		{Key: "effort-up", Value: f.UpN, Unit: "N", Decimals: 0},
		{Key: "effort-down", Value: f.DownN, Unit: "N", Decimals: 0},
	}
	return r.rows(entries)
}

func (r *Room) stays(p *building.Plan, f *winding.Figures) string {
	switch {
	case f.SelfLocking:
		return r.of("winding.self-locking")
	case f.StaysFromKG == 0 && f.StaysToKG == 0:
		return r.of("winding.stays-never")
	}
	return r.of("winding.stays", "from", phrase.Num(f.StaysFromKG, 0), "to", phrase.Num(f.StaysToKG, 0),
		"balance", phrase.Num(p.Lift.Balance*p.Lift.RatedLoadKG, 0))
}

// effort draws the effort at the rim against the load, both ways.
func (r *Room) effort(p *building.Plan, f *winding.Figures) Picture {
	up := plot.Curve{Name: r.of("winding.turning-up"), Pen: plot.Pen{Role: figure.Up}}
	down := plot.Curve{Name: r.of("winding.turning-down"), Pen: plot.Pen{Role: figure.Down, Dash: figure.Dashed}}
	for _, e := range winding.Efforts(p, f.CarM, f.RadiusM) {
		up.X, up.Y = append(up.X, e.LoadKG), append(up.Y, e.UpN)
		down.X, down.Y = append(down.X, e.LoadKG), append(down.Y, e.DownN)
	}
	panel := plot.Panel{Y: plot.Axis{Label: r.of("winding.axis-effort"), Zero: true}, Curves: []plot.Curve{up, down},
		Guides: []plot.Guide{{At: f.LoadKG, Text: r.of("winding.line-load", "load", phrase.Num(f.LoadKG, 0)), Vertical: true, Role: figure.Ink, Dash: figure.Dotted}},
	}
	low := 0.0
	for i := range up.Y {
		low = math.Min(low, math.Min(up.Y[i], down.Y[i]))
	}
	if low < 0 {
		panel.Bands = []plot.Band{{Name: r.of("winding.band-itself"), From: -1e6, Role: figure.Fault}}
	}
	if f.HeavyN > 0.6*winding.EffortN {
		panel.Guides = append(panel.Guides, plot.Guide{At: winding.EffortN, Text: r.of("winding.line-effort", "effort", phrase.Num(winding.EffortN, 0)), Role: figure.Muted})
	}
	return r.sheet("effort", plot.Sheet{X: plot.Axis{Label: r.of("winding.axis-load"), Zero: true}, Panels: []plot.Panel{panel}},
		phrase.Of("winding.effort-desc"))
}

func (r *Room) effortSay(f *winding.Figures) string {
	id := "winding.effort-within"
	if !f.WithinEffort {
		id = "winding.effort-beyond"
	}
	dir := "winding.way-down"
	if f.HeavyUp {
		dir = "winding.way-up"
	}
	return r.of(id, "effort", phrase.Num(f.HeavyN, 0), "load", phrase.Num(f.HeavyLoadKG, 0), "way", phrase.Of(dir),
		"limit", phrase.Num(winding.EffortN, 0), "radius", phrase.Num(f.RadiusM, 2))
}

// runaway draws the speed of a car whose brake is held open.
func (r *Room) runaway(p *building.Plan, run *winding.Runaway) (Picture, string) {
	panel := plot.Panel{Y: plot.Axis{Label: r.of("winding.axis-runaway"), Zero: true}}
	if run.Drift == 0 {
		return Picture{}, r.of("winding.runaway-none")
	}
	pen := plot.Pen{Role: figure.Up}
	if run.Drift < 0 {
		pen = plot.Pen{Role: figure.Down, Dash: figure.Dashed}
	}
	c := plot.Curve{Name: r.of("winding.runaway-" + way(run.Drift)), Pen: pen}
	for i, v := range run.SpeedMS {
		c.X, c.Y = append(c.X, float64(i)*run.SampleS), append(c.Y, v)
	}
	panel.Curves = []plot.Curve{c}
	panel.Guides = []plot.Guide{
		{At: p.Machine.RatedSpeedMS, Text: r.of("winding.line-rated", "speed", phrase.Num(p.Machine.RatedSpeedMS, 2)), Role: figure.Ink, Dash: figure.Dotted},
		{At: winding.ShortS, Text: r.of("winding.line-short", "seconds", phrase.Num(winding.ShortS, 1)), Vertical: true, Role: figure.Muted},
	}
	if !math.IsNaN(run.EndS) {
		panel.Marks = []plot.Mark{{Name: r.of("winding.mark-end"), X: run.EndS, Y: run.EndMS, Sign: plot.Square, Role: pen.Role}}
	}
	say := []any{"one", phrase.Num(run.At(1), 2), "three", phrase.Num(run.At(3), 2), "way", phrase.Of("winding.way-" + way(run.Drift)),
		"rated", phrase.Num(run.RatedS, 1), "speed", phrase.Num(p.Machine.RatedSpeedMS, 2), "end", phrase.Num(run.EndS, 1),
		"end-speed", phrase.Num(run.EndMS, 2), "short", phrase.Num(winding.ShortS, 1), "gone", phrase.Num(1000*run.ShortWayM, 0), "rpm", phrase.Num(run.WheelRPM, 0)}
	id := "winding.runaway-slow"
	switch {
	case math.IsNaN(run.At(3)):
		id = "winding.runaway-short"
	case !math.IsNaN(run.RatedS) && !math.IsNaN(run.EndS):
		id = "winding.runaway-say"
	case !math.IsNaN(run.RatedS):
		id = "winding.runaway-endless"
	}
	text := r.of(id, say...)
	return r.sheet("runaway", plot.Sheet{X: plot.Axis{Label: r.of("winding.axis-open"), Zero: true}, Panels: []plot.Panel{panel}}, phrase.Of("winding.runaway-desc")), text
}
