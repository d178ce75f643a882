package script

// fill fills what an item leaves out from another: an item for review is often
// one of the lesson's with other calls. A question of another kind takes over
// neither options nor answers.
func (it *itemSheet) fill(from *itemSheet) {
	fillText(&it.title, from.title)
	s, f := &it.setting, &from.setting
	if s.building == "" && s.scheme == "" && !s.ownPlan {
		s.building, s.scheme, s.plan, s.ownPlan = f.building, f.scheme, f.plan, f.ownPlan
	}
	if s.start == "" && s.startM == nil {
		s.start, s.startM = f.start, f.startM
	}
	if s.loadKG == nil {
		s.loadKG = f.loadKG
	}
	fillList(&it.before, from.before)

	fillText(&it.lead.text, from.lead.text)
	fillText(&it.lead.until, from.lead.until)
	fillList(&it.lead.calls, from.lead.calls)
	fillList(&it.lead.inputs, from.lead.inputs)
	if it.lead.speed == 0 {
		it.lead.speed = from.lead.speed
	}

	if it.question.kind == "" || it.question.kind == from.question.kind {
		fillList(&it.options, from.options)
		fillList(&it.answers, from.answers)
	}
	it.question.fill(&from.question)
	fillList(&it.calls, from.calls)
	fillList(&it.inputs, from.inputs)
	fillList(&it.segments, from.segments)
	fillText(&it.summary, from.summary)
	fillList(&it.chain, from.chain)
}

// fill: a question of another kind takes over nothing but its text.
func (q *questionSheet) fill(from *questionSheet) {
	fillText(&q.text, from.text)
	if q.kind != "" && q.kind != from.kind {
		return
	}
	q.kind = from.kind
	fillList(&q.floors, from.floors)
	fillList(&q.parts, from.parts)
	if q.by == ([5]string{}) {
		q.by = from.by
	}
	fillText(&q.fact, from.fact)
	fillText(&q.unit, from.unit)
	fillText(&q.event, from.event)
	if !q.toleranceGiven {
		q.tolerance, q.toleranceGiven = from.tolerance, from.toleranceGiven
	}
	if !q.span {
		q.spanS, q.span = from.spanS, from.span
	}
}

func fillText(to *string, from string) {
	if *to == "" {
		*to = from
	}
}

func fillList[T any](to *[]T, from []T) {
	if len(*to) == 0 {
		*to = from
	}
}
