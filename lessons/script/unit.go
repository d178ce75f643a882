package script

import (
	"math"

	"wheelroom/physics/phrase"
)

// A Unit is the unit of a quantity, as a page shows it; "" for what is no
// quantity.
type Unit string

// The units facts are told in.
const (
	Seconds      Unit = "s"
	Milliseconds Unit = "ms"
	Metres       Unit = "m"
	Millimetres  Unit = "mm"
	MetresASec   Unit = "m/s"
	MetresASec2  Unit = "m/s²"
	Degrees      Unit = "°"
	DegreesAM    Unit = "°/m"
	Kilograms    Unit = "kg"
	Inertia      Unit = "kg·m²"
	TurnsAMin    Unit = "r/min"
	NewtonMetres Unit = "N·m"
	Pieces       Unit = "pieces"
)

// units lists how each unit is shown: the message that words a figure of it
// and the decimals a fact has.
var units = []struct {
	unit     Unit
	message  string
	decimals int
}{
	{Seconds, "lesson.seconds", 1},
	{Milliseconds, "lesson.milliseconds", 0},
	{Metres, "lesson.metres", 2},
	{Millimetres, "lesson.millimetres", 0},
	{MetresASec, "lesson.metres-a-second", 2},
	{MetresASec2, "lesson.metres-a-second-squared", 2},
	{Degrees, "lesson.degrees", 0},
	{DegreesAM, "lesson.degrees-a-metre", 1},
	{Kilograms, "lesson.kilograms", 0},
	{Inertia, "lesson.inertia", 1},
	{TurnsAMin, "lesson.turns-a-minute", 0},
	{NewtonMetres, "lesson.newton-metres", 0},
	{Pieces, "lesson.pieces", 0},
}

// conversions are the units a question may ask for instead of a fact's own.
var conversions = []struct {
	from, to Unit
	scale    float64
}{
	{Seconds, Milliseconds, 1000},
	{Milliseconds, Seconds, 0.001},
	{Metres, Millimetres, 1000},
	{Millimetres, Metres, 0.001},
}

// told rounds a figure to the decimals with which a fact of this unit is told.
func (u Unit) told(v float64) float64 {
	scale := 1.0
	for range u.decimals() {
		scale *= 10
	}
	return math.Round(v*scale) / scale
}

// convert returns the factor from one unit to another, false if there is none.
func convert(from, to Unit) (float64, bool) {
	if from == to {
		return 1, true
	}
	for _, c := range conversions {
		if c.from == from && c.to == to {
			return c.scale, true
		}
	}
	return 0, false
}

// decimals is how many decimals a fact in this unit has.
func (u Unit) decimals() int {
	for _, known := range units {
		if known.unit == u {
			return known.decimals
		}
	}
	return 0
}

// Sign is the unit as it stands beside a figure yet to be typed.
func (u Unit) Sign() phrase.Phrase {
	if u == Pieces {
		return phrase.Phrase{}
	}
	return phrase.Of("lesson.unit", "unit", string(u))
}

// say words a figure of this unit.
func (u Unit) say(v float64, decimals int) phrase.Phrase {
	for _, known := range units {
		if known.unit == u {
			return phrase.Of(known.message, "value", phrase.Num(v, decimals))
		}
	}
	panic("script: no unit " + string(u))
}

// A Value is what a fact comes to: a quantity, or words without one.
type Value struct {
	Number float64
	Unit   Unit          // "" for words alone
	Words  phrase.Phrase // how it is told
	Name   string        // of a floor, told as it stands; then Words is empty
}

// quantity is a number told with the decimals usual for its unit.
func quantity(v float64, u Unit) Value {
	return Value{Number: v, Unit: u, Words: u.say(v, u.decimals())}
}

// duration is how long something took: told in milliseconds under a second,
// where relays work.
func duration(v float64) Value {
	if v < 1 && v > -1 {
		return Value{Number: v, Unit: Seconds, Words: Milliseconds.say(1000*v, 0)}
	}
	return quantity(v, Seconds)
}

// offLevel is how far a car stands above its landing, metres; below is
// negative. It is told in millimetres.
func offLevel(m float64) Value {
	mm := 1000 * m
	id := "lesson.level-exact"
	switch {
	case mm >= 0.5:
		id = "lesson.level-high"
	case mm <= -0.5:
		id, mm = "lesson.level-low", -mm
	}
	return Value{Number: 1000 * m, Unit: Millimetres, Words: phrase.Of(id, "value", phrase.Num(mm, 0))}
}

// turn is how far the selector wheel turned, degrees, clockwise positive.
func turn(deg float64) Value {
	id, size := "lesson.clockwise", deg
	if deg < 0 {
		id, size = "lesson.anticlockwise", -deg
	}
	return Value{Number: deg, Unit: Degrees, Words: phrase.Of(id, "value", phrase.Num(size, 0))}
}

// named is the name of a floor or another word of the building's own.
func named(name string) Value { return Value{Name: name} }
