package session

import (
	"slices"

	"wheelroom/game/timeline"
	"wheelroom/physics/phrase"
)

// A CompareTold is what came of both runs, once they are worked out.
type CompareTold struct {
	EndS    float64           `json:"endS"`  // of the longer run
	Marks   []float64         `json:"marks"` // times of what a passenger would notice, in order
	Strips  [2]timeline.Strip `json:"strips"`
	Stops   []CompareStops    `json:"stops"`
	Figures []CompareFigure   `json:"figures"`
	Notes   [2]string         `json:"notes"` // what went wrong, "" for nothing
}

// CompareStops are the nth stop of each run; an empty floor where a run made
// fewer.
type CompareStops struct {
	Floor [2]string `json:"floor"`
	Time  [2]string `json:"time"`
	Calls [2]string `json:"calls"` // how long the call answered there had waited
	Same  bool      `json:"same"`  // both at the same floor
}

// A CompareFigure is one figure of both runs.
type CompareFigure struct {
	Key   string    `json:"key"`
	Name  string    `json:"name"`
	Value [2]string `json:"value"`
}

// compareTold sets stops and figures side by side.
func (a Asking) compareTold() (CompareTold, error) {
	d, err := a.both()
	if err != nil {
		return CompareTold{}, err
	}
	t := CompareTold{Marks: []float64{}, Stops: []CompareStops{}, Figures: []CompareFigure{}}
	var runs [2]outcome
	for i, s := range d.sides {
		end := s.run.End()
		t.EndS = max(t.EndS, end.TimeS())
		t.Strips[i] = s.run.Strip()
		runs[i] = outcomeOf(t.Strips[i])
		for _, e := range end.Events() {
			switch kindOf(e.Part) {
			case "stop", "call", "door":
				t.Marks = append(t.Marks, e.TimeS)
			}
		}
		switch {
		case end.Stopped() != "":
			t.Notes[i] = a.o.Words(phrase.Of(end.Stopped()))
		case s.done && !end.Idle():
			t.Notes[i] = a.o.Words(phrase.Of("compare.never-idle", "minutes", int(compareMostS/60)))
		}
	}
	slices.Sort(t.Marks)
	t.Marks = slices.Compact(t.Marks)
	for n := range max(len(runs[0].stops), len(runs[1].stops)) {
		var row CompareStops
		for i := range runs {
			if n < len(runs[i].stops) {
				stop := runs[i].stops[n]
				row.Floor[i], row.Time[i] = stop.Floor, a.figure(stop.FromS, 2)
				if w := runs[i].waits[n]; w >= 0 {
					row.Calls[i] = a.figure(w, 2)
				}
			}
		}
		row.Same = row.Floor[0] == row.Floor[1]
		t.Stops = append(t.Stops, row)
	}
	for _, f := range []struct {
		key string
		of  func(o outcome) string
	}{
		{"stops", func(o outcome) string { return a.number(float64(len(o.stops)), 0) }},
		{"answered", func(o outcome) string { return a.number(float64(o.answered), 0) }},
		{"waiting", func(o outcome) string { return a.number(float64(o.waiting), 0) }},
		{"last", func(o outcome) string { return a.seconds(o.lastS) }},
		{"mean", func(o outcome) string { return a.seconds(o.meanS) }},
		{"longest", func(o outcome) string { return a.seconds(o.longestS) }},
		{"travel", func(o outcome) string {
			return a.o.Words(phrase.Of("compare.metres", "value", phrase.Num(o.travelM, 1)))
		}},
	} {
		t.Figures = append(t.Figures, CompareFigure{f.key, a.o.Words(phrase.Of("compare." + f.key)), [2]string{f.of(runs[0]), f.of(runs[1])}})
	}
	return t, nil
}

// number and seconds word a figure; of calls that were never answered there
// are no seconds.
func (a Asking) number(v float64, decimals int) string {
	return a.o.Words(phrase.Of("compare.number", "value", phrase.Num(v, decimals)))
}

func (a Asking) seconds(v float64) string {
	if v < 0 {
		return a.o.Words(phrase.Of("compare.none"))
	}
	return a.o.Words(phrase.Of("compare.seconds", "value", phrase.Num(v, 1)))
}

// An outcome is what came of one run.
type outcome struct {
	stops                  []timeline.Stop // after the start
	waits                  []float64       // by stop: how long the call answered there had waited, -1 for none
	answered, waiting      int
	lastS, meanS, longestS float64 // -1 without an answered call
	travelM                float64
}

func outcomeOf(s timeline.Strip) outcome {
	o := outcome{lastS: -1, meanS: -1, longestS: -1}
	sum := 0.0
	for _, c := range s.Calls {
		if c.ToS < 0 {
			o.waiting++
			continue
		}
		o.answered++
		sum += c.ToS - c.FromS
		o.lastS, o.longestS = max(o.lastS, c.ToS), max(o.longestS, c.ToS-c.FromS)
	}
	if o.answered > 0 {
		o.meanS = sum / float64(o.answered)
	}
	for i := 1; i < len(s.Path); i++ {
		o.travelM += max(s.Path[i][1]-s.Path[i-1][1], s.Path[i-1][1]-s.Path[i][1])
	}
	for _, stop := range s.Stops {
		if stop.FromS == 0 {
			continue
		}
		wait := -1.0
		for _, c := range s.Calls {
			if c.Floor == stop.Floor && c.ToS >= stop.FromS && c.ToS <= stop.ToS {
				wait = max(wait, c.ToS-c.FromS)
			}
		}
		o.stops, o.waits = append(o.stops, stop), append(o.waits, wait)
	}
	return o
}
