package document

import (
	"strconv"
	"strings"

	"wheelroom/physics/phrase"
)

// A Limit is what a value may be, with the unit it is written in and the
// reason, a message identity. For a text it bounds the number of characters,
// for a list the number of entries.
type Limit struct {
	Min, Max float64
	Above    bool   // Min itself is not allowed
	Unit     string // as shown, "m"; "" where there is none
	Why      string
	Milli    bool // the file gives thousandths of what the field holds
}

// Between allows min to max, both included, in the unit of the file.
func Between(min, max float64, unit, why string) Limit {
	return Limit{Min: min, Max: max, Unit: unit, Why: why}
}

// AboveTo allows more than min, up to and including max.
func AboveTo(min, max float64, unit, why string) Limit {
	return Limit{Min: min, Max: max, Above: true, Unit: unit, Why: why}
}

// Milliseconds allows min to max milliseconds for a field that holds seconds.
// The decimal point is moved in the written figure, so no digit is lost.
func Milliseconds(min, max float64, why string) Limit {
	return Limit{Min: min, Max: max, Unit: "ms", Why: why, Milli: true}
}

// Count allows min to max entries or characters.
func Count(min, max int, why string) Limit {
	return Limit{Min: float64(min), Max: float64(max), Why: why}
}

// exponent is appended to a figure of the file to make it a figure of the field.
func (l Limit) exponent() string {
	if l.Milli {
		return "e-3"
	}
	return ""
}

// check returns what is wrong with v, in the unit of the file, and whether
// anything is. The message is family + "-too-small" or family + "-too-large".
func (l Limit) check(family, key string, v float64, found string) (phrase.Phrase, bool) {
	id, bound := "", 0.0
	switch {
	case v < l.Min:
		id, bound = "document."+family+"-too-small", l.Min
	case l.Above && v == l.Min:
		id, bound = "document."+family+"-not-above", l.Min
	case v > l.Max:
		id, bound = "document."+family+"-too-large", l.Max
	default:
		return phrase.Phrase{}, false
	}
	p := phrase.Of(id, "key", key, "found", quantity(found, l.Unit), "limit", quantity(Plain(bound), l.Unit),
		"why", phrase.Of(l.Why))
	if family != "number" { // characters and entries are counted
		p.Slots = append(p.Slots, phrase.Slot{Name: "count", Value: int(v)})
	}
	return p, true
}

// quantity joins a figure and its unit, or returns the figure alone.
func quantity(figure any, unit string) any {
	if unit == "" {
		return figure
	}
	return phrase.Of("document.quantity", "figure", figure, "unit", unit)
}

// Plain returns v with as many decimals as its shortest spelling has.
func Plain(v float64) phrase.Number {
	s := strconv.FormatFloat(v, 'f', -1, 64)
	if i := strings.IndexByte(s, '.'); i >= 0 {
		return phrase.Num(v, len(s)-i-1)
	}
	return phrase.Num(v, 0)
}
