package match

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/lamp"
)

// Verdict is what an observation comes to.
type Verdict uint8

// The verdicts.
const (
	One     Verdict = iota // one ring fits
	Several                // rings of different whole numbers fit
	Set                    // the speed is unknown: a set of rings and speeds fits
	None                   // no ring explains the lamps
)

// String returns the word of the verdict.
func (v Verdict) String() string { return [...]string{"one", "several", "set", "none"}[v] }

// A Result is a ring fitted to an observation, and how far to trust it.
type Result struct {
	Verdict     Verdict
	Plan        *building.Plan `json:"-"`
	Observation *Observation   `json:"-"`
	From, To    int            // floors of the trip
	Motion      Motion
	Live        int  // terminals joined for a floor, the first of Joinings
	Blinks      bool // a lamp goes out between its floor's terminals
	SpeedKnown  bool
	ScatterS    float64 // of a tap, one standard deviation
	Unknowns    []Unknown
	Joinings    []Joining   // numbers of joined terminals with which this ring shows the same
	Others      []Other     // rings with another number of terminals that fit as well
	Pairs       []Pair      // that the data cannot tell apart
	Edges       []FitEdge   // every edge, as observed and as fitted
	Unexplained []int       // floors whose lamps no such ring explains
	Unseen      []int       // floors between two that were seen, whose lamps this ring lights and nobody saw
	File        *Comparison // the building file's own ring; nil where it cannot be laid beside
	Selector    building.Selector
	Lamps       [][2][]Interval // of each floor: observed, fitted
}

// A Joining is a number of terminals joined for a floor and the widths that go
// with it: a lamp shows only the sum of the two.
type Joining struct {
	Live   int
	Widths Unknown
}

// An Other is a ring of another number of terminals that explains the lamps as
// well.
type Other struct {
	Unknowns []Unknown // terminals per floor, terminals a second, speed
	Joinings []Joining
}

// A Pair is two quantities of which the data show one combination only.
type Pair struct{ A, B Quantity }

// A FitEdge is an edge with the instant at which the fitted ring makes it.
type FitEdge struct {
	Edge
	ModelS    float64
	ResidualS float64 // observed less modelled
	Used      bool    // it shows the ring, and was fitted
}

// Good reports whether anything is explained at all.
func (r *Result) Good() bool { return r.Live > 0 }

// A Quantity is one thing that is fitted.
type Quantity uint8

// The quantities.
const (
	TerminalsPerFloor Quantity = iota
	TerminalsPerS              // terminals a second at full speed
	FirstTerminalM             // where terminal 0 stands, the lowest landing's
	Widths                     // brush and terminal together, pitches
	SpeedMS
	StartS // when the car sets off
	DelayS // of a tap for on over one for off
	quantities
)

// String returns the quantity's name in a message identity.
func (q Quantity) String() string {
	return [...]string{"terminals-per-floor", "terminals-per-second", "first-terminal", "widths", "speed", "start", "delay"}[q]
}

// An Unknown is what is known of a quantity: every value from Low to High fits
// (95 % confidence). Told is false where the data alone do not bound it; then
// there is no Value to name, only the set.
type Unknown struct {
	Quantity  Quantity
	Value     float64
	Low, High float64
	Told      bool
}

// Motion is how the car is taken to have moved.
type Motion uint8

// The motions: as the plan's own machine runs, its full speed left open; or at
// one speed all the way, as a car does that is only seen in mid-travel.
const (
	Driven Motion = iota
	Steady
)

// String returns the word of the motion.
func (m Motion) String() string { return [...]string{"driven", "steady"}[m] }

// An Interval is a time during which a lamp is lit, seconds as observed; one
// that began before the observer did, or lasts longer, has an infinite end.
type Interval struct{ OnS, OffS float64 }

// A Comparison lays the building file's own ring beside the lamps, with
// nothing fitted but the speed and the start.
type Comparison struct {
	Motion  Motion
	SpeedMS float64
	StartS  float64
	RootS   float64 // root mean square of the residuals
	MostS   float64 // the largest residual
	Missing int     // edges that the file's ring does not have at all
	Lamps   [][]Interval
}

// Brightness returns how bright each floor's lamp is at an instant of the
// observation, as seen or as fitted: a panel to be watched beside another.
func (r *Result) Brightness(fitted bool, l lamp.Lamp, timeS float64) []float64 {
	out := make([]float64, len(r.Lamps))
	which := 0
	if fitted {
		which = 1
	}
	for f, traces := range r.Lamps {
		var changes []float64
		for _, lit := range traces[which] {
			// What has no beginning was lit for long before.
			changes = append(changes, max(lit.OnS, -LongestS))
			if !math.IsInf(lit.OffS, 1) {
				changes = append(changes, lit.OffS)
			}
		}
		out[f] = l.At(changes, timeS)
	}
	return out
}
