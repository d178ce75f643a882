package session

import (
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// A FormField is one value of a building file, or a group of them, as a form
// lays it out. What its label says is the page's.
type FormField struct {
	Path     string      `json:"path"`
	Kind     string      `json:"kind"` // real, whole, text, choice, map or list
	Unit     string      `json:"unit"`
	Range    string      `json:"range"` // the limits in words
	Why      string      `json:"why"`   // a sentence: the reason for them
	Choices  []string    `json:"choices"`
	Required bool        `json:"required"`
	Least    int         `json:"least"` // entries of a list
	Most     int         `json:"most"`
	Fields   []FormField `json:"fields"` // of a map, and of each entry of a list
}

// form describes every value of a building file in the order of the file, the
// file's version left out: it is nobody's choice.
func (s *Session) form() []FormField {
	list := s.formFields("", building.Fields())
	for i, f := range list {
		if f.Path == "version" {
			return append(list[:i], list[i+1:]...)
		}
	}
	return list
}

func (s *Session) formFields(at string, fields []document.Field) []FormField {
	list := []FormField{}
	for _, f := range fields {
		shown := FormField{Path: at + f.Key, Kind: f.Kind.String(), Unit: f.Limit.Unit, Choices: f.Choices, Required: f.Required}
		inner := at + f.Key + "."
		switch f.Kind {
		case document.Real, document.Whole:
			id := "editor.range"
			if f.Limit.Above {
				id = "editor.range-above"
			}
			shown.Range = s.o.Words(phrase.Of(id, "least", document.Plain(f.Limit.Min), "most", document.Plain(f.Limit.Max)))
		case document.List:
			shown.Least, shown.Most = int(f.Limit.Min), int(f.Limit.Max)
			inner = at + f.Key + "[]."
		case document.Text:
			shown.Most = int(f.Limit.Max)
		}
		if f.Limit.Why != "" {
			shown.Why = s.o.Words(phrase.Of("editor.because", "why", phrase.Of(f.Limit.Why)))
		}
		if f.Fields != nil {
			shown.Fields = s.formFields(inner, f.Fields)
		}
		list = append(list, shown)
	}
	return list
}
