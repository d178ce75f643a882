package session

import (
	"slices"
	"strconv"
	"strings"

	"wheelroom/game/figure"
	"wheelroom/game/scene"
	"wheelroom/game/svg"
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
)

// A Preview is a picture of the reader's machine that a page wants to see.
type Preview struct {
	Picture string  // as View takes it
	Width   float64 // CSS pixels
	Height  float64
	Path    string // of the value that is being looked at, "" for none
}

// preview draws the reader's machine as it stands, with the part that a value
// belongs to pointed out.
func (a Asking) preview(q Preview) (string, error) {
	i := slices.IndexFunc(pictures, func(p scene.Picture) bool { return p.String() == q.Picture })
	if i < 0 {
		return "", refuse("stage.unknown-picture", "picture", q.Picture)
	}
	m := a.free.Machine()
	sc := scene.New(m.Plan(), m.Wiring(), scene.Options{Width: max(q.Width, 320), Height: max(q.Height, 240),
		Picture: pictures[i], Words: a.o.Words})
	if part := valuePart(m.Plan(), q.Path); slices.Contains(sc.Parts(), part) {
		sc.Choose(part)
	}
	var v lift.View
	m.Look(&v)
	return a.draw(sc.Still(), sc.Moving(&v, nil))
}

// draw writes figures on top of one another as SVG, without a ground.
func (a Asking) draw(figures ...*figure.Figure) (string, error) {
	var whole figure.Figure
	whole.Reset(figures[0].Width, figures[0].Height)
	for _, f := range figures {
		whole.Append(f)
	}
	var text strings.Builder
	err := svg.Write(&text, &whole, a.Palette, svg.Options{ID: "room", Parts: true, Bare: true})
	return text.String(), err
}

// valueParts are the parts of the picture that values belong to, by the
// beginning of the value's path; the longest that fits counts.
var valueParts = []struct{ path, part string }{
	{"lift.", "car"}, {"lift.balance", "counterweight"}, {"lift.rope", "rope"},
	{"machine.", "motor"}, {"machine.sheave", "sheave"}, {"machine.gear", "gear"}, {"machine.handwheel", "handwheel"},
	{"machine.roping", "rope"}, {"motor.", "motor"}, {"brake.", "brake"},
	{"selector.span", "wheel"}, {"selector.terminal", "ring"}, {"selector.live", "ring"}, {"selector.first", "terminal.0"},
	{"selector.brush", "brush"}, {"selector.advance", "advance-up-ramp"}, {"selector.advance_down", "advance-down-ramp"},
	{"selector.zone", "centre-ramp"}, {"selector.crossover", "crossover"}, {"selector.roller", "centre-ramp"},
	{"shaft.stop", "stop-limit-top"}, {"shaft.final", "final-limit-top"},
	{"door.", "car-door"}, {"door.cam", "cam"},
	{"control.direction", "relay.direction"}, {"control.start", "relay.start"}, {"control.level", "relay.level"},
	{"control.relay", "relay.up"}, {"control.contactor", "relay.up-contactor"},
}

// valuePart is the part that the value at a path belongs to, "" for none.
func valuePart(plan *building.Plan, path string) string {
	if at, ok := strings.CutPrefix(path, "floors["); ok {
		n, _, _ := strings.Cut(at, "]")
		if i, err := strconv.Atoi(n); err == nil && i >= 0 && i < len(plan.Floors) {
			return "landing." + plan.Floors[i].Name
		}
		return ""
	}
	if strings.HasPrefix(path, "shaft.vane") {
		return "vane." + plan.Floors[0].Name
	}
	part, longest := "", 0
	for _, v := range valueParts {
		if strings.HasPrefix(path, v.path) && len(v.path) > longest {
			part, longest = v.part, len(v.path)
		}
	}
	return part
}
