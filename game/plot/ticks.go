package plot

import (
	"math"
	"strconv"
	"strings"

	"wheelroom/physics/phrase"
)

// A scale is an axis with its bounds and ticks settled.
type scale struct {
	lo, hi   float64
	step     float64
	decimals int
}

// newScale ticks a range at 1, 2 or 5 times a power of ten, at most so many
// ticks, and rounds its ends outwards to a tick or to the middle between two.
func newScale(lo, hi float64, most int) scale {
	if !(hi > lo) {
		mid := lo
		if math.IsNaN(mid) || math.IsInf(mid, 0) {
			mid = 0
		}
		lo, hi = mid-1, mid+1
	}
	s := scale{}
	s.step, s.decimals = stepFor((hi-lo)/float64(max(most, 2)-1), hi-lo)
	// What lies a hair beyond a tick is rounding.
	s.lo = math.Floor(2*lo/s.step+1e-6) * s.step / 2
	s.hi = math.Ceil(2*hi/s.step-1e-6) * s.step / 2
	return s
}

// within keeps the bounds as they are and ticks what lies between.
func within(lo, hi float64, most int) scale {
	s := scale{lo: lo, hi: hi}
	s.step, s.decimals = stepFor((hi-lo)/float64(max(most, 2)-1), hi-lo)
	return s
}

// stepFor returns the least step of the series no smaller than least, and the
// decimals it takes to write its multiples.
func stepFor(least, span float64) (step float64, decimals int) {
	power := int(math.Floor(math.Log10(least)))
	ten := tenTo(power)
	for _, m := range [...]float64{1, 2, 5, 10} {
		if step = m * ten; step >= least*(1-1e-9) {
			if m == 10 {
				power++
			}
			break
		}
	}
	return step, max(-power, 0)
}

// tenTo is a power of ten, exact where it can be.
func tenTo(n int) float64 {
	v, _ := strconv.ParseFloat("1e"+strconv.Itoa(n), 64)
	return v
}

// ticks lists the multiples of the step between the bounds.
func (s *scale) ticks() []float64 {
	var out []float64
	for k := math.Ceil(s.lo/s.step - 1e-6); k*s.step <= s.hi+1e-6*s.step; k++ {
		out = append(out, k*s.step)
	}
	return out
}

// plain writes a number without a catalogue.
func plain(n phrase.Number) string {
	s := strconv.FormatFloat(n.Value, 'f', n.Decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return strings.Replace(s, "-", "−", 1)
}
