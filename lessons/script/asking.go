package script

import (
	"fmt"
	"strings"

	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

func (r *reader) options(words *vocabulary, path string, s *itemSheet) []Option {
	chooses := s.question.kind == string(ChooseOne) || s.question.kind == string(ChooseSeveral)
	switch {
	case s.question.kind == "": // missing or refused already
	case s.question.kind == string(Worked) && len(s.options) > 0:
		r.wrong(path+".options", "", phrase.Of("lesson.worked-with-options"))
	case chooses && len(s.options) == 0:
		r.wrong(path, "", phrase.Of("lesson.no-options"))
	case !chooses && len(s.options) > 0:
		r.wrong(path+".options", "", phrase.Of("lesson.options-not-wanted"))
	}
	var list []Option
	for i := range s.options {
		list = append(list, r.option(words, fmt.Sprintf("%s.options[%d]", path, i), i, &s.options[i]))
	}
	return list
}

func (r *reader) option(words *vocabulary, at string, i int, o *optionSheet) Option {
	option := Option{
		ID:       string(rune('a' + i)),
		Text:     r.prose(words, at+".text", o.text, NeedsLead),
		Because:  r.prose(words, at+".because", o.because, NeedsRun),
		Tempting: o.tempting,
		Claim: Claim{
			Goes:    ways[o.goes],
			Happens: r.events(words, at+".happens", o.happens),
			Never:   r.events(words, at+".never", o.never),
			Order:   r.events(words, at+".order", o.order),
			Ends:    r.events(words, at+".ends", o.ends),
		},
	}
	if o.saysStops {
		stops := append([]string{}, o.stops...)
		option.Claim.Stops = &stops
		for j, name := range stops {
			r.floor(words, fmt.Sprintf("%s.stops[%d]", at, j), name)
		}
	}
	for j, written := range o.figures {
		if words == nil {
			break
		}
		f, wrong, known := words.figure(written)
		if wrong != nil {
			r.unknown(fmt.Sprintf("%s.figures[%d]", at, j), "", *wrong, written, known)
			continue
		}
		option.Claim.Figures = append(option.Claim.Figures, f)
	}
	if option.Claim.Empty() && o.goes == "" && len(o.happens)+len(o.never)+len(o.order)+len(o.ends)+len(o.figures) == 0 {
		r.wrong(at, "", phrase.Of("lesson.no-claim"))
	}
	return option
}

// form makes the form of a question; nil for a worked item, and while
// something it needs is missing.
func (r *reader) form(words *vocabulary, path string, s *itemSheet, it *Item) Form {
	q := &s.question
	switch it.Kind {
	case ChooseOne, ChooseSeveral:
		return &chosen{options: it.Options, several: it.Kind == ChooseSeveral}
	}
	if words == nil {
		return nil
	}
	at := path + ".question"
	switch it.Kind {
	case OrderStops:
		return &stopOrder{floors: r.offeredFloors(words, at, q)}
	case SetSwitches:
		return &switchStands{floors: lowestFirst(words, r.offeredFloors(words, at, q))}
	case PointAtPart, FaultyPart:
		return r.pointing(words, at, q, it)
	case ReadNumber:
		return r.numberForm(words, at, q)
	case LampOut:
		if q.event == "" || !q.span {
			r.wrong(at, "", phrase.Of("lesson.moment-needs"))
			return nil
		}
		e, ok := r.event(words, at+".event", q.event)
		if !ok {
			return nil
		}
		tolerance := q.tolerance
		if !q.toleranceGiven {
			tolerance = 0.5
		}
		return &momentSaid{event: e, spanS: q.spanS, toleranceS: tolerance}
	}
	return nil
}

// offeredFloors is the floors named, or all of them.
func (r *reader) offeredFloors(words *vocabulary, at string, q *questionSheet) []string {
	for i, f := range q.floors {
		r.floor(words, fmt.Sprintf("%s.floors[%d]", at, i), f)
	}
	if len(q.floors) > 0 {
		return q.floors
	}
	var all []string
	for _, f := range words.plan.Floors {
		all = append(all, f.Name)
	}
	return all
}

func lowestFirst(words *vocabulary, floors []string) []string {
	var list []string
	for _, f := range words.plan.Floors {
		if has(floors, f.Name) {
			list = append(list, f.Name)
		}
	}
	return list
}

// pointing reads which parts are offered and how the run tells the right one.
func (r *reader) pointing(words *vocabulary, at string, q *questionSheet, it *Item) Form {
	p := &pointedAt{parts: q.parts}
	if len(q.parts) == 0 {
		r.wrong(at, "", phrase.Of("lesson.no-parts"))
		return nil
	}
	for i, part := range q.parts {
		if !has(words.parts, part) {
			r.unknown(fmt.Sprintf("%s.parts[%d]", at, i), "", phrase.Of("lesson.unknown-part", "found", part), part, words.parts)
			return nil
		}
	}
	if it.Kind == FaultyPart {
		p.rule = faultyIs
		return r.faulty(at, p, it)
	}
	given := 0
	for i, by := range q.by {
		if by == "" {
			continue
		}
		given++
		p.rule = rules[i].rule
		if p.rule == causeOf {
			p.event, _ = r.event(words, at+"."+rules[i].key, by)
			continue
		}
		for k, part := range q.parts {
			state := familyOf(part).state(by)
			if state == "" {
				r.wrong(at+"."+rules[i].key, "", phrase.Of("lesson.unknown-state", "found", by, "part", q.parts[k], "states", strings.Join(familyOf(part).words, ", ")))
				return nil
			}
			p.by = append(p.by, state)
		}
	}
	if given != 1 {
		r.wrong(at, "", phrase.Of("lesson.not-one-rule"))
		return nil
	}
	return p
}

// faulty finds the one part that is forced in this item.
func (r *reader) faulty(at string, p *pointedAt, it *Item) Form {
	forced := map[lift.Part]bool{}
	for _, in := range append(append([]Input(nil), it.Lead.Inputs...), it.Inputs...) {
		if in.Do.Kind == lift.Override {
			forced[in.Do.Part] = in.Do.State != ""
		}
	}
	for _, part := range p.parts {
		if forced[lift.Part(part)] && p.fault == "" {
			p.fault = part
			delete(forced, lift.Part(part))
		}
	}
	for _, still := range forced {
		if still {
			p.fault = ""
		}
	}
	if p.fault == "" {
		r.wrong(at, "", phrase.Of("lesson.not-one-fault"))
		return nil
	}
	return p
}

func (r *reader) numberForm(words *vocabulary, at string, q *questionSheet) Form {
	if q.fact == "" || !q.toleranceGiven {
		r.wrong(at, "", phrase.Of("lesson.number-needs"))
		return nil
	}
	fact, wrong, known := words.fact(q.fact)
	if wrong != nil {
		r.unknown(at+".fact", "", *wrong, q.fact, known)
		return nil
	}
	n := &numberRead{fact: fact, unit: fact.unit, scale: 1, tolerance: q.tolerance}
	if fact.unit == "" {
		r.wrong(at+".fact", "", phrase.Of("lesson.fact-no-number", "found", q.fact))
		return nil
	}
	if q.unit != "" {
		scale, ok := convert(fact.unit, Unit(q.unit))
		if !ok {
			r.wrong(at+".unit", "", phrase.Of("lesson.figure-unit", "found", q.unit, "unit", string(fact.unit)))
			return nil
		}
		n.unit, n.scale = Unit(q.unit), scale
	}
	return n
}

// answers reads the explanations of a question that has no options.
func (r *reader) answers(words *vocabulary, path string, s *itemSheet, it *Item) []Answer {
	if len(s.answers) > 0 && (!it.Asks() || it.Chooses()) {
		r.wrong(path+".answers", "", phrase.Of("lesson.answers-not-wanted"))
		return nil
	}
	var list []Answer
	for i := range s.answers {
		a := &s.answers[i]
		at := fmt.Sprintf("%s.answers[%d]", path, i)
		list = append(list, Answer{Is: r.class(at+".is", a.is, it), Because: r.prose(words, at+".because", a.because, NeedsRun), Tempting: a.tempting})
	}
	if it.Form != nil && it.Asks() && !it.Chooses() {
		known := map[string]bool{}
		for i, a := range list {
			if known[a.Is] {
				r.wrong(fmt.Sprintf("%s.answers[%d].is", path, i), "", phrase.Of("lesson.answer-twice", "found", a.Is))
			}
			known[a.Is] = true
		}
		if !known[Right] {
			r.wrong(path, "", phrase.Of("lesson.right-unexplained"))
		}
	}
	return list
}

// class reads which answers an explanation is for.
func (r *reader) class(path, written string, it *Item) string {
	if it.Form == nil || written == "" || written == Right || written == Other || has(classes[it.Kind], written) {
		return written
	}
	tidy, ok := it.Form.Tidy(strings.ReplaceAll(written, ",", " "))
	if it.Kind == ReadNumber || it.Kind == LampOut {
		ok = false // a number of its own has no explanation of its own
	}
	if !ok || !it.Form.Whole(tidy) {
		r.wrong(path, "", phrase.Of("lesson.unknown-class", "found", written, "classes", strings.Join(append([]string{Right, Other}, classes[it.Kind]...), ", ")))
	}
	return tidy
}
