package script

import (
	"math"
	"slices"
	"sort"
	"strings"

	"wheelroom/physics/phrase"
	"wheelroom/physics/selector"
)

// A steady is a fact about no event.
type steady struct {
	name  string
	needs Needs
	unit  Unit
	value func(v *vocabulary, l *Log) (Value, bool)
}

// steadies are the facts about no event: of the start, the frozen frame and
// the run as a whole, and of what does not change.
var steadies = []steady{
	{"start.floor", NeedsNothing, "", func(_ *vocabulary, l *Log) (Value, bool) { return named(l.Start), l.Start != "" }},
	{"start.height", NeedsNothing, Metres, func(_ *vocabulary, l *Log) (Value, bool) {
		if len(l.Path) == 0 {
			return Value{}, false
		}
		return quantity(l.Path[0].HeightM, Metres), true
	}},
	{"load", NeedsNothing, Kilograms, func(_ *vocabulary, l *Log) (Value, bool) { return quantity(l.LoadKG, Kilograms), true }},

	{"frozen.time", NeedsLead, Seconds, func(_ *vocabulary, l *Log) (Value, bool) { return quantity(l.FrozenS, Seconds), l.Asked }},
	{"frozen.height", NeedsLead, Metres, func(_ *vocabulary, l *Log) (Value, bool) {
		h, _ := l.place(l.FrozenS)
		return quantity(h, Metres), l.Asked
	}},
	{"frozen.speed", NeedsLead, MetresASec, func(_ *vocabulary, l *Log) (Value, bool) {
		_, speed := l.place(l.FrozenS)
		return quantity(math.Abs(speed), MetresASec), l.Asked
	}},

	{"end.height", NeedsRun, Metres, func(_ *vocabulary, l *Log) (Value, bool) {
		h, _ := l.place(l.NowS)
		return quantity(h, Metres), l.Asked
	}},
	{"end.travel", NeedsRun, Metres, func(_ *vocabulary, l *Log) (Value, bool) {
		a, _ := l.place(l.FrozenS)
		b, _ := l.place(l.NowS)
		return quantity(math.Abs(b-a), Metres), l.Asked
	}},
	{"end.turn", NeedsRun, Degrees, func(v *vocabulary, l *Log) (Value, bool) {
		a, _ := l.place(l.FrozenS)
		b, _ := l.place(l.NowS)
		return turn((b - a) / v.plan.TravelM() * v.plan.Selector.SpanDeg), l.Asked
	}},
	{"peak.speed", NeedsRun, MetresASec, func(_ *vocabulary, l *Log) (Value, bool) {
		speed, _, _ := l.peaks()
		return quantity(speed, MetresASec), l.Asked
	}},
	{"peak.acceleration", NeedsRun, MetresASec2, func(_ *vocabulary, l *Log) (Value, bool) {
		_, gain, _ := l.peaks()
		return quantity(gain, MetresASec2), l.Asked
	}},
	{"peak.deceleration", NeedsRun, MetresASec2, func(_ *vocabulary, l *Log) (Value, bool) {
		_, _, loss := l.peaks()
		return quantity(loss, MetresASec2), l.Asked
	}},

	{"advance.up", NeedsNothing, Metres, plan(Metres, func(v *vocabulary) float64 { return v.plan.Selector.AdvanceUpM })},
	{"advance.down", NeedsNothing, Metres, plan(Metres, func(v *vocabulary) float64 { return v.plan.Selector.AdvanceDownM })},
	{"advance.contact", NeedsNothing, Millimetres, plan(Millimetres, func(v *vocabulary) float64 { return 1000 * v.plan.Selector.AdvanceContactM })},
	{"zone.half", NeedsNothing, Millimetres, plan(Millimetres, func(v *vocabulary) float64 { return 1000 * v.plan.Selector.ZoneHalfM })},
	{"crossover.half", NeedsNothing, Millimetres, plan(Millimetres, func(v *vocabulary) float64 { return 1000 * v.plan.Selector.CrossoverHalfM })},
	{"vane.length", NeedsNothing, Millimetres, plan(Millimetres, func(v *vocabulary) float64 { return 2000 * v.plan.Shaft.VaneHalfM })},
	{"wheel.span", NeedsNothing, Degrees, plan(Degrees, func(v *vocabulary) float64 { return v.plan.Selector.SpanDeg })},
	{"wheel.per-metre", NeedsNothing, DegreesAM, plan(DegreesAM, func(v *vocabulary) float64 { return v.plan.Selector.SpanDeg / v.plan.TravelM() })},
	{"travel", NeedsNothing, Metres, plan(Metres, func(v *vocabulary) float64 { return v.plan.TravelM() })},
	{"ring.pitch", NeedsNothing, Metres, plan(Metres, func(v *vocabulary) float64 { return v.ring.PitchM() })},
	{"ring.terminals", NeedsNothing, Pieces, plan(Pieces, func(v *vocabulary) float64 { return float64(len(v.ring.Terminals())) })},
	{"ring.per-floor", NeedsNothing, Pieces, func(v *vocabulary, _ *Log) (Value, bool) {
		per := v.plan.Selector.TerminalsPerFloor
		return Value{Number: per, Unit: Pieces, Words: Pieces.say(per, 1)}, true
	}},
	{"ring.live", NeedsNothing, Pieces, plan(Pieces, func(v *vocabulary) float64 { return float64(v.plan.Selector.LiveTerminals) })},
	{"ring.darks", NeedsNothing, Pieces, plan(Pieces, func(v *vocabulary) float64 {
		return v.boundaries(func(b selector.Boundary) bool { return b.DarkM > 0 })
	})},
	{"ring.overlaps", NeedsNothing, Pieces, plan(Pieces, func(v *vocabulary) float64 {
		return v.boundaries(func(b selector.Boundary) bool { return b.OverlapM > 0 })
	})},
	{"ring.overlap", NeedsNothing, Metres, plan(Metres, func(v *vocabulary) float64 {
		s := &v.plan.Selector
		return (s.BrushWidth + s.TerminalWidth - 1) * v.ring.PitchM()
	})},
	{"speed.rated", NeedsNothing, MetresASec, plan(MetresASec, func(v *vocabulary) float64 { return v.plan.Machine.RatedSpeedMS })},
	{"handwheel.inertia", NeedsNothing, Inertia, plan(Inertia, func(v *vocabulary) float64 { return v.plan.Machine.HandwheelKGM2 })},
	{"car.mass", NeedsNothing, Kilograms, plan(Kilograms, func(v *vocabulary) float64 { return v.plan.Lift.CarKG })},
	{"counterweight.mass", NeedsNothing, Kilograms, plan(Kilograms, func(v *vocabulary) float64 {
		return v.plan.Lift.CarKG + v.plan.Lift.Balance*v.plan.Lift.RatedLoadKG
	})},
	{"load.rated", NeedsNothing, Kilograms, plan(Kilograms, func(v *vocabulary) float64 { return v.plan.Lift.RatedLoadKG })},
	{"door.dwell", NeedsNothing, Seconds, plan(Seconds, func(v *vocabulary) float64 { return v.plan.Door.DwellS })},
}

// plan makes a value of the building alone.
func plan(u Unit, of func(v *vocabulary) float64) func(*vocabulary, *Log) (Value, bool) {
	return func(v *vocabulary, _ *Log) (Value, bool) { return quantity(of(v), u), true }
}

// ofFloors are facts of one floor, {floor.F.WORD}, or of the stretch from one
// floor to the next above, {above.F.WORD}.
var ofFloors = []struct {
	family, word string
	unit         Unit
	value        func(v *vocabulary, f int) (float64, bool)
}{
	{"floor", "height", Metres, func(v *vocabulary, f int) (float64, bool) { return v.plan.Floors[f].HeightM, true }},
	{"floor", "angle", Degrees, func(v *vocabulary, f int) (float64, bool) {
		return v.plan.Floors[f].HeightM / v.plan.TravelM() * v.plan.Selector.SpanDeg, true
	}},
	{"floor", "lit", Metres, func(v *vocabulary, f int) (float64, bool) {
		spans := v.ring.Lit(f)
		if len(spans) == 0 {
			return 0, false
		}
		return spans[len(spans)-1].UpBreak - spans[0].UpMake, true
	}},
	{"above", "storey", Metres, func(v *vocabulary, f int) (float64, bool) {
		return v.plan.Floors[f+1].HeightM - v.plan.Floors[f].HeightM, true
	}},
	{"above", "dark", Metres, func(v *vocabulary, f int) (float64, bool) {
		b, ok := v.boundary(f)
		return b.dark, ok && b.dark > 0
	}},
	{"above", "overlap", Metres, func(v *vocabulary, f int) (float64, bool) {
		b, ok := v.boundary(f)
		return b.overlap, ok && b.overlap > 0
	}},
	{"above", "blanks", Pieces, func(v *vocabulary, f int) (float64, bool) {
		b, ok := v.boundary(f)
		return float64(b.blanks), ok
	}},
}

// boundaries counts those of which something holds.
func (v *vocabulary) boundaries(holds func(selector.Boundary) bool) float64 {
	n := 0
	for _, b := range v.ring.Boundaries() {
		if holds(b) {
			n++
		}
	}
	return float64(n)
}

// bounds is what the brush meets between a floor's lamp and the next above.
type bounds struct {
	dark, overlap float64
	blanks        int
}

func (v *vocabulary) boundary(f int) (bounds, bool) {
	for _, b := range v.ring.Boundaries() {
		if b.Below == f && b.Above == f+1 {
			return bounds{b.DarkM, b.OverlapM, b.BlankTerminals}, true
		}
	}
	return bounds{}, false
}

// still reads a fact about no event, nil if it is none.
func (v *vocabulary) still(written string) *Fact {
	for i := range steadies {
		if s := &steadies[i]; s.name == written {
			return &Fact{Written: written, needs: s.needs, unit: s.unit, value: func(l *Log) (Value, bool) { return s.value(v, l) }}
		}
	}
	family, rest, _ := strings.Cut(written, ".")
	name, word, _ := cutLast(rest)
	f := v.plan.Floor(name)
	if f < 0 || family == "above" && f == len(v.plan.Floors)-1 {
		return nil
	}
	for i := range ofFloors {
		s := &ofFloors[i]
		if s.family != family || s.word != word {
			continue
		}
		value, ok := s.value(v, f)
		return &Fact{Written: written, unit: s.unit, value: func(*Log) (Value, bool) { return quantity(value, s.unit), ok }}
	}
	return nil
}

// stillNames lists the facts about no event.
func (v *vocabulary) stillNames() []string {
	var list []string
	for i := range steadies {
		list = append(list, steadies[i].name)
	}
	for f := range v.plan.Floors {
		for _, s := range ofFloors {
			if s.family == "floor" || f+1 < len(v.plan.Floors) {
				list = append(list, s.family+"."+v.plan.Floors[f].Name+"."+s.word)
			}
		}
	}
	return list
}

// nearestLanding returns the height of the landing nearest to a height.
func (v *vocabulary) nearestLanding(h float64) float64 {
	best := v.plan.Floors[0].HeightM
	for _, f := range v.plan.Floors {
		if math.Abs(f.HeightM-h) < math.Abs(best-h) {
			best = f.HeightM
		}
	}
	return best
}

// why lists the parts that brought an event about, first cause first.
func (l *Log) why(i int) Value {
	var words []phrase.Phrase
	for _, k := range l.Causes(i) {
		words = append(words, PartName(l.Events[k].Part))
	}
	return Value{Words: listed("lesson.answer-leads", words)}
}

// Causes returns the events that brought event i about, in their order, itself
// the last: each is the cause of the next.
func (l *Log) Causes(i int) []int {
	var list []int
	for ; i >= 0; i = l.Events[i].Cause {
		list = append(list, i)
	}
	slices.Reverse(list)
	return list
}

// Chain returns the events that brought the given ones about, each once, in
// causal order. Of each event the first of the asked run counts.
func (l *Log) Chain(events []Event) []int {
	seen := map[int]bool{}
	var list []int
	for _, e := range events {
		at := e.first(l, l.Before)
		if !l.Asked || at < 0 {
			continue
		}
		for _, i := range l.Causes(at) {
			if !seen[i] {
				seen[i] = true
				list = append(list, i)
			}
		}
	}
	sort.Ints(list)
	return list
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
