// Package phrase holds a sentence as data: the identity of a message and the
// values of its named slots. The machine, its checks and its explanations
// speak in phrases; only a Catalogue, read from a message file, knows words.
//
// A phrase does not know a language. It leaves out everything about layout.
package phrase

import (
	"strconv"
	"strings"
)

// A Phrase names one message of the catalogue and fills its slots.
// The zero value is the empty phrase and words to "".
type Phrase struct {
	ID    string
	Slots []Slot
}

// A Slot is one named value of a phrase. Value is a string, an int, a Number
// or another Phrase; nothing else is worded.
type Slot struct {
	Name  string
	Value any
}

// A Number is a quantity with the decimals it is to be shown with.
type Number struct {
	Value    float64
	Decimals int
}

// Of builds a phrase from a message identity and pairs of slot name and value:
//
//	phrase.Of("lift.at-floor", "floor", "3")
//
// It panics on an odd number of slots or a name that is not a string, which
// is a fault of the program, not of its input.
func Of(id string, pairs ...any) Phrase {
	if len(pairs)%2 != 0 {
		panic("phrase: slot without a value in " + id)
	}
	p := Phrase{ID: id}
	for i := 0; i < len(pairs); i += 2 {
		p.Slots = append(p.Slots, Slot{Name: pairs[i].(string), Value: pairs[i+1]})
	}
	return p
}

// Num returns v to be shown with the given decimals.
func Num(v float64, decimals int) Number { return Number{Value: v, Decimals: decimals} }

// String spells the phrase without a catalogue, for logs and failing tests:
// the identity, then the slots in brackets.
func (p Phrase) String() string {
	if len(p.Slots) == 0 {
		return p.ID
	}
	var b strings.Builder
	b.WriteString(p.ID)
	b.WriteByte('[')
	for i, s := range p.Slots {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(s.Name)
		b.WriteByte('=')
		switch v := s.Value.(type) {
		case string:
			b.WriteString(v)
		case int:
			b.WriteString(strconv.Itoa(v))
		case Number:
			b.WriteString(strconv.FormatFloat(v.Value, 'f', v.Decimals, 64))
		case Phrase:
			b.WriteString(v.String())
		}
	}
	b.WriteByte(']')
	return b.String()
}
