package trace

import (
	"math"
	"strconv"
	"strings"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// ReadCall reads a call written FLOOR@SECONDS as the input that presses the
// floor's button then. Where each floor has several buttons it is written
// FLOOR:up@SECONDS, FLOOR:down@SECONDS or FLOOR:car@SECONDS. The phrase says
// what is wrong, and is empty when nothing is.
func ReadCall(p *building.Plan, text string) (lift.Input, phrase.Phrase) {
	which, at, found := strings.Cut(text, "@")
	if !found {
		return lift.Input{}, phrase.Of("call.form", "found", text)
	}
	name, kind, named := strings.Cut(which, ":")
	if p.Floor(name) < 0 {
		return lift.Input{}, phrase.Of("call.floor", "found", name, "floors", strings.Join(p.Names(), ", "))
	}
	t, err := strconv.ParseFloat(at, 64)
	if err != nil || !(t >= 0) || math.IsInf(t, 0) {
		return lift.Input{}, phrase.Of("call.time", "found", at)
	}
	button, wrong := button(p, name, kind, named)
	if wrong.ID != "" {
		return lift.Input{}, wrong
	}
	return lift.Input{TimeS: t, Kind: lift.Press, Part: lift.Part(button)}, phrase.Phrase{}
}

// button finds the button of a floor that a call means.
func button(p *building.Plan, name, kind string, named bool) (string, phrase.Phrase) {
	var kinds []string
	for _, c := range control.CallsOf(p.Control.Scheme, len(p.Floors), p.Floor(name)) {
		if c == control.AnyCall && !named {
			return "button." + name, phrase.Phrase{}
		}
		if c != control.AnyCall && named && c.String() == kind {
			return "button-" + kind + "." + name, phrase.Phrase{}
		}
		kinds = append(kinds, c.String())
	}
	switch {
	case len(kinds) == 1:
		return "", phrase.Of("call.one-button", "found", name+":"+kind, "floor", name)
	case named:
		return "", phrase.Of("call.no-button", "found", kind, "floor", name, "kinds", strings.Join(kinds, ", "))
	}
	return "", phrase.Of("call.which-button", "floor", name, "kinds", strings.Join(kinds, ", "))
}
