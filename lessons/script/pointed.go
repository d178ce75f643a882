package script

import (
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// pointedAt is the form of point-at-part and faulty-part: the name of one of
// the parts offered.
type pointedAt struct {
	parts []string // offered
	rule  rule
	by    []string // the trace's word for the state, beside parts
	event Event    // for causes
	fault string   // for faulty-part: the part that is forced
}

// rule is how the run tells which part is meant.
type rule uint8

const (
	firstOf  rule = iota // the first of them to come into the state
	lastOf               // the last
	causeOf              // the one nearest before the event among what brought it about
	nowIn                // the one in that state at the frozen frame
	endsIn               // the one in that state at the end
	faultyIs             // the one that is forced
)

// rules spells the rules in a file.
var rules = []struct {
	key  string
	rule rule
}{{"first", firstOf}, {"last", lastOf}, {"cause", causeOf}, {"now", nowIn}, {"end", endsIn}}

// Offered returns the parts a learner has to choose from.
func (p *pointedAt) Offered() []string { return p.parts }

// Tidy takes the offered parts, "" for none yet.
func (p *pointedAt) Tidy(answer string) (string, bool) {
	return answer, answer == "" || has(p.parts, answer)
}

// Whole: a part is pointed at.
func (p *pointedAt) Whole(answer string) bool { return answer != "" }

// Truth is the part the rule leads to. A rule by state that several parts
// meet has no answer.
func (p *pointedAt) Truth(l *Log) (string, bool) {
	switch p.rule {
	case faultyIs:
		return p.fault, p.fault != ""
	case causeOf:
		return p.cause(l)
	case nowIn:
		return p.only(l, l.Before)
	case endsIn:
		return p.only(l, len(l.Events))
	}
	found := ""
	for i := l.Before; l.Asked && i < len(l.Events); i++ {
		e := &l.Events[i]
		k := index(p.parts, string(e.Part))
		if k < 0 || e.State != p.by[k] {
			continue
		}
		if found = p.parts[k]; p.rule == firstOf {
			break
		}
	}
	return found, found != ""
}

// only returns the one part that stands in the state before event i.
func (p *pointedAt) only(l *Log, i int) (string, bool) {
	found := ""
	for k, part := range p.parts {
		if l.State(lift.Part(part), i) != p.by[k] {
			continue
		}
		if found != "" {
			return "", false
		}
		found = part
	}
	return found, found != ""
}

// cause walks back from the event to the first of the parts.
func (p *pointedAt) cause(l *Log) (string, bool) {
	if !l.Asked {
		return "", false
	}
	i := p.event.first(l, l.Before)
	for i >= 0 {
		if i = l.Events[i].Cause; i >= 0 && has(p.parts, string(l.Events[i].Part)) {
			return string(l.Events[i].Part), true
		}
	}
	return "", false
}

// Class is Right or Other; parts of their own have their own explanations.
func (p *pointedAt) Class(answer string, l *Log) string {
	if truth, ok := p.Truth(l); ok && truth == answer {
		return Right
	}
	return Other
}

// Classes is every other part that is offered.
func (p *pointedAt) Classes(l *Log) []string {
	truth, _ := p.Truth(l)
	var list []string
	for _, part := range p.parts {
		if part != truth {
			list = append(list, part)
		}
	}
	return list
}

// Say names the part.
func (p *pointedAt) Say(answer string) phrase.Phrase {
	if answer == "" {
		return phrase.Of("lesson.answer-none")
	}
	return PartName(lift.Part(answer))
}
