package machineroom

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/game/plot"
	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/phrase"
	"wheelroom/physics/study"
	"wheelroom/physics/survey"
)

// A TripScreen is one machine and one trip of it.
type TripScreen struct {
	Trip     string       `json:"trip"`
	Given    string       `json:"given"`   // the advance and the vanes it has
	Misfits  []string     `json:"misfits"` // where they do not suit the handwheel
	Figures  []JudgedRow  `json:"figures"`
	Make     []JudgedRow  `json:"make"` // what the machine is made of
	Limit    string       `json:"limit"`
	Traction string       `json:"traction"`
	Journey  Picture      `json:"journey"`
	Clock    Clock        `json:"clock"`
	Path     [][2]float64 `json:"path"` // on the speed's panel, every Clock.TickS
}

// A JudgedRow is a figure with what it is to be read against.
type JudgedRow struct {
	Row
	Beside  string `json:"beside"`
	Verdict string `json:"verdict"` // "", or how it stands to that, in a word
	Met     bool   `json:"met"`
}

// A LoadsScreen is the same trip with every load, both ways.
type LoadsScreen struct {
	Picture Picture `json:"picture"`
	Say     string  `json:"say"`
	Table   Table   `json:"table"`
}

// A WheelsScreen is what each handwheel needs and gives.
type WheelsScreen struct {
	Picture Picture `json:"picture"`
	Table   Table   `json:"table"`
}

// A CuresScreen is what to change in the building file, and by how much.
type CuresScreen struct {
	Rows []CureRow `json:"rows"`
	Say  string    `json:"say"`
}

// A CureRow is one value of the building file beside what it should be.
type CureRow struct {
	Path   string  `json:"path"`
	Name   string  `json:"name"`
	Is     string  `json:"is"`
	Wants  string  `json:"wants"`
	Change string  `json:"change"`
	Met    bool    `json:"met"`
	Value  float64 `json:"value"` // to be written into the file
}

// Trip prepares a run of a machine whose handwheel was fitted so; heatW is the
// rotor heat that limits the starts an hour.
func (r *Room) Trip(run *study.Run, f study.Fitting, heatW float64) TripScreen {
	p, figures := run.Plan, run.Figures()
	side := study.Side{Fitting: f, Run: run, Figures: figures}
	s := TripScreen{
		Trip: r.say(run.Trip.Say(p)),
		Given: r.of("drive.given", "wheel", phrase.Num(f.HandwheelKGM2, 2), "advance", phrase.Num(f.AdvanceM, 2),
			"vane", phrase.Num(1000*f.VaneM, 0), "need", phrase.Num(f.NeedM, 2)),
		Misfits: r.all(side.Misfits()),
		Figures: r.judged(p, study.Table(figures, heatW)), Make: r.judged(p, study.Make(p)),
		Limit:    r.of("drive.limit", "watts", phrase.Num(heatW, 0)),
		Traction: r.say(run.SayTraction()),
		Journey:  r.journey(run),
		Clock:    r.clockOf(endOf(run), run),
	}
	s.Path = along(&s.Journey.Frames[0], run, s.Clock.EndS, func(at float64) (x, y float64) {
		return at, direction(run) * sampled(run.SpeedMS, run.SampleS, at+run.Marks.OnS)
	})
	return s
}

// Loads prepares a sweep, as far as it has come.
func (r *Room) Loads(s *study.Sweep) LoadsScreen {
	return LoadsScreen{Picture: r.sweep(s), Say: r.say(s.Say()), Table: r.sweepTable(s)}
}

// Wheels prepares the handwheels that were tried on a plan.
func (r *Room) Wheels(p *building.Plan, all []study.Weighed) WheelsScreen {
	return WheelsScreen{r.wheels(p, all), r.wheelTable(all)}
}

// Cures prepares what is to be changed.
func (r *Room) Cures(cures []survey.Cure) CuresScreen {
	rows, say := r.cures(cures)
	return CuresScreen{rows, say}
}

func (r *Room) judged(p *building.Plan, entries []study.Entry) []JudgedRow {
	var out []JudgedRow
	for i, row := range r.rows(entries) {
		l := study.Beside(p, entries[i])
		j := JudgedRow{Row: row, Beside: r.say(l.Say), Met: l.Met}
		if l.Judged {
			j.Verdict = r.of(map[bool]string{true: "drive.within", false: "drive.beyond"}[l.Met])
		}
		out = append(out, j)
	}
	return out
}

func (r *Room) rows(entries []study.Entry) []Row {
	var out []Row
	for _, e := range entries {
		out = append(out, Row{Key: e.Key, Name: r.say(e.Name()), Text: r.say(e.Say()), Value: value(e.Value), Unit: e.Unit})
	}
	return out
}

// The pens: up is a solid line and a round mark, down dashed and square.
var (
	upPen   = plot.Pen{Role: figure.Up, Dots: true}
	downPen = plot.Pen{Role: figure.Down, Dash: figure.Dashed, Dots: true, Sign: plot.Square}
	onePen  = plot.Pen{Role: figure.Ink}
)

// sweep draws the levelling error against the load, both ways.
func (r *Room) sweep(s *study.Sweep) Picture {
	up, down := plot.Curve{Name: r.of("drive.going-up"), Pen: upPen}, plot.Curve{Name: r.of("drive.going-down"), Pen: downPen}
	for _, l := range s.Loads {
		up.X, up.Y = append(up.X, 100*l.Share), append(up.Y, 1000*l.Up.LevelM)
		down.X, down.Y = append(down.X, 100*l.Share), append(down.Y, 1000*l.Down.LevelM)
	}
	line := func(mm float64, id string, dash figure.Dash) plot.Guide {
		text := ""
		if mm > 0 {
			text = r.of(id, "mm", phrase.Num(mm, 0))
		}
		return plot.Guide{At: mm, Text: text, Role: figure.Muted, Dash: dash}
	}
	return r.sheet("sweep", plot.Sheet{
		X: plot.Axis{Label: r.of("drive.axis-load"), Hi: 112},
		Panels: []plot.Panel{{
			Y:      plot.Axis{Label: r.of("drive.axis-level"), Zero: true},
			Curves: []plot.Curve{up, down},
			Guides: []plot.Guide{line(study.LevelMM, "drive.line-accuracy", figure.Solid), line(-study.LevelMM, "", figure.Solid),
				line(study.OpenLoopMM, "drive.line-practice", figure.Dotted), line(-study.OpenLoopMM, "", figure.Dotted)},
		}},
	}, s.Say())
}

func (r *Room) sweepTable(s *study.Sweep) Table {
	t := Table{Head: []string{r.of("drive.head-load"), r.of("drive.head-level-up"), r.of("drive.head-level-down"),
		r.of("drive.head-slow-up"), r.of("drive.head-slow-down"), r.of("drive.head-jerk-up"), r.of("drive.head-jerk-down")}}
	cell := func(v float64, decimals int) string {
		if math.IsNaN(v) {
			return r.of("drive.not-reached")
		}
		return r.number(v, decimals)
	}
	for _, l := range s.Loads {
		t.Rows = append(t.Rows, []string{r.of("drive.load", "percent", phrase.Num(100*l.Share, 0), "kg", phrase.Num(l.LoadKG, 0)),
			cell(1000*l.Up.LevelM, 1), cell(1000*l.Down.LevelM, 1), cell(l.Up.SlowDownM, 3), cell(l.Down.SlowDownM, 3),
			cell(l.Up.ChangeJerkMS3, 1), cell(l.Down.ChangeJerkMS3, 1)})
	}
	return t
}

// wheels draws advance and jolt against the handwheel.
func (r *Room) wheels(p *building.Plan, all []study.Weighed) Picture {
	pen := plot.Pen{Role: figure.Brass, Dots: true}
	need, jolt := plot.Curve{Pen: pen}, plot.Curve{Pen: pen}
	for _, w := range all {
		need.X, need.Y = append(need.X, w.HandwheelKGM2), append(need.Y, w.NeedM)
		jolt.X, jolt.Y = append(jolt.X, w.HandwheelKGM2), append(jolt.Y, w.ChangeJerkMS3)
	}
	has := min(p.Selector.AdvanceUpM, p.Selector.AdvanceDownM)
	own := plot.Guide{At: p.Machine.HandwheelKGM2, Vertical: true, Role: figure.Ink, Dash: figure.Dotted}
	labelled := own
	labelled.Text = r.of("drive.line-own", "wheel", phrase.Num(p.Machine.HandwheelKGM2, 2))
	guides := []plot.Guide{own, {At: has, Text: r.of("drive.line-has", "advance", phrase.Num(has, 2)), Role: figure.Ink, Dash: figure.Dotted}}
	// Room far above anything a handwheel needs would flatten the curve.
	if room := building.MostAdvanceM(p); len(all) > 0 && room < 1.6*all[len(all)-1].NeedM {
		guides = append(guides, plot.Guide{At: room, Text: r.of("drive.line-room", "room", phrase.Num(room, 2)), Role: figure.Muted})
	}
	return r.sheet("wheels", plot.Sheet{
		X: plot.Axis{Label: r.of("drive.axis-handwheel"), Zero: true},
		Panels: []plot.Panel{
			{Y: plot.Axis{Label: r.of("drive.axis-advance"), Zero: true}, Curves: []plot.Curve{need}, Guides: guides},
			{Y: plot.Axis{Label: r.of("drive.axis-jolt"), Zero: true}, Curves: []plot.Curve{jolt}, Guides: []plot.Guide{labelled}},
		},
	}, phrase.Of("drive.wheels-say"))
}

func (r *Room) wheelTable(all []study.Weighed) Table {
	t := Table{Head: []string{r.of("drive.axis-handwheel"), r.of("drive.axis-advance"), r.of("drive.head-vane"), r.of("drive.axis-jolt"), r.of("drive.head-trip"), r.of("drive.head-energy")}}
	for _, w := range all {
		t.Rows = append(t.Rows, []string{r.number(w.HandwheelKGM2, 2), r.number(w.NeedM, 2), r.number(1000*w.NeedVaneM, 0),
			r.number(w.ChangeJerkMS3, 1), r.number(w.TripS, 2), r.number(w.HandwheelJ/1000, 1)})
	}
	return t
}

func (r *Room) cures(cures []survey.Cure) (rows []CureRow, say string) {
	for _, c := range cures {
		row := CureRow{Path: c.Path, Name: r.say(c.Name()), Wants: r.say(c.Say()), Met: c.Met, Value: c.Wants,
			Is: r.of("drive.value", "value", phrase.Num(c.Is, c.Decimals), "unit", c.Unit)}
		switch {
		case c.Met:
			row.Change = r.of("drive.nothing")
		case c.Change() > 0:
			row.Change = r.of("drive.more", "by", phrase.Num(c.Change(), c.Decimals), "unit", c.Unit)
		default:
			row.Change = r.of("drive.less", "by", phrase.Num(-c.Change(), c.Decimals), "unit", c.Unit)
		}
		rows = append(rows, row)
	}
	return rows, r.say(study.Verdict(cures))
}

// journey draws one trip: speed, acceleration and jerk.
func (r *Room) journey(run *study.Run) Picture {
	t, dir := times(&run.Record), direction(run)
	end := endOf(run)
	panel := func(id string, y []float64, scale float64) plot.Panel {
		return plot.Panel{Y: plot.Axis{Label: r.of(id), Zero: true}, Curves: []plot.Curve{{X: t, Y: scaled(y, scale), Pen: onePen}}}
	}
	speed := panel("drive.axis-speed", run.SpeedMS, dir)
	speed.Marks = r.marks(run, run.SpeedMS, dir, figure.Ink, true)
	jerk := panel("drive.axis-jerk-cut", run.JerkMS3(), dir)
	r.jolts(&jerk, run, dir, figure.Ink)
	f := run.Figures()
	return r.sheet("journey", plot.Sheet{
		X:      plot.Axis{Label: r.of("drive.axis-time"), Hi: end},
		Panels: []plot.Panel{speed, panel("drive.axis-acceleration", run.AccelMS2, dir), jerk},
	}, phrase.Of("drive.journey-say", "trip", phrase.Num(f.TripS, 1), "ideal", phrase.Num(f.IdealS, 1), "speed", phrase.Num(f.PeakSpeedMS, 2)))
}

// times are a record's samples since its contactors came in.
func times(rec *drive.Record) []float64 {
	t := make([]float64, len(rec.CarM))
	for i := range t {
		t[i] = float64(i)*rec.SampleS - rec.Marks.OnS
	}
	return t
}

func scaled(y []float64, k float64) []float64 {
	out := make([]float64, len(y))
	for i, v := range y {
		out[i] = k * v
	}
	return out
}

func direction(run *study.Run) float64 {
	if run.Marks.ToM < run.Marks.FromM {
		return -1
	}
	return 1
}

// endOf is where a plot of a run ends: a little after rest, or, of a run that
// never came to rest at its landing, some seconds after it overran it.
func endOf(run *study.Run) float64 {
	m := &run.Marks
	switch {
	case !math.IsNaN(m.RestS):
		return math.Ceil(2*(m.RestS-m.OnS)+0.4) / 2
	case !math.IsNaN(m.OffS):
		return math.Ceil(m.OffS - m.OnS + 3)
	}
	return math.Min(20, float64(len(run.CarM))*run.SampleS)
}

// marks are where the slow-down begins, where the winding changes and where
// the vane is met, on a curve of the run; named ones enter the legend.
func (r *Room) marks(run *study.Run, y []float64, scale float64, role figure.Role, named bool) []plot.Mark {
	var out []plot.Mark
	for _, k := range []struct {
		id   string
		at   float64
		sign plot.Sign
	}{{"drive.mark-advance", run.Marks.AdvanceS, plot.Triangle}, {"drive.mark-slow", run.Marks.SlowS, plot.Square}, {"drive.mark-vane", run.Marks.VaneS, plot.Diamond}} {
		m := plot.Mark{X: k.at - run.Marks.OnS, Y: scale * sampled(y, run.SampleS, k.at), Sign: k.sign, Role: role}
		if named {
			m.Name = r.of(k.id)
		}
		out = append(out, m)
	}
	return out
}

// peaks marks the greatest jerk at start, change and stop with its size.
func (r *Room) peaks(run *study.Run, scale float64, role figure.Role) []plot.Mark {
	m, jerk := &run.Marks, run.JerkMS3()
	var out []plot.Mark
	for _, span := range [][2]float64{{m.OnS, m.AdvanceS}, {m.AdvanceS, m.OffS}, {m.OffS, m.RestS + 0.25}} {
		best := -1
		for i := range jerk {
			if at := float64(i) * run.SampleS; at >= span[0] && at <= span[1] && (best < 0 || math.Abs(jerk[i]) > math.Abs(jerk[best])) {
				best = i
			}
		}
		if best < 0 {
			continue
		}
		v := scale * jerk[best]
		out = append(out, plot.Mark{X: float64(best)*run.SampleS - m.OnS, Y: v, Text: r.number(v, 1), Over: v > 0, Role: role})
	}
	return out
}

// sampled is a value between two samples; NaN at NaN.
func sampled(y []float64, sampleS, at float64) float64 {
	if math.IsNaN(at) {
		return at
	}
	k := at / sampleS
	i := int(k)
	if i < 0 || i+1 >= len(y) {
		return math.NaN()
	}
	return y[i] + (k-float64(i))*(y[i+1]-y[i])
}
