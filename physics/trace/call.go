package trace

import (
	"math"
	"strconv"
	"strings"

	"wheelroom/physics/building"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// ReadCall reads a call written FLOOR@SECONDS as the input that presses the
// floor's button then. The phrase says what is wrong, and is empty when
// nothing is.
func ReadCall(p *building.Plan, text string) (lift.Input, phrase.Phrase) {
	name, at, found := strings.Cut(text, "@")
	if !found {
		return lift.Input{}, phrase.Of("call.form", "found", text)
	}
	if p.Floor(name) < 0 {
		return lift.Input{}, phrase.Of("call.floor", "found", name, "floors", floorNames(p))
	}
	t, err := strconv.ParseFloat(at, 64)
	if err != nil || !(t >= 0) || math.IsInf(t, 0) {
		return lift.Input{}, phrase.Of("call.time", "found", at)
	}
	return lift.Input{TimeS: t, Kind: lift.Press, Part: lift.Part("button." + name)}, phrase.Phrase{}
}

func floorNames(p *building.Plan) string {
	names := make([]string, len(p.Floors))
	for i := range p.Floors {
		names[i] = p.Floors[i].Name
	}
	return strings.Join(names, ", ")
}
