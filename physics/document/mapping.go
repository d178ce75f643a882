package document

import "strconv"

// A Mapping is one mapping of a document while it is being read, written or
// described. Declarations call its methods in the order in which the keys are
// to be written; a key that is absent leaves its variable as it was, so the
// caller fills in defaults beforehand.
type Mapping struct {
	pass pass
	path string // "" at the top
}

// A pass is one use of a declaration. A field's variable is a *float64,
// **float64, *int, *string, *bool or *[]string.
type pass interface {
	need(keys []string)
	value(f Field, variable any)
	mapping(f Field, declare func(p pass))
	list(f Field, size int, resize func(n int), entry func(i int, p pass))
	given(key string) bool
	either(shared, first, second Field, a, b *float64)
}

// Path returns the path of a key in this mapping, or of the mapping itself
// when the key is "".
func (m *Mapping) Path(key string) string { return join(m.path, key) }

func join(path, key string) string {
	if path == "" || key == "" {
		return path + key
	}
	return path + "." + key
}

// Need says which keys may not be left out.
func (m *Mapping) Need(keys ...string) { m.pass.need(keys) }

// Given reports whether the document being read has the key. While writing or
// describing it is true.
func (m *Mapping) Given(key string) bool { return m.pass.given(key) }

// Float declares a decimal number.
func (m *Mapping) Float(key string, to *float64, limit Limit) {
	m.pass.value(Field{Key: key, Kind: Real, Limit: limit}, to)
}

// Maybe declares a decimal number that may be absent for good: then *to is nil.
func (m *Mapping) Maybe(key string, to **float64, limit Limit) {
	m.pass.value(Field{Key: key, Kind: Real, Limit: limit}, to)
}

// Either declares two numbers that have one key together or a key each: shared
// sets both, first and second set one and go before shared.
func (m *Mapping) Either(shared, first, second string, a, b *float64, limit Limit) {
	m.pass.either(Field{Key: shared, Kind: Real, Limit: limit}, Field{Key: first, Kind: Real, Limit: limit},
		Field{Key: second, Kind: Real, Limit: limit}, a, b)
}

// Int declares a whole number.
func (m *Mapping) Int(key string, to *int, limit Limit) {
	m.pass.value(Field{Key: key, Kind: Whole, Limit: limit}, to)
}

// Bool declares a truth value.
func (m *Mapping) Bool(key string, to *bool) {
	m.pass.value(Field{Key: key, Kind: Truth}, to)
}

// Text declares a text; limit bounds its characters.
func (m *Mapping) Text(key string, to *string, limit Limit) {
	m.pass.value(Field{Key: key, Kind: Text, Limit: limit}, to)
}

// Choice declares a text that is one of choices; why is a message identity.
func (m *Mapping) Choice(key string, to *string, choices []string, why string) {
	m.pass.value(Field{Key: key, Kind: Choice, Choices: choices, Limit: Limit{Why: why}}, to)
}

// Texts declares a list of texts; count bounds its entries.
func (m *Mapping) Texts(key string, to *[]string, count Limit) {
	m.pass.value(Field{Key: key, Kind: Texts, Limit: count}, to)
}

// Map declares a mapping inside this one.
func (m *Mapping) Map(key string, declare func(m *Mapping)) {
	m.pass.mapping(Field{Key: key, Kind: Map}, func(p pass) {
		declare(&Mapping{pass: p, path: m.Path(key)})
	})
}

// ListOf declares a list of mappings; count bounds its entries. Reading
// replaces what *to holds; each entry starts at the zero value.
func ListOf[T any](m *Mapping, key string, to *[]T, count Limit, declare func(m *Mapping, entry *T)) {
	resize := func(n int) { *to = make([]T, n) }
	m.pass.list(Field{Key: key, Kind: List, Limit: count}, len(*to), resize, func(i int, p pass) {
		entry := new(T)
		if i >= 0 && i < len(*to) { // -1 describes an entry there need not be
			entry = &(*to)[i]
		}
		declare(&Mapping{pass: p, path: m.Path(key) + "[" + strconv.Itoa(i) + "]"}, entry)
	})
}

// Version declares the key "version": a whole number from 1 to newest. It may
// be left out and then is *to as it was. A document of a newer version gets
// that one problem alone, since nothing else in it can be judged.
func (m *Mapping) Version(to *int, newest int) {
	m.pass.value(Field{Key: "version", Kind: Whole, Limit: Count(1, newest, "document.why-version")}, to)
}
