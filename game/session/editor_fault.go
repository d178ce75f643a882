package session

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
	"wheelroom/physics/survey"
)

// A Fault is one thing wrong with a building file, or one that works badly.
type Fault struct {
	Path    string `json:"path"` // of the value it is about, in the form
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	Text    string `json:"text"`
	Warning bool   `json:"warning"`
	Cures   []Cure `json:"cures"`
}

// A Cure is a value that does away with a fault.
type Cure struct {
	Path  string `json:"path"`
	Value string `json:"value"`
	Text  string `json:"text"` // what its button says
}

// faults puts into words what reading has found, looks the plan over if it can
// be, and reports whether the plan can be built. A form shows each fault at
// the value that would cure it, the text at what stands for it there.
func (s *Session) faults(text []byte, plan *building.Plan, problems []document.Problem) ([]Fault, bool) {
	var all []document.Problem
	sound := !document.Failed(problems)
	cause := make([]string, 0, len(problems))
	for _, p := range problems {
		all, cause = append(all, p), append(cause, p.Path)
	}
	if sound {
		for _, p := range survey.Survey(plan) {
			sound = sound && p.Warning
			cause = append(cause, p.Path)
			// Placed one by one, so that the path for the form keeps to its problem.
			p.Path = building.Cause(text, p.Path)
			one := []document.Problem{p}
			document.Place("", text, one)
			all = append(all, one[0])
		}
	}
	draft, wrong := building.Draft(text), failures(problems)
	list := []Fault{}
	for i, p := range all {
		f := Fault{Path: cause[i], Line: p.Line, Column: p.Col, Text: s.sentence(p.Phrase), Warning: p.Warning, Cures: []Cure{}}
		if c, ok := cureOf(&draft, f.Path, p.Phrase); ok && s.cures(text, c, wrong, !p.Warning) {
			id := "editor.use"
			if c.Path != f.Path {
				id = "editor.use-of"
			}
			c.Text = s.o.Words(phrase.Of(id, "name", phrase.Of(valueName(c.Path)), "value", quantityOf(c.Path, c.Value)))
			f.Cures = append(f.Cures, c)
		}
		list = append(list, f)
	}
	slices.SortStableFunc(list, func(a, b Fault) int { return cmp.Or(a.Line-b.Line, a.Column-b.Column) })
	return list, sound
}

// failures counts the errors among problems.
func failures(problems []document.Problem) int {
	n := 0
	for _, p := range problems {
		if !p.Warning {
			n++
		}
	}
	return n
}

// cures reports whether a cure can be written into the text and leaves fewer
// errors there, or no more where it is a warning's.
func (s *Session) cures(text []byte, c Cure, wrong int, fewer bool) bool {
	edited, err := s.edit(Edit{Text: string(text), Do: "set", Path: c.Path, Value: c.Value})
	if err != nil {
		return false
	}
	_, problems := building.Read("", []byte(edited))
	if fewer {
		return failures(problems) < wrong
	}
	return failures(problems) <= wrong
}

// sentence begins what a problem says with a capital and ends it with a stop,
// unless it begins with a key of the file.
func (s *Session) sentence(p phrase.Phrase) string {
	text := s.o.Words(p)
	first := []rune(text)
	if word, _, _ := strings.Cut(text, " "); !strings.Contains(word, "_") && len(first) > 0 {
		text = strings.ToUpper(string(first[0])) + string(first[1:])
	}
	if !strings.HasSuffix(text, ".") {
		text += "."
	}
	return text
}

// valueName is the message that names a value in a form.
func valueName(path string) string {
	return "editor.value-" + strings.NewReplacer(".", "-", "_", "-").Replace(path)
}

// quantityOf is a value with its unit.
func quantityOf(path, value string) any {
	f, _ := document.At(building.Fields(), path)
	if f.Limit.Unit == "" {
		return value
	}
	return phrase.Of("document.quantity", "figure", value, "unit", f.Limit.Unit)
}

// cured says which slot of a problem's phrase holds the number that cures it,
// and at which path where that is another value.
var cured = map[string]struct{ slot, path string }{
	"building.storey-too-low":      {"least", ""},
	"building.advance-over-storey": {"most", ""},
	"building.advance-in-zone":     {"least", ""},
	"building.load-over-rated":     {"most", ""},
	"building.start-too-early":     {"least", ""},
	"building.speed-not-given":     {"gear", "machine.gear_ratio"},
	"building.speed-not-possible":  {"gear", ""},
	"building.handwheel-twice":     {"makes", ""},
	"document.number-too-small":    {"limit", ""},
	"document.number-too-large":    {"limit", ""},
	"document.not-a-choice":        {"remedy", ""},
	"survey.brake-weak":            {"cure", ""},
	"survey.brake-slow":            {"cure", ""},
	"survey.motor-weak":            {"cure", ""},
	"survey.advance-short":         {"cure", ""},
	"survey.handwheel-heavy":       {"cure", ""},
	"survey.vane-short":            {"cure", ""},
	"survey.vane-long":             {"cure", ""},
}

// cureOf finds the value in a problem that would cure it.
func cureOf(plan *building.Plan, path string, p phrase.Phrase) (Cure, bool) {
	c, known := cured[p.ID]
	switch {
	case p.ID == "building.balance-unusual":
		c.slot = "least"
		if plan.Lift.Balance > 0.45 {
			c.slot = "most"
		}
	case p.ID == "building.lowest-not-zero":
		return Cure{Path: path, Value: "0"}, true
	case !known:
		return Cure{}, false
	}
	if c.path != "" {
		path = c.path
	}
	if p.ID == "survey.motor-weak" {
		// Enough for the rated load is not yet enough for a tenth more.
		for _, line := range survey.Cures(plan) {
			if line.Path == path {
				return Cure{Path: path, Value: strconv.FormatFloat(line.Wants, 'f', line.Decimals, 64)}, true
			}
		}
	}
	value, ok := slotValue(p, c.slot)
	return Cure{Path: path, Value: value}, ok
}

// slotValue spells what a slot holds as a file does.
func slotValue(p phrase.Phrase, slot string) (string, bool) {
	for _, s := range p.Slots {
		if s.Name != slot {
			continue
		}
		switch v := s.Value.(type) {
		case phrase.Number:
			return strconv.FormatFloat(v.Value, 'f', v.Decimals, 64), true
		case phrase.Phrase: // a quantity, or a remedy that names what was meant
			if v.ID == "document.quantity" {
				return slotValue(v, "figure")
			}
			return slotValue(v, "near")
		case string:
			return v, true
		}
	}
	return "", false
}
