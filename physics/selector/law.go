package selector

import (
	"math"
	"strconv"
)

// A Law is how a ramp lifts its roller from nothing to the whole.
type Law uint8

// The laws. Of the three the polynomial needs the least force on the roller
// without a shock at either end, and only the harmonic starts with one.
const (
	Harmonic   Law = iota // simple harmonic
	Cycloidal             // s = u - sin(2 pi u)/(2 pi)
	Polynomial            // 3-4-5: s = 10u^3 - 15u^4 + 6u^5
)

// String returns the name of the law.
func (l Law) String() string {
	switch l {
	case Harmonic:
		return "harmonic"
	case Cycloidal:
		return "cycloidal"
	case Polynomial:
		return "3-4-5"
	}
	return "law " + strconv.Itoa(int(l))
}

// A Motion is the lift of a roller and its first two derivatives, for a rise
// of 1 over a length of 1. For a rise h over a length b multiply by h, h/b and
// h/b^2.
type Motion struct{ Lift, Velocity, Acceleration float64 }

// At returns the motion at the part u of the rise; below 0 the roller rests at
// 0 and above 1 at 1. Formulas: Norton, Cam Design and Manufacturing Handbook.
func (l Law) At(u float64) Motion {
	switch {
	case u < 0:
		return Motion{}
	case u > 1:
		return Motion{Lift: 1}
	}
	switch l {
	case Harmonic:
		sin, cos := math.Sin(math.Pi*u), math.Cos(math.Pi*u)
		return Motion{(1 - cos) / 2, math.Pi / 2 * sin, math.Pi * math.Pi / 2 * cos}
	case Cycloidal:
		sin, cos := math.Sin(2*math.Pi*u), math.Cos(2*math.Pi*u)
		return Motion{u - sin/(2*math.Pi), 1 - cos, 2 * math.Pi * sin}
	case Polynomial:
		if u > 0.5 { // the second half mirrors the first, so rounding cannot pass 1
			m := l.At(1 - u)
			return Motion{1 - m.Lift, m.Velocity, -m.Acceleration}
		}
		// Each product is rounded before it is added to, on every processor.
		down := 1 - u
		return Motion{
			Lift:         u * u * u * (float64(u*(float64(6*u)-15)) + 10),
			Velocity:     30 * u * u * down * down,
			Acceleration: 60 * u * down * (down - u),
		}
	}
	panic("selector: unknown " + l.String())
}
