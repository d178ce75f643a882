package building

import (
	"math"
	"strconv"

	"wheelroom/physics/phrase"
)

// number rounds v to decimals for a message: up (towards > 0) or down
// (towards < 0) where the figure is a bound that must still be right when it
// is written into the file, to the nearest otherwise.
func number(v float64, decimals int, towards int) phrase.Number {
	scale := 1.0
	for range decimals {
		scale *= 10
	}
	// What is whole but for the error of arithmetic stays as it is.
	switch w := v * scale; {
	case towards > 0:
		v = math.Ceil(w-1e-6) / scale
	case towards < 0:
		v = math.Floor(w+1e-6) / scale
	}
	return phrase.Num(v, decimals)
}

func itoa(i int) string { return strconv.Itoa(i) }
