package script

import (
	"regexp"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// Schema returns the JSON Schema of lesson files; text words the reasons. It
// is made from the declaration that reads them. What a plan may hold is left
// to the schema of building files.
func Schema(text func(phrase.Phrase) string) []byte {
	s := sheet{version: newest}
	fields := document.Describe(func(m *document.Mapping) { declare(m, &s, nobody) })
	schema := document.Schema(honest(fields), phrase.Of("lesson.schema-title"), text)
	return closed.ReplaceAll(schema, []byte(`"description": "`+text(phrase.Of("lesson.why-plan"))+`"`))
}

// closed is how a mapping without declared keys comes out.
var closed = regexp.MustCompile(`"additionalProperties": false,\s+"properties": \{\}`)

// nobody knows no buildings.
func nobody(string) (*building.Plan, []string) { return nil, nil }

// honest leaves out defaults that a file could not give: they stand for a key
// that is not there.
func honest(fields []document.Field) []document.Field {
	for i := range fields {
		f := &fields[i]
		if f.Key == "plan" {
			f.Fields = nil
		}
		honest(f.Fields)
		switch v := f.Default.(type) {
		case string:
			if v == "" {
				f.Default = nil
			}
		case int:
			if v == 0 && f.Limit.Min > 0 {
				f.Default = nil
			}
		case float64:
			if v == 0 && (f.Limit.Min > 0 || f.Limit.Above) {
				f.Default = nil
			}
		}
	}
	return fields
}
