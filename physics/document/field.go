package document

// Kind is what a declared field holds.
type Kind uint8

// The kinds of field.
const (
	Real  Kind = iota // a decimal number
	Whole             // a whole number
	Text
	Choice // one of a few texts
	Truth  // true or false
	Map    // keys and values
	List   // entries, each a mapping
	Texts  // entries, each a text
)

// String returns the last part of the message identity that names the kind.
func (k Kind) String() string {
	return [...]string{"real", "whole", "text", "choice", "truth", "map", "list", "texts"}[k]
}

// A Field is what a declaration says of one key.
type Field struct {
	Key      string
	Kind     Kind
	Limit    Limit
	Choices  []string // of a Choice
	Default  any      // float64, int, string or bool in the unit of the file; nil where there is none
	Required bool
	Fields   []Field // of a Map, and of each entry of a List
}

// Find returns the path of the field with that key anywhere below fields, as
// "machine.handwheel_kg_m2", and whether there is one. Lists are not entered.
func Find(fields []Field, key string) (string, bool) {
	for _, f := range fields {
		if f.Key == key {
			return key, true
		}
		if f.Kind != Map {
			continue
		}
		if path, ok := Find(f.Fields, key); ok {
			return f.Key + "." + path, true
		}
	}
	return "", false
}
