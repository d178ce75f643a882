package machineroom

import (
	"cmp"
	"math"
	"slices"

	"wheelroom/game/figure"
	"wheelroom/game/plot"
	"wheelroom/physics/drive"
	"wheelroom/physics/phrase"
	"wheelroom/physics/study"
)

// A CompareScreen is the same trip with a light wheel and a heavy one.
type CompareScreen struct {
	Trip  string    `json:"trip"`
	Light WheelSide `json:"light"`
	Heavy WheelSide `json:"heavy"`
	Say   []string  `json:"say"` // the trade-off in the numbers of these runs
	Time  Picture   `json:"time"`
	Table []PairRow `json:"table"`
	Clock Clock     `json:"clock"`
}

// A WheelSide is one of the two machines.
type WheelSide struct {
	Name      string       `json:"name"`
	Handwheel float64      `json:"handwheel"` // kg·m²
	Advance   string       `json:"advance"`
	Vane      string       `json:"vane"`
	Torque    Picture      `json:"torque"`
	Path      [][2]float64 `json:"path"`  // the operating point in the picture, every Clock.TickS from the contactors on
	Speed     [][2]float64 `json:"speed"` // the same on the speed's panel of the common picture
	Now       []Reading    `json:"now"`   // the same in figures
}

// A Reading is a machine at one instant, worded.
type Reading struct {
	Speed   string `json:"speed"`
	Motor   string `json:"motor"`
	Torque  string `json:"torque"`
	Energy  string `json:"energy"`
	Winding string `json:"winding"`
}

// A Clock is the time axis that a page moves along.
type Clock struct {
	EndS  float64 `json:"endS"`
	TickS float64 `json:"tickS"`
	Keys  []Key   `json:"keys"` // instants worth a look, in order of time
}

// A Key is one of them.
type Key struct {
	AtS  float64 `json:"atS"`
	Name string  `json:"name"`
}

// A PairRow is one figure for both wheels.
type PairRow struct {
	Key   string   `json:"key"`
	Name  string   `json:"name"`
	Light string   `json:"light"`
	Heavy string   `json:"heavy"`
	A     *float64 `json:"a"`
	B     *float64 `json:"b"`
	Unit  string   `json:"unit"`
}

// tickS is the spacing of the points a page moves along.
const tickS = 0.02

// The pens of the two wheels: a thin line and a thick one.
var (
	lightPen = plot.Pen{Role: figure.Ink}
	heavyPen = plot.Pen{Role: figure.Brass, Heavy: true}
)

// Compare prepares the screen of two handwheels on one trip.
func (r *Room) Compare(c *study.Comparison) CompareScreen {
	s := CompareScreen{
		Trip: r.say(c.Trip.Say(c.A.Run.Plan)),
		Say:  r.all(c.Say()),
	}
	end := math.Max(endOf(c.A.Run), endOf(c.B.Run))
	s.Clock = r.clockOf(end, c.A.Run, c.B.Run)
	s.Time = r.clock(c, end)
	scope := torqueScope(c)
	s.Light, s.Heavy = r.side(&c.A, "light", lightPen, end, scope), r.side(&c.B, "heavy", heavyPen, end, scope)
	for _, of := range []struct {
		side *study.Side
		to   *WheelSide
	}{{&c.A, &s.Light}, {&c.B, &s.Heavy}} {
		of.to.Speed = along(&s.Time.Frames[0], of.side.Run, end, func(at float64) (x, y float64) {
			return at, direction(of.side.Run) * sampled(of.side.Run.SpeedMS, of.side.Run.SampleS, at+of.side.Run.Marks.OnS)
		})
	}
	ta, tb := study.Table(c.A.Figures, study.HeatW), study.Table(c.B.Figures, study.HeatW)
	for i := range ta {
		s.Table = append(s.Table, PairRow{Key: ta[i].Key, Name: r.say(ta[i].Name()), Light: r.say(ta[i].Say()), Heavy: r.say(tb[i].Say()),
			A: value(ta[i].Value), B: value(tb[i].Value), Unit: ta[i].Unit})
	}
	return s
}

// clockOf is the clock of one run, or of two that begin together.
func (r *Room) clockOf(end float64, runs ...*study.Run) Clock {
	c := Clock{EndS: end, TickS: tickS}
	for i, run := range runs {
		m := &run.Marks
		for _, k := range []struct {
			id string
			at float64
		}{{"moves", m.MoveS}, {"full", run.Figures().ToFullS + m.OnS}, {"advance", m.AdvanceS}, {"slow", m.SlowS}, {"vane", m.VaneS}, {"rest", m.RestS}} {
			if at := k.at - m.OnS; at >= 0 && at <= end {
				name := r.of("drive.key-" + k.id)
				if len(runs) > 1 {
					name = r.of([...]string{"drive.key-light", "drive.key-heavy"}[i], "what", phrase.Of("drive.key-"+k.id))
				}
				c.Keys = append(c.Keys, Key{at, name})
			}
		}
	}
	slices.SortStableFunc(c.Keys, func(a, b Key) int { return cmp.Compare(a.AtS, b.AtS) })
	return c
}

func (r *Room) wheelName(which string, s *study.Side) string {
	return r.of("drive."+which+"-wheel", "wheel", phrase.Num(s.HandwheelKGM2, 2))
}

// clock draws speed, acceleration, jerk and the handwheel's energy of both on
// one time axis.
func (r *Room) clock(c *study.Comparison, end float64) Picture {
	panels := []plot.Panel{
		{Y: plot.Axis{Label: r.of("drive.axis-speed"), Zero: true}},
		{Y: plot.Axis{Label: r.of("drive.axis-acceleration"), Zero: true}},
		{Y: plot.Axis{Label: r.of("drive.axis-jerk-cut"), Zero: true}},
		{Y: plot.Axis{Label: r.of("drive.axis-energy"), Zero: true}},
	}
	for _, k := range []struct {
		side  *study.Side
		which string
		pen   plot.Pen
	}{{&c.A, "light", lightPen}, {&c.B, "heavy", heavyPen}} {
		run := k.side.Run
		t, dir, name := times(&run.Record), direction(run), r.wheelName(k.which, k.side)
		for i, y := range [][]float64{scaled(run.SpeedMS, dir), scaled(run.AccelMS2, dir), scaled(run.JerkMS3(), dir), energy(run)} {
			panels[i].Curves = append(panels[i].Curves, plot.Curve{Name: name, X: t, Y: y, Pen: k.pen})
		}
		panels[0].Marks = append(panels[0].Marks, r.marks(run, run.SpeedMS, dir, k.pen.Role, k.which == "light")...)
		r.jolts(&panels[2], run, dir, k.pen.Role)
	}
	return r.sheet("clock", plot.Sheet{X: plot.Axis{Label: r.of("drive.axis-time"), Hi: end}, Panels: panels}, phrase.Of("drive.clock-say"))
}

// jolts marks the jerk at the change of winding on the panel, which is bounded
// so that this one is plain to see; the brake's, far beyond, is written at the
// edge where it leaves the picture.
func (r *Room) jolts(p *plot.Panel, run *study.Run, dir float64, role figure.Role) {
	all := r.peaks(run, dir, role)
	if len(all) < 2 {
		return
	}
	p.Marks = append(p.Marks, all[1])
	most := 1.35 * math.Max(math.Abs(all[0].Y), math.Abs(all[1].Y))
	most = math.Max(math.Ceil(most/2)*2, p.Y.Hi)
	p.Y.Lo, p.Y.Hi = -most, most
	if len(all) < 3 || math.Abs(all[2].Y) <= most {
		return
	}
	edge := all[2]
	edge.Y, edge.Sign, edge.Text = math.Copysign(most, edge.Y), plot.Bare, r.of("drive.mark-set", "jerk", phrase.Num(all[2].Y, 0))
	edge.Over = edge.Y < 0
	p.Marks = append(p.Marks, edge)
}

// energy is what handwheel and rotor hold, kilojoules.
func energy(run *study.Run) []float64 {
	out := make([]float64, len(run.MotorRadS))
	for i, w := range run.MotorRadS {
		out[i] = run.Machine.Train().HandwheelJ(&drive.State{OmegaRadS: w}) / 1000
	}
	return out
}

const rpm = 30 / math.Pi

// torqueScope is the range of torque both pictures share, so that they can be
// compared.
func torqueScope(c *study.Comparison) [2]float64 {
	lo, hi := 0.0, 0.0
	for _, s := range []*study.Side{&c.A, &c.B} {
		dir := direction(s.Run)
		for _, v := range s.Run.AirgapNM {
			lo, hi = math.Min(lo, dir*v), math.Max(hi, dir*v)
		}
		m := &s.Run.Plan.Motor
		hi = math.Max(hi, math.Max(m.FastBreakdownNM, m.SlowBreakdownNM))
	}
	return [2]float64{math.Floor(1.08*lo/50) * 50, math.Ceil(1.04*hi/50) * 50}
}

func (r *Room) side(s *study.Side, which string, pen plot.Pen, end float64, scope [2]float64) WheelSide {
	out := WheelSide{
		Name: r.wheelName(which, s), Handwheel: s.HandwheelKGM2,
		Advance: r.of("drive.value", "value", phrase.Num(s.AdvanceM, 2), "unit", "m"),
		Vane:    r.of("drive.value", "value", phrase.Num(1000*s.VaneM, 0), "unit", "mm"),
	}
	out.Torque = r.torque(s, which, pen, scope)
	run, dir := s.Run, direction(s.Run)
	out.Path = along(&out.Torque.Frames[0], run, end, func(at float64) (x, y float64) {
		at += run.Marks.OnS
		return dir * rpm * sampled(run.MotorRadS, run.SampleS, at), dir * sampled(run.AirgapNM, run.SampleS, at)
	})
	for k := range out.Path {
		out.Now = append(out.Now, r.reading(run, run.Marks.OnS+float64(k)*tickS))
	}
	return out
}

// reading is a run at an instant of its record.
func (r *Room) reading(run *study.Run, at float64) Reading {
	dir := direction(run)
	motor := sampled(run.MotorRadS, run.SampleS, at)
	value := func(v float64, decimals int, unit string) string {
		return r.of("drive.value", "value", phrase.Num(v, decimals), "unit", unit)
	}
	return Reading{
		Speed:   value(dir*sampled(run.SpeedMS, run.SampleS, at), 2, "m/s"),
		Motor:   r.of("drive.rpm", "value", phrase.Num(dir*rpm*motor, 0)),
		Torque:  value(dir*sampled(run.AirgapNM, run.SampleS, at), 0, "N·m"),
		Energy:  value(run.Machine.Train().HandwheelJ(&drive.State{OmegaRadS: motor})/1000, 1, "kJ"),
		Winding: r.of("drive.now-" + run.Running[int(at/run.SampleS+0.5)].String()),
	}
}

// torque draws the curves of both windings and the path of the operating
// point, counted in the direction of travel.
func (r *Room) torque(s *study.Side, which string, pen plot.Pen, scope [2]float64) Picture {
	if r.Beside > 0 {
		beside := *r
		beside.Width = r.Beside
		r = &beside
	}
	run := s.Run
	train, dir := run.Machine.Train(), direction(run)
	fast := train.SynchronousRadS(drive.Fast)
	var curves []plot.Curve
	for _, k := range []struct {
		id string
		w  drive.Winding
		d  figure.Dash
	}{{"drive.winding-fast", drive.Fast, figure.Dashed}, {"drive.winding-slow", drive.Slow, figure.Dotted}} {
		c := plot.Curve{Name: r.of(k.id), Pen: plot.Pen{Role: figure.Muted, Dash: k.d}}
		for i := -20; i <= 460; i++ {
			w := float64(i) / 400 * fast
			c.X, c.Y = append(c.X, rpm*w), append(c.Y, train.SteadyNM(k.w, w))
		}
		curves = append(curves, c)
	}
	path := plot.Curve{Name: r.wheelName(which, s), Pen: pen}
	for i := range run.MotorRadS {
		at := float64(i)*run.SampleS - run.Marks.OnS
		if at < 0 || at > endOf(run) {
			continue
		}
		path.X, path.Y = append(path.X, dir*rpm*run.MotorRadS[i]), append(path.Y, dir*run.AirgapNM[i])
	}
	path.Heads = heads(run, len(path.X))
	curves = append(curves, path)
	mark := func(id string, at float64, sign plot.Sign, over bool) plot.Mark {
		return plot.Mark{Name: r.of(id), X: dir * rpm * sampled(run.MotorRadS, run.SampleS, at), Y: dir * sampled(run.AirgapNM, run.SampleS, at),
			Sign: sign, Role: figure.Ink, Over: over}
	}
	m := &run.Marks
	return r.sheet("torque-"+which, plot.Sheet{
		X: plot.Axis{Label: r.of("drive.axis-motor"), Lo: -100, Hi: math.Ceil(1.13*rpm*fast/100) * 100},
		Panels: []plot.Panel{{
			Y: plot.Axis{Label: r.of("drive.axis-torque"), Lo: scope[0], Hi: scope[1]}, Height: math.Max(240, math.Min(0.42*r.Width, 420)),
			Curves: curves,
			Marks: []plot.Mark{mark("drive.mark-moves", m.MoveS, plot.Disc, true),
				mark("drive.mark-slow", m.SlowS, plot.Square, true), mark("drive.mark-vane", m.VaneS, plot.Diamond, true)},
		}},
	}, phrase.Of("drive.torque-say", "wheel", phrase.Num(s.HandwheelKGM2, 2)))
}

// heads are the points of the path, halfway through starting and through
// slowing down, at which an arrowhead shows which way it runs.
func heads(run *study.Run, points int) []int {
	m := &run.Marks
	var out []int
	for _, at := range []float64{(m.MoveS + run.Figures().ToFullS + m.OnS) / 2, m.SlowS + 0.35*(m.VaneS-m.SlowS)} {
		if i := int((at - m.OnS) / run.SampleS); at > 0 && i > 0 && i < points {
			out = append(out, i)
		}
	}
	return out
}

// along lists points in a picture, one every tickS, as long as the run lasts.
func along(f *plot.Frame, run *study.Run, end float64, at func(s float64) (x, y float64)) [][2]float64 {
	var out [][2]float64
	for k := 0; float64(k)*tickS <= end; k++ {
		x, y := at(float64(k) * tickS)
		if math.IsNaN(x) || math.IsNaN(y) {
			break
		}
		p := f.At(x, math.Max(f.Lower, math.Min(f.Upper, y)))
		out = append(out, [2]float64{math.Round(10*p.X) / 10, math.Round(10*p.Y) / 10})
	}
	return out
}
