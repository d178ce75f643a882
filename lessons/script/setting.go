package script

import (
	"slices"
	"strings"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// Buildings finds the plan of a building by the name of its file. For a name
// it does not know it returns nil and the names it does.
type Buildings func(id string) (plan *building.Plan, known []string)

// A setting is the machine of an item and what its parts are called.
type setting struct {
	building string // one that ships as it is, else ""
	plan     *building.Plan
	words    *vocabulary // nil while the building is not known
	start    string
	startM   *float64
	loadKG   *float64
}

// lessonSetting makes the machine that items have unless they say otherwise.
func (r *reader) lessonSetting(s *settingSheet) setting {
	if s.building == "" && !s.ownPlan {
		r.wrong("", "", phrase.Of("lesson.no-building"))
		return setting{}
	}
	return r.setting("", s, setting{})
}

// setting makes a machine from what a lesson or an item says of it; path is
// the item's, "" for the lesson.
func (r *reader) setting(path string, s *settingSheet, around setting) setting {
	at := func(key string) string {
		if path == "" {
			return key
		}
		return path + "." + key
	}
	out := around
	if s.building != "" || s.scheme != "" || s.ownPlan {
		out.plan = r.plan(at, s, around.plan)
		switch {
		case s.ownPlan:
			out.building = ""
		case s.building != "":
			out.building = s.building
		}
		out.words = nil
		if out.plan != nil {
			out.words = newVocabulary(out.plan)
		}
	}
	if s.start != "" || s.startM != nil {
		out.start, out.startM = s.start, s.startM
	}
	if s.loadKG != nil {
		out.loadKG = s.loadKG
	}
	if out.words == nil {
		return out
	}
	switch {
	case out.start != "" && out.startM != nil:
		r.wrong(at("start_m"), "", phrase.Of("lesson.two-starts"))
	case out.startM != nil && *out.startM > out.plan.TravelM():
		r.wrong(at("start_m"), "", phrase.Of("lesson.start-too-high", "found", document.Plain(*out.startM), "most", document.Plain(out.plan.TravelM())))
	case out.start != "":
		r.floor(out.words, at("start"), out.start)
	}
	return out
}

// plan makes the plan, nil if it cannot be made. What the file gives of a
// building has already been laid over the building named.
func (r *reader) plan(at func(string) string, s *settingSheet, around *building.Plan) *building.Plan {
	p := s.plan
	if !s.ownPlan && s.building == "" {
		if around == nil {
			return nil
		}
		p = *around
	}
	if s.building != "" {
		if found, known := r.buildings(s.building); found == nil {
			r.unknown(at("building"), "", phrase.Of("lesson.unknown-building", "found", s.building), s.building, known)
			return nil
		}
	}
	if s.ownPlan && !r.ownPlan(at("plan"), &p, s.building != "" || around != nil) {
		return nil
	}
	if s.scheme != "" {
		if !slices.Contains(control.Schemes(), s.scheme) {
			r.unknown(at("scheme"), "", phrase.Of("lesson.unknown-scheme", "found", s.scheme), s.scheme, control.Schemes())
			return &p // the rest of the file can be judged all the same
		}
		p.Control.Scheme = s.scheme
	}
	return &p
}

// ownPlan completes and checks what the file gives of a building at a path. A
// lesson may well want a machine that works badly, so warnings are left out.
func (r *reader) ownPlan(path string, p *building.Plan, changed bool) bool {
	for _, problem := range r.problems {
		if !problem.Warning && strings.HasPrefix(problem.Path, path) {
			return false
		}
	}
	if len(p.Floors) < 2 {
		r.wrong(path, "", phrase.Of("lesson.plan-without-floors"))
		return false
	}
	sound := true
	for _, problem := range building.Within(r.text, path, p, changed) {
		if !problem.Warning {
			r.wrong(problem.Path, "", problem.Phrase)
			sound = false
		}
	}
	return sound
}
