package machineroom

import (
	"math"

	"wheelroom/game/figure"
	"wheelroom/game/plot"
	"wheelroom/physics/building"
	"wheelroom/physics/drive"
	"wheelroom/physics/phrase"
	"wheelroom/physics/study"
)

// A CompareScreen is the same trip with a light wheel and a heavy one.
type CompareScreen struct {
	Title   string    `json:"title"`
	Caution string    `json:"caution"`
	Trip    string    `json:"trip"`
	Light   WheelSide `json:"light"`
	Heavy   WheelSide `json:"heavy"`
	Say     []string  `json:"say"` // the trade-off in the numbers of these runs
	Time    Picture   `json:"time"`
	Table   []PairRow `json:"table"`
	EndS    float64   `json:"endS"` // of the common clock
	TickS   float64   `json:"tickS"`
}

// A WheelSide is one of the two machines.
type WheelSide struct {
	Name      string       `json:"name"`
	Handwheel float64      `json:"handwheel"` // kg·m²
	Advance   string       `json:"advance"`
	Vane      string       `json:"vane"`
	Torque    Picture      `json:"torque"`
	Path      [][2]float64 `json:"path"`  // the operating point in the picture, every tickS from the contactors on
	Speed     [][2]float64 `json:"speed"` // the same on the speed's panel of the common picture
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

// Compare prepares the screen of two handwheels on one trip. Its errors are
// study.Ride's.
func (r *Room) Compare(p *building.Plan, t study.Trip, a, b study.Choice) (CompareScreen, error) {
	c, err := study.Compare(p, t, a, b)
	if err != nil {
		return CompareScreen{}, err
	}
	s := CompareScreen{
		Title: r.of("drive.compare-title"), Caution: r.of("drive.caution"), Trip: r.say(t.Say(p)),
		Say: r.all(c.Say()), TickS: tickS,
	}
	s.EndS = math.Max(endOf(c.A.Run), endOf(c.B.Run))
	s.Time = r.clock(&c, s.EndS)
	scope := torqueScope(&c)
	s.Light, s.Heavy = r.side(&c.A, "light", lightPen, s.EndS, scope), r.side(&c.B, "heavy", heavyPen, s.EndS, scope)
	for _, of := range []struct {
		side *study.Side
		to   *WheelSide
	}{{&c.A, &s.Light}, {&c.B, &s.Heavy}} {
		of.to.Speed = along(&s.Time.Frames[0], of.side.Run, s.EndS, func(at float64) (x, y float64) {
			return at, direction(of.side.Run) * sampled(of.side.Run.SpeedMS, of.side.Run.SampleS, at+of.side.Run.Marks.OnS)
		})
	}
	ta, tb := study.Table(c.A.Figures, study.HeatW), study.Table(c.B.Figures, study.HeatW)
	for i := range ta {
		s.Table = append(s.Table, PairRow{Key: ta[i].Key, Name: r.say(ta[i].Name()), Light: r.say(ta[i].Say()), Heavy: r.say(tb[i].Say()),
			A: value(ta[i].Value), B: value(tb[i].Value), Unit: ta[i].Unit})
	}
	return s, nil
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
	return out
}

// torque draws the curves of both windings and the path of the operating
// point, counted in the direction of travel.
func (r *Room) torque(s *study.Side, which string, pen plot.Pen, scope [2]float64) Picture {
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
