package document

import (
	"bytes"
	"encoding/json"

	"wheelroom/physics/phrase"
)

// Schema returns the JSON Schema (draft 2020-12) of a declaration: keys,
// types, limits, defaults, and units and reasons as descriptions worded by
// text. Checks over several values have no place in it.
func Schema(fields []Field, title phrase.Phrase, text func(phrase.Phrase) string) []byte {
	s := append(object{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"title", text(title)},
	}, mappingSchema(fields, text)...)
	compact, err := json.Marshal(s)
	if err != nil {
		panic("document: schema: " + err.Error())
	}
	var out bytes.Buffer
	if err := json.Indent(&out, compact, "", "  "); err != nil {
		panic("document: schema: " + err.Error())
	}
	return append(out.Bytes(), '\n')
}

// An object is a JSON object that keeps its order.
type object []member

type member struct {
	key   string
	value any
}

// MarshalJSON writes the members in their order.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		key, err := json.Marshal(m.key)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(m.value)
		if err != nil {
			return nil, err
		}
		b.Write(key)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func mappingSchema(fields []Field, text func(phrase.Phrase) string) object {
	properties, required := object{}, []string{}
	for _, f := range fields {
		properties = append(properties, member{f.Key, fieldSchema(f, text)})
		if f.Required {
			required = append(required, f.Key)
		}
	}
	o := object{{"type", "object"}, {"additionalProperties", false}}
	if len(required) > 0 {
		o = append(o, member{"required", required})
	}
	return append(o, member{"properties", properties})
}

func fieldSchema(f Field, text func(phrase.Phrase) string) object {
	o := object{}
	switch f.Kind {
	case Map:
		return mappingSchema(f.Fields, text)
	case List:
		o = object{{"type", "array"}, {"minItems", int(f.Limit.Min)}, {"maxItems", int(f.Limit.Max)},
			{"items", mappingSchema(f.Fields, text)}}
	case Texts:
		o = object{{"type", "array"}, {"minItems", int(f.Limit.Min)}, {"maxItems", int(f.Limit.Max)},
			{"items", object{{"type", "string"}}}}
	case Text:
		o = object{{"type", "string"}, {"minLength", int(f.Limit.Min)}, {"maxLength", int(f.Limit.Max)}}
	case Choice:
		o = object{{"type", "string"}, {"enum", f.Choices}}
	case Truth:
		o = object{{"type", "boolean"}}
	case Real, Whole:
		o = object{{"type", map[Kind]string{Real: "number", Whole: "integer"}[f.Kind]}}
		if f.Limit.Above {
			o = append(o, member{"exclusiveMinimum", f.Limit.Min})
		} else {
			o = append(o, member{"minimum", f.Limit.Min})
		}
		o = append(o, member{"maximum", f.Limit.Max})
	}
	if f.Limit.Why != "" {
		id := "document.schema-why"
		if f.Limit.Unit != "" {
			id = "document.schema-unit-why"
		}
		o = append(o, member{"description", text(phrase.Of(id, "unit", f.Limit.Unit, "why", phrase.Of(f.Limit.Why)))})
	}
	if f.Default != nil {
		o = append(o, member{"default", f.Default})
	}
	return o
}
