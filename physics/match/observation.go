package match

import (
	"cmp"
	"slices"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// An Edge is one lamp seen to come on or go out.
type Edge struct {
	Row   int // line of the file, from 1; or its place in the list
	TimeS float64
	Floor int
	On    bool
}

// A Mark is the instant at which the car left a landing or came to rest at one.
type Mark struct {
	Row   int
	TimeS float64
	Floor int // -1 where the observer did not say
}

// An Observation is what one passenger noted of one trip.
type Observation struct {
	Edges          []Edge  // in the order of time
	Depart, Arrive *Mark   // nil where not noted
	SpeedMS        float64 // measured; 0: not
	SpeedErrorMS   float64 // of the measured speed, one standard deviation; 0: exact
}

// A Problem is something wrong with an observation, and the row it is in; 0 for
// the whole.
type Problem struct {
	Row int
	Say phrase.Phrase
}

// Limits of an observation.
const (
	LongestS   = 3600.0 // of a trip, far above any
	LeastEdges = 4      // three unknowns can be seen at least, and one edge to judge them by
	mostRows   = 2000
)

// CheckSpeed returns what makes a measured speed or its error unusable, both in
// metres a second and 0 where there is none; ok where nothing does.
func CheckSpeed(speedMS, errorMS float64) (say phrase.Phrase, ok bool) {
	switch {
	case speedMS != 0 && !(speedMS >= building.LeastSpeedMS && speedMS <= building.MostSpeedMS):
		return phrase.Of("match.bad-speed", "least", document.Plain(building.LeastSpeedMS), "most", document.Plain(building.MostSpeedMS)), false
	case !(errorMS >= 0 && errorMS <= building.MostSpeedMS):
		return phrase.Of("match.bad-speed-error", "most", document.Plain(building.MostSpeedMS)), false
	}
	return say, true
}

// Check returns what makes an observation unusable on a building with these
// floors: lamps on that are on, off that are off, time that runs backwards, too
// few edges.
func (o *Observation) Check(floors []string) []Problem {
	var out []Problem
	add := func(row int, id string, slots ...any) {
		out = append(out, Problem{Row: row, Say: phrase.Of("match."+id, append([]any{"row", row}, slots...)...)})
	}
	lit := make([]int, len(floors)) // the row that lit it, 0 while dark
	var rows []int
	last := Edge{}
	for _, e := range o.Edges {
		if last.Row > 0 && e.TimeS < last.TimeS {
			add(e.Row, "time-backwards", "time", seconds(e.TimeS), "before", seconds(last.TimeS), "other", last.Row)
		}
		last = e
		switch {
		case e.On && lit[e.Floor] > 0:
			add(e.Row, "on-twice", "lamp", floors[e.Floor], "other", lit[e.Floor])
		case !e.On && lit[e.Floor] == 0:
			add(e.Row, "off-before-on", "lamp", floors[e.Floor])
		case e.On:
			lit[e.Floor] = e.Row
		default:
			lit[e.Floor] = 0
		}
		rows = append(rows, e.Row)
	}
	if d, a := o.Depart, o.Arrive; d != nil && a != nil {
		if a.TimeS <= d.TimeS {
			add(a.Row, "arrive-first", "other", d.Row)
		}
	}
	if len(out) > 0 {
		return out
	}
	t := o.Trip()
	if d := o.Depart; d != nil && d.Floor < 0 && t.From < 0 {
		add(d.Row, "from-unknown")
	}
	if a := o.Arrive; a != nil && a.Floor < 0 && t.To < 0 {
		add(a.Row, "to-unknown")
	}
	if t.From >= 0 && t.From == t.To {
		row := last.Row
		if o.Arrive != nil {
			row = o.Arrive.Row
		}
		add(row, "no-way", "lamp", floors[t.From])
	}
	whole := 0
	for _, l := range t.Lamps {
		whole += min(len(l.On), len(l.Off))
	}
	switch n := t.Edges(); {
	case n < LeastEdges || len(t.Lamps) < 2:
		out = append(out, Problem{Say: phrase.Of("match.too-few", "count", n, "least", LeastEdges, "rows", listed(rows))})
	case whole == 0:
		out = append(out, Problem{Say: phrase.Of("match.no-whole-lamp", "rows", listed(rows))})
	}
	return out
}

func seconds(s float64) phrase.Number { return phrase.Num(s, 3) }

// listed spells rows as "2, 3, 5"; none as "–".
func listed(rows []int) string {
	if len(rows) == 0 {
		return "–"
	}
	s := ""
	for i, r := range rows {
		if i > 0 {
			s += ", "
		}
		s += itoa(r)
	}
	return s
}

// A Trip is an observation sorted by lamps: what of it shows the ring.
type Trip struct {
	From, To int // floors, -1 where nobody can tell
	Up       bool
	Lamps    []SeenLamp // from the lowest floor up
}

// A SeenLamp is the edges of one lamp, and for each the run of terminals it
// belongs to, from 0 in the direction of travel: a lamp that blinks within its
// floor has several.
type SeenLamp struct {
	Floor   int
	On, Off []Edge
	FromEnd bool // runs are counted back from the last: how it began was not seen
}

// Trip sorts the observation. What a lamp shows before the car moves is where
// the car is, not where a terminal ends: the first landing's lamp counts from
// the instant at which it goes out.
func (o *Observation) Trip() Trip {
	t := Trip{From: -1, To: -1}
	if len(o.Edges) == 0 {
		return t
	}
	if o.Depart != nil {
		t.From = o.Depart.Floor
	}
	if o.Arrive != nil {
		t.To = o.Arrive.Floor
	}
	first := o.Edges[0]
	if t.From < 0 && first.On && (o.Depart == nil || first.TimeS <= o.Depart.TimeS) {
		t.From = first.Floor
	}
	if last := o.Edges[len(o.Edges)-1]; t.To < 0 && last.On {
		t.To = last.Floor
	}

	low, high := first.Floor, first.Floor
	for _, e := range o.Edges {
		low, high = min(low, e.Floor), max(high, e.Floor)
	}
	// Up or down: how the floors run in the order of time.
	rise, middle := 0.0, float64(len(o.Edges)-1)/2
	for i, e := range o.Edges {
		rise += (float64(i) - middle) * float64(e.Floor)
	}
	t.Up = rise > 0
	if t.From >= 0 && t.To >= 0 && t.From != t.To {
		t.Up = t.To > t.From
	}

	for f := low; f <= high; f++ {
		l := SeenLamp{Floor: f}
		for i, e := range o.Edges {
			switch {
			case e.Floor != f:
			case e.On && f == t.From && len(l.On) == 0 && len(l.Off) == 0:
				l.FromEnd = true // lit before the car moved
			case e.On && i == 0 && o.Depart == nil:
				l.FromEnd = true // lit when the observer began
			case e.On:
				l.On = append(l.On, e)
			default:
				l.Off = append(l.Off, e)
			}
		}
		if len(l.On)+len(l.Off) > 0 {
			t.Lamps = append(t.Lamps, l)
		}
	}
	return t
}

// Edges counts the edges that show the ring.
func (t *Trip) Edges() int {
	n := 0
	for _, l := range t.Lamps {
		n += len(l.On) + len(l.Off)
	}
	return n
}

// Without returns the trip with some floors' lamps left out.
func (t *Trip) Without(floors ...int) Trip {
	other := *t
	other.Lamps = nil
	for _, l := range t.Lamps {
		keep := true
		for _, f := range floors {
			keep = keep && l.Floor != f
		}
		if keep {
			other.Lamps = append(other.Lamps, l)
		}
	}
	return other
}

// Sort puts the edges in the order of time; those of one instant keep theirs.
func (o *Observation) Sort() {
	slices.SortStableFunc(o.Edges, func(a, b Edge) int { return cmp.Compare(a.TimeS, b.TimeS) })
}
