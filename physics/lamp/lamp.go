// Package lamp is the filament of an indicator lamp: how fast it brightens and
// fades, and so which dark intervals an eye can see.
//
// A filament warms and cools by a first-order lag, quicker to fade than to
// brighten. Brightness is 0 when cold and 1 when it has long been fed. What a
// cold filament draws is told in package relay; colour and the eye's own
// persistence are left out.
package lamp

import "math"

// Between these two marks a lamp is neither dark nor bright. Coming to Hot it
// counts as hot, sinking to Cold as cold.
const (
	Hot  = 0.9
	Cold = 0.1
)

// A Lamp is how long a filament takes. Both times are seconds above zero.
type Lamp struct {
	RiseS float64 // from cold to nine tenths
	FallS float64 // from hot to one tenth
}

// Small indicator lamps rise in 40 to 100 ms and fall in 20 to 50 ms (IES
// Lighting Handbook, value from memory).
var (
	Quick = Lamp{RiseS: 0.040, FallS: 0.020}
	Usual = Lamp{RiseS: 0.070, FallS: 0.035}
	Slow  = Lamp{RiseS: 0.100, FallS: 0.050}
)

// After returns the brightness a time after it was from, fed all the while or
// not at all: what is missing falls to a tenth in each rise time, or what is
// left in each fall time.
func (l Lamp) After(from float64, fed bool, forS float64) float64 {
	if fed {
		return 1 - (1-from)*tenth(forS/l.RiseS)
	}
	return from * tenth(forS/l.FallS)
}

// Takes returns how long brightness goes on from where it is until it is Hot,
// when fed, or Cold, when not; 0 if it is past that.
func (l Lamp) Takes(from float64, fed bool) float64 {
	if fed {
		return math.Max(0, l.RiseS*log10((1-from)/(1-Hot)))
	}
	return math.Max(0, l.FallS*log10(from/Cold))
}

// log10 gives the same bits on every target.
func log10(x float64) float64 { return math.Log(x) / math.Ln10 }

// tenth returns a tenth to the power of n.
func tenth(n float64) float64 { return math.Exp2(-n * math.Log2(10)) }

// At returns the brightness at an instant of a lamp that was dark and cold
// before the first instant of changes, in which it is fed and cut off in turn,
// beginning with fed. The changes are in the order of time.
func (l Lamp) At(changes []float64, timeS float64) float64 {
	now, b, fed := math.Inf(-1), 0.0, false
	for _, t := range changes {
		if t > timeS {
			break
		}
		if !math.IsInf(now, -1) {
			b = l.After(b, fed, t-now)
		}
		now, fed = t, !fed
	}
	if math.IsInf(now, -1) {
		return 0
	}
	return l.After(b, fed, timeS-now)
}

// Sight is whether a dark interval between two lamps can be seen.
type Sight uint8

// The verdicts. A dark interval is Hidden when even a quick lamp is still
// aglow at its end, and Doubtful when a slow one may be.
const (
	Hidden Sight = iota
	Doubtful
	Seen
)

// String returns the word of the verdict.
func (s Sight) String() string { return [...]string{"hidden", "doubtful", "seen"}[s] }

// Sees returns whether a dark interval of that length can be seen.
func Sees(darkS float64) Sight {
	switch {
	case darkS < Quick.FallS:
		return Hidden
	case darkS < Slow.FallS:
		return Doubtful
	}
	return Seen
}
