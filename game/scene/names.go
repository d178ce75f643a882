package scene

import (
	"strconv"

	"wheelroom/physics/building"
)

// partNames are the names of the floors' parts, spelled once so that drawing
// spells none.
type partNames struct {
	call, lamp, rim, advanceUp, advanceDown, direction, landing, vane, button []string
}

func namesOf(p *building.Plan) partNames {
	all := func(kind string) []string {
		out := make([]string, len(p.Floors))
		for i, f := range p.Floors {
			out[i] = kind + "." + f.Name
		}
		return out
	}
	return partNames{
		call: all("call"), lamp: all("lamp"), rim: all("rim"), advanceUp: all("advance-up"),
		advanceDown: all("advance-down"), direction: all("direction"), landing: all("landing"),
		vane: all("vane"), button: all("button"),
	}
}

// Numbers up to 999 spelled once; a text of them allocates nothing.
var numbers = func() (n [1000]string) {
	for i := range n {
		n[i] = strconv.Itoa(i)
	}
	return n
}()

// tenths are the digits behind the point.
var tenths = [10]string{".0", ".1", ".2", ".3", ".4", ".5", ".6", ".7", ".8", ".9"}

func number(i int) string {
	if i < 0 || i >= len(numbers) {
		return strconv.Itoa(i)
	}
	return numbers[i]
}
