package session

import (
	"strconv"
	"strings"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// Beyond this a changed building starts again: playing the run once more
// would keep the page waiting, seconds of machine time.
const longestReplayS = 600

// editor is the screen on which a building is set up. The text of the file
// is the one thing that is edited; form and text view are two ways to it. The
// page keeps the text, and what was before it for undo; nothing is kept here
// but the building on the stage.
var editor = map[string]action{
	"form":    taking(func(a Asking, _ struct{}) (any, error) { return a.form(), nil }),
	"opened":  taking(func(a Asking, _ struct{}) (any, error) { return a.opened(), nil }),
	"use":     taking(func(a Asking, q struct{ Text string }) (any, error) { return a.use(q.Text) }),
	"edit":    taking(func(a Asking, q Edit) (any, error) { return a.edit(q) }),
	"picture": taking(func(a Asking, q Preview) (any, error) { return a.preview(q) }),
	"address": taking(func(_ Asking, q struct{ Text string }) (any, error) { return planAddress + Pack([]byte(q.Text)), nil }),
	"fresh":   taking(func(a Asking, _ struct{}) (any, error) { return a.fresh(), nil }),
}

// planAddress begins an address that carries a building: the beginning of its
// run.
const planAddress = "moment=0&plan="

// An Opened is the building the reader has on the stage, as its file.
type Opened struct {
	ID   string `json:"id"` // of one that ships
	Text string `json:"text"`
}

func (s *Session) opened() Opened { return Opened{s.id, string(s.text)} }

// fresh is the text of a building to begin with.
func (s *Session) fresh() string {
	name := s.o.Words(phrase.Of("editor.fresh-name"))
	return "version: 1\nname: " + document.Spell(document.Field{Kind: document.Text}, name) + "\nfloors:\n" +
		"  - {name: G, height_m: 0}\n  - {name: \"1\", height_m: 3.5}\n  - {name: \"2\", height_m: 6.7}\n  - {name: \"3\", height_m: 9.9}\n"
}

// A Sheet is a building file as a form shows it.
type Sheet struct {
	Text     string          `json:"text"`
	Readable bool            `json:"readable"` // single values can be shown and changed
	Sound    bool            `json:"sound"`    // and so it is the building on the stage
	Name     string          `json:"name"`
	Floors   int             `json:"floors"`
	Joins    int             `json:"joins"`
	Values   map[string]Cell `json:"values"` // by path
	Faults   []Fault         `json:"faults"` // in the order of the text
	Note     string          `json:"note"`   // what became of the run, "" for nothing to tell
}

// A Cell is one value of a Sheet as it is spelled; a value that is not given
// is its default.
type Cell struct {
	Value string `json:"value"`
	Given bool   `json:"given"`
}

// use reads a text, and puts it on the stage if it can be built.
func (s *Session) use(text string) (Sheet, error) {
	sheet, plan := s.sheet([]byte(text))
	if !sheet.Sound || text == string(s.text) {
		return sheet, nil
	}
	note, err := s.rebuild([]byte(text), &plan)
	if err != nil {
		return Sheet{}, err
	}
	if note.ID != "" {
		sheet.Note = s.o.Words(note)
	}
	return sheet, nil
}

// sheet reads a text; the plan is to be used when the sheet is sound.
func (s *Session) sheet(text []byte) (Sheet, building.Plan) {
	draft := building.Draft(text)
	plan, problems := building.Read("", text)
	sheet := Sheet{Text: string(text), Readable: document.Readable(text), Name: draft.Name,
		Floors: len(draft.Floors), Joins: len(draft.Selector.Joins), Values: map[string]Cell{}}
	cells(sheet.Values, "", building.Values(draft), text)
	if draft.Selector.AdvanceUpM != draft.Selector.AdvanceDownM {
		cell(sheet.Values, text, "selector.advance_m", "") // there is no one advance for both
	}
	for i, f := range draft.Floors {
		at := "floors[" + strconv.Itoa(i) + "]."
		cell(sheet.Values, text, at+"name", f.Name)
		cell(sheet.Values, text, at+"height_m", figureOf(f.HeightM))
	}
	for i, j := range draft.Selector.Joins {
		at := "selector.joins[" + strconv.Itoa(i) + "]."
		cell(sheet.Values, text, at+"terminal", strconv.Itoa(j.Terminal))
		cell(sheet.Values, text, at+"floor", j.Floor)
	}
	sheet.Faults, sheet.Sound = s.faults(text, &plan, problems)
	return sheet, plan
}

// cells collects the values of a declaration, lists left out.
func cells(into map[string]Cell, at string, fields []document.Field, text []byte) {
	for _, f := range fields {
		path := at + f.Key
		switch f.Kind {
		case document.Map:
			cells(into, path+".", f.Fields, text)
		case document.List, document.Texts:
		default:
			shown := ""
			switch v := f.Default.(type) {
			case float64:
				shown = figureOf(v)
			case int:
				shown = strconv.Itoa(v)
			case string:
				shown = v
			}
			if path == "name" { // needed, so it has no default
				shown = ""
			}
			cell(into, text, path, shown)
		}
	}
}

func cell(into map[string]Cell, text []byte, path, otherwise string) {
	if raw, ok := document.Raw(text, path); ok {
		into[path] = Cell{raw, true}
		return
	}
	into[path] = Cell{otherwise, document.Has(text, path)}
}

func figureOf(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// rebuild puts a changed building on the stage. What was done to the old lift
// is done to the new one up to the same moment, where the new one has the
// parts for it; otherwise it starts again. The phrase says which.
func (s *Session) rebuild(text []byte, plan *building.Plan) (phrase.Phrase, error) {
	r := s.Record()
	old := s.plan
	r.Building, r.Text, r.Events, r.Running, r.Look = "", string(text), 0, false, nil
	same := len(old.Floors) == len(plan.Floors)
	if r.Start != "" && same {
		r.Start = plan.Floors[old.Floor(r.Start)].Name
	} else if plan.Floor(r.Start) < 0 {
		r.Start = ""
	}
	if r.HeightM != nil {
		h := min(*r.HeightM, plan.TravelM())
		r.HeightM = &h
	}
	if r.TimeS == 0 && len(r.Inputs) == 0 {
		return phrase.Phrase{}, s.Restore(r)
	}
	note := phrase.Of("editor.run-again", "seconds", phrase.Num(r.TimeS, 1))
	if same {
		for i := range r.Inputs {
			r.Inputs[i].Part = renamed(r.Inputs[i].Part, old, plan)
		}
	}
	if r.TimeS > longestReplayS || s.Restore(r) != nil {
		r.Inputs, r.TimeS = nil, 0
		note = phrase.Of("editor.run-restarted")
		return note, s.Restore(r)
	}
	return note, nil
}

// renamed is what a part of the old plan's floor is called in the new plan.
func renamed(p lift.Part, old, plan *building.Plan) lift.Part {
	for f := range old.Floors {
		kind, suffix, of := strings.Cut(string(p), "."+old.Floors[f].Name)
		if of && (suffix == "" || suffix[0] == '.') {
			return lift.Part(kind + "." + plan.Floors[f].Name + suffix)
		}
	}
	return p
}
