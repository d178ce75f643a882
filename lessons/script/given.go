package script

import (
	"fmt"
	"strings"

	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// calls reads landing calls: a floor, or where a landing has several buttons
// the floor and which of them, as "3:up", "3:down" or "3:car".
func (r *reader) calls(words *vocabulary, path string, written []callSheet) []Input {
	var list []Input
	for i, c := range written {
		at := fmt.Sprintf("%s[%d]", path, i)
		if part, ok := r.button(words, at+".floor", c.floor); ok {
			list = append(list, Input{AtS: c.atS, Name: c.floor, Path: at, Do: lift.Input{Kind: lift.Press, Part: part}})
		}
	}
	return list
}

// button finds the push-button of a call.
func (r *reader) button(words *vocabulary, path, written string) (lift.Part, bool) {
	if words == nil || written == "" {
		return "", false
	}
	name, kind, _ := strings.Cut(written, ":")
	if !r.floor(words, path, name) {
		return "", false
	}
	var there []string
	for _, c := range words.calls {
		if words.plan.Floors[c.Floor].Name != name {
			continue
		}
		if c.Kind.String() == kind {
			return lift.Part(c.Button), true
		}
		spelled := name
		if c.Kind.String() != "" {
			spelled += ":" + c.Kind.String()
		}
		there = append(there, spelled)
	}
	r.wrong(path, "", phrase.Of("lesson.unknown-call", "found", written, "calls", strings.Join(there, ", ")))
	return "", false
}

// inputs reads what else is done to the machine.
func (r *reader) inputs(words *vocabulary, path string, written []inputSheet) []Input {
	var list []Input
	for i := range written {
		at := fmt.Sprintf("%s[%d]", path, i)
		in, ok := r.input(words, at, &written[i])
		if ok {
			in.AtS, in.Path = written[i].atS, at
			list = append(list, in)
		}
	}
	return list
}

func (r *reader) input(words *vocabulary, path string, s *inputSheet) (in Input, ok bool) {
	deeds := 0
	does := func(given bool, do lift.Input, name string) {
		if given {
			deeds++
			in.Do, in.Name = do, name
		}
	}
	does(s.press != "", lift.Input{Kind: lift.Press}, s.press)
	does(s.override != "", lift.Input{Kind: lift.Override, Part: lift.Part(s.override), State: s.state}, s.override)
	does(s.switches != "", lift.Input{Kind: lift.Switch, Part: lift.Part(s.switches), State: closedIsNone(s.state)}, s.switches)
	does(s.isolator != "", lift.Input{Kind: lift.Isolate, Part: "isolator", State: closedIsNone(s.isolator)}, "isolator")
	lever := map[string]string{"eased": "open"}[s.lever]
	does(s.lever != "", lift.Input{Kind: lift.EaseBrake, Part: "brake-lever", State: lever}, "brake_lever")
	if s.loadKG != nil {
		does(true, lift.Input{Kind: lift.Load, Value: *s.loadKG}, "load_kg")
	}
	if s.handNM != nil {
		does(true, lift.Input{Kind: lift.Wind, Part: "handwheel", Value: *s.handNM}, "handwheel_nm")
	}
	if s.factor != nil {
		in.Do.Value = *s.factor
	}
	if deeds != 1 {
		r.wrong(path, "", phrase.Of("lesson.not-one-deed"))
		return in, false
	}
	if s.press != "" {
		in.Do.Part, ok = r.button(words, path+".press", s.press)
		return in, ok
	}
	if s.override != "" && words != nil && !has(words.parts, s.override) {
		r.unknown(path+".override", "", phrase.Of("lesson.unknown-part", "found", s.override), s.override, words.parts)
		return in, false
	}
	return in, words != nil
}

// closedIsNone spells a switch that is closed as the machine does.
func closedIsNone(state string) string {
	if state == "closed" {
		return ""
	}
	return state
}
