package script

import (
	"slices"
	"strconv"
	"strings"

	"wheelroom/physics/phrase"
)

// A Claim is what an option says of the asked run, so that the machine can
// decide it. Every field that is set must hold; a claim with none set says
// nothing and is refused when a lesson is read.
type Claim struct {
	Stops   *[]string // the floors at which the car stops, in order, all of them
	Goes    Way       // which way the car first sets off after the frozen frame, or goes on
	Happens []Event   // each occurs
	Never   []Event   // none occurs
	Order   []Event   // each occurs, the first time in this order
	Ends    []Event   // each part stands so at the end
	Figures []Figure  // each holds
}

// Way is a direction of travel.
type Way uint8

// The ways. AnyWay says nothing; Nowhere means the car does not move.
const (
	AnyWay Way = iota
	GoesUp
	GoesDown
	Nowhere
)

// ways spells the ways in a file.
var ways = map[string]Way{"up": GoesUp, "down": GoesDown, "nowhere": Nowhere}

// Empty reports whether the claim says nothing.
func (c Claim) Empty() bool {
	return c.Stops == nil && c.Goes == AnyWay && len(c.Happens)+len(c.Never)+len(c.Order)+len(c.Ends)+len(c.Figures) == 0
}

// Holds reports whether the claim is true of the asked part of the log. It is
// meant for a finished run: a claim about what never happens can only be
// judged at the end.
func (c Claim) Holds(l *Log) bool {
	if c.Stops != nil && !slices.Equal(*c.Stops, l.Stops()) {
		return false
	}
	if c.Goes != AnyWay && c.Goes != l.goes() {
		return false
	}
	for _, e := range c.Happens {
		if e.first(l, l.Before) < 0 {
			return false
		}
	}
	for _, e := range c.Never {
		if e.first(l, l.Before) >= 0 {
			return false
		}
	}
	for _, e := range c.Ends {
		if l.State(e.part, len(l.Events)) != e.state {
			return false
		}
	}
	for _, f := range c.Figures {
		if !f.holds(l) {
			return false
		}
	}
	last := -1
	for _, e := range c.Order {
		i := e.first(l, l.Before)
		if i < 0 || i <= last {
			return false
		}
		last = i
	}
	return true
}

// Stops returns the floors at which the car stopped after the frozen frame,
// in order.
func (l *Log) Stops() []string {
	var floors []string
	for _, e := range l.asked() {
		if e.Part == "stop" && e.State != "-" {
			floors = append(floors, e.State)
		}
	}
	return floors
}

// travelM is how far the car must come from the frozen frame before a way
// counts, metres: more than it sags or is pulled while a brake lifts.
const travelM = 0.02

// goes returns the way the car first took after the frozen frame.
func (l *Log) goes() Way {
	from, _ := l.place(l.FrozenS)
	for _, p := range l.Path {
		switch {
		case !l.Asked || p.TimeS <= l.FrozenS:
		case p.HeightM > from+travelM:
			return GoesUp
		case p.HeightM < from-travelM:
			return GoesDown
		}
	}
	return Nowhere
}

// A Figure compares a fact with another of the same unit, or with a number:
//
//	stop.1.after < 5 s
//	stop.1.level > stop.2.level
//	lamp.3.dark.height = lead.lamp.3.lit.height     (as both are told)
type Figure struct {
	left, right *Fact   // right nil: the number
	number      float64 // in the unit of left
	sign        string  // "<", ">" or "="
	words       string
}

// String returns the figure as it was written.
func (f Figure) String() string { return f.words }

// holds reports whether both sides are known and compare as the figure says.
func (f Figure) holds(l *Log) bool {
	a, ok := f.left.Value(l)
	b := Value{Number: f.number}
	if f.right != nil {
		var known bool
		b, known = f.right.Value(l)
		ok = ok && known
	}
	if !ok {
		return false
	}
	switch f.sign {
	case "<":
		return a.Number < b.Number
	case ">":
		return a.Number > b.Number
	}
	return f.left.unit.told(a.Number) == f.left.unit.told(b.Number)
}

// figure reads a comparison. On failure it returns what is wrong and the facts
// that were perhaps meant.
func (v *vocabulary) figure(words string) (Figure, *phrase.Phrase, []string) {
	f := Figure{words: words}
	form := phrase.Of("lesson.bad-figure", "found", words)
	var left, right string
	for _, sign := range []string{"<", ">", "="} {
		if a, b, ok := strings.Cut(words, " "+sign+" "); ok {
			left, right, f.sign = a, b, sign
			break
		}
	}
	if f.sign == "" {
		return f, &form, nil
	}
	fact, wrong, known := v.fact(strings.TrimSpace(left))
	if wrong != nil {
		return f, wrong, known
	}
	f.left = fact
	if fact.unit == "" {
		return f, &form, nil
	}
	right = strings.TrimSpace(right)
	digits, unit, _ := strings.Cut(right, " ")
	if n, err := strconv.ParseFloat(digits, 64); err == nil {
		scale, ok := convert(Unit(unit), fact.unit)
		if unit == "" && fact.unit == Pieces {
			scale, ok = 1, true
		}
		if !ok {
			other := phrase.Of("lesson.figure-unit", "found", right, "unit", string(fact.unit))
			return f, &other, nil
		}
		f.number = n * scale
		return f, nil, nil
	}
	if f.right, wrong, known = v.fact(right); wrong != nil {
		return f, wrong, known
	}
	if f.right.unit != fact.unit {
		return f, &form, nil
	}
	return f, nil, nil
}
