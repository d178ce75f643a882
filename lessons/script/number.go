package script

import (
	"math"
	"strconv"
	"strings"

	"wheelroom/physics/phrase"
)

// numberRead is the form of read-number: a decimal number in the unit asked
// for. It is right within the tolerance.
type numberRead struct {
	fact      *Fact
	unit      Unit
	scale     float64 // from the fact's unit to the unit asked for
	tolerance float64 // in the unit asked for
}

// Unit returns the unit asked for, "" for a plain count.
func (n *numberRead) Unit() Unit { return n.unit }

// Tolerance returns how far an answer may be off, nothing if it must be exact.
func (n *numberRead) Tolerance() phrase.Phrase {
	if n.tolerance == 0 {
		return phrase.Phrase{}
	}
	return n.unit.say(n.tolerance, decimalsNeeded(n.tolerance))
}

// mostDigits bounds a number typed by a learner.
const mostDigits = 12

// readDecimal reads a number as a learner types it, with a point or a comma,
// and returns it as it is spelled here.
func readDecimal(text string) (spelled string, value float64, ok bool) {
	text = strings.TrimSpace(strings.Replace(text, ",", ".", 1))
	text = strings.Replace(text, "−", "-", 1)
	if text == "" || len(text) > mostDigits || strings.Trim(text, "0123456789.-") != "" {
		return "", 0, false
	}
	value, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return "", 0, false
	}
	return strconv.FormatFloat(value+0, 'f', -1, 64), value, true
}

// Tidy takes "" for a number not yet given.
func (n *numberRead) Tidy(answer string) (string, bool) {
	if strings.TrimSpace(answer) == "" {
		return "", true
	}
	spelled, _, ok := readDecimal(answer)
	return spelled, ok
}

// Whole: a number is given.
func (n *numberRead) Whole(answer string) bool { return answer != "" }

func (n *numberRead) true(l *Log) (float64, bool) {
	v, ok := n.fact.Value(l)
	return v.Number * n.scale, ok && v.Unit != ""
}

// Truth is the fact as it is told, with its usual decimals.
func (n *numberRead) Truth(l *Log) (string, bool) {
	v, ok := n.true(l)
	return strconv.FormatFloat(v, 'f', n.unit.decimals(), 64), ok
}

// Class is Right within the tolerance.
func (n *numberRead) Class(answer string, l *Log) string {
	v, ok := n.true(l)
	_, said, given := readDecimal(answer)
	switch {
	case !ok || !given:
		return Other
	case math.Abs(said-v) <= n.tolerance*(1+1e-9):
		return Right
	case said < v:
		return TooLow
	}
	return TooHigh
}

// Classes are both ways to be off.
func (n *numberRead) Classes(*Log) []string { return []string{TooLow, TooHigh} }

// Say words the number with its unit.
func (n *numberRead) Say(answer string) phrase.Phrase {
	_, v, ok := readDecimal(answer)
	if !ok {
		return phrase.Of("lesson.answer-none")
	}
	return n.unit.say(v, decimalsOf(answer))
}

// decimalsNeeded is how many decimals a figure of a lesson file has.
func decimalsNeeded(v float64) int { return decimalsOf(strconv.FormatFloat(v, 'f', -1, 64)) }

// decimalsOf is how many decimals a spelled number has.
func decimalsOf(s string) int {
	if i := strings.IndexByte(s, '.'); i >= 0 {
		return len(s) - i - 1
	}
	return 0
}

// momentSaid is the form of lamp-out: how long after the frozen frame
// something happens, seconds, marked on a time line.
type momentSaid struct {
	event      Event
	spanS      float64 // length of the time line
	toleranceS float64
}

// SpanS returns the length of the time line, seconds from the frozen frame.
func (m *momentSaid) SpanS() float64 { return m.spanS }

// Tolerance returns how far an answer may be off.
func (m *momentSaid) Tolerance() phrase.Phrase {
	return Seconds.say(m.toleranceS, decimalsNeeded(m.toleranceS))
}

// Tidy takes times on the time line, "" for none yet.
func (m *momentSaid) Tidy(answer string) (string, bool) {
	if strings.TrimSpace(answer) == "" {
		return "", true
	}
	spelled, v, ok := readDecimal(answer)
	return spelled, ok && v >= 0 && v <= m.spanS
}

// Whole: a moment is marked.
func (m *momentSaid) Whole(answer string) bool { return answer != "" }

func (m *momentSaid) true(l *Log) (float64, bool) {
	if !l.Asked {
		return 0, false
	}
	i := m.event.first(l, l.Before)
	if i < 0 {
		return 0, false
	}
	after := l.Events[i].TimeS - l.FrozenS
	return after, after <= m.spanS
}

// Truth is when the event came, within the time line.
func (m *momentSaid) Truth(l *Log) (string, bool) {
	v, ok := m.true(l)
	return strconv.FormatFloat(v, 'f', 1, 64), ok
}

// Class is Right within the tolerance.
func (m *momentSaid) Class(answer string, l *Log) string {
	v, ok := m.true(l)
	_, said, given := readDecimal(answer)
	switch {
	case !ok || !given:
		return Other
	case math.Abs(said-v) <= m.toleranceS+0.05: // the truth is told in tenths
		return Right
	case said < v:
		return TooEarly
	}
	return TooLate
}

// Classes are both ways to be off.
func (m *momentSaid) Classes(*Log) []string { return []string{TooEarly, TooLate} }

// Say words the moment.
func (m *momentSaid) Say(answer string) phrase.Phrase {
	_, v, ok := readDecimal(answer)
	if !ok {
		return phrase.Of("lesson.answer-none")
	}
	return phrase.Of("lesson.answer-after", "time", Seconds.say(v, 1))
}
