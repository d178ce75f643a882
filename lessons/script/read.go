package script

import (
	"fmt"
	"strings"

	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// Read reads a lesson file, known as name, and returns everything that is
// wrong with it, sorted by place, at most mostProblems. A lesson is returned
// only without errors. What can be known only by running the machine is left
// to the tutor's check.
func Read(name string, text []byte, buildings Buildings) (*Lesson, []document.Problem) {
	var s sheet
	s.version = newest
	r := reader{name: name, text: text, buildings: buildings}
	r.problems = document.Read(name, text, func(m *document.Mapping) { declare(m, &s, buildings) })
	if len(r.problems) > 0 && document.Keys(text) == nil {
		return nil, Limited(r.problems)
	}
	lesson := r.lesson(&s)
	r.problems = append(r.problems, place(name, text, r.found)...)
	document.Sort(r.problems)
	if document.Failed(r.problems) {
		return nil, Limited(r.problems)
	}
	return lesson, Limited(r.problems)
}

// mostProblems bounds a list of problems: nobody mends more than these at
// once, and a file made to be slow has thousands.
const mostProblems = 100

// Limited cuts a long list of problems and says at its end how many more
// there are.
func Limited(problems []document.Problem) []document.Problem {
	if len(problems) <= mostProblems {
		return problems
	}
	last := problems[mostProblems-1]
	last.Phrase = phrase.Of("lesson.more-problems", "count", len(problems)-mostProblems+1)
	last.Warning = !document.Failed(problems[mostProblems-1:])
	return append(problems[:mostProblems-1:mostProblems-1], last)
}

// reader turns a sheet into a lesson and collects what is wrong. A text that
// is empty was missing or refused already and gives no second problem.
type reader struct {
	name      string
	text      []byte
	buildings Buildings
	problems  []document.Problem
	found     []complaint
	guessed   int
}

func (r *reader) wrong(path, near string, what phrase.Phrase) {
	r.found = append(r.found, complaint{path, near, what})
}

// mostGuesses bounds how often the nearest name is looked for.
const mostGuesses = 20

// unknown reports a name that was not found, with the nearest that would be.
func (r *reader) unknown(path, near string, what phrase.Phrase, found string, known []string) {
	remedy := phrase.Phrase{}
	if r.guessed++; r.guessed <= mostGuesses {
		if guess := document.Nearest(found, known); guess != "" {
			remedy = phrase.Of("document.remedy-near", "near", guess)
		}
	}
	what.Slots = append(what.Slots, phrase.Slot{Name: "remedy", Value: remedy})
	r.wrong(path, near, what)
}

func (r *reader) lesson(s *sheet) *Lesson {
	l := &Lesson{ID: s.id, Version: s.version, Title: s.title, Level: Level(s.level), Group: s.group, Aims: s.aims,
		Building: s.setting.building, Terms: s.terms, file: r.name, text: r.text}
	if l.Group == "" {
		l.Group = groups[len(groups)-1]
	}
	if s.id != "" && !isID(s.id) {
		r.wrong("id", "", phrase.Of("lesson.bad-id", "found", s.id))
	}
	around := r.lessonSetting(&s.setting)
	l.Caution = r.prose(around.words, "caution", s.caution, NeedsNothing)
	for i := range s.items {
		l.Items = append(l.Items, r.item(fmt.Sprintf("items[%d]", i), s, &s.items[i], around))
	}
	for i := range s.review {
		item := r.item(fmt.Sprintf("review[%d]", i), s, &s.review[i], around)
		item.Review = true
		l.Items = append(l.Items, item)
	}
	return l
}

func isID(s string) bool {
	for i, c := range s {
		if !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-' && i > 0) {
			return false
		}
	}
	return true
}

// item reads one item, with what it takes over from another.
func (r *reader) item(path string, whole *sheet, s *itemSheet, around setting) Item {
	if s.like > 0 {
		r.likeness(path, whole, s)
	}
	r.need(path, s)
	set := r.setting(path, &s.setting, around)
	it := Item{Title: s.title, Building: set.building, Plan: set.plan, Start: set.start, StartM: set.startM, Kind: Kind(s.question.kind), Path: path}
	if set.plan != nil && set.loadKG != nil {
		plan := *set.plan
		plan.Lift.LoadKG = *set.loadKG
		it.Plan = &plan
	}
	if set.words != nil && set.start == "" && set.startM == nil {
		r.wrong(path, "", phrase.Of("lesson.no-start"))
	}
	it.Lead = Lead{
		Text:   r.prose(set.words, path+".lead.text", s.lead.text, NeedsNothing),
		Until:  r.until(set.words, path+".lead.until", s.lead.until),
		Speed:  speed(s.lead.speed),
		Inputs: r.inputs(set.words, path+".before", s.before),
	}
	it.Lead.Inputs = append(it.Lead.Inputs, r.calls(set.words, path+".lead.calls", s.lead.calls)...)
	it.Lead.Inputs = append(it.Lead.Inputs, r.inputs(set.words, path+".lead.inputs", s.lead.inputs)...)
	it.Question = r.prose(set.words, path+".question.text", s.question.text, NeedsLead)
	it.Inputs = append(r.calls(set.words, path+".calls", s.calls), r.inputs(set.words, path+".inputs", s.inputs)...)
	it.Options = r.options(set.words, path, s)
	it.Form = r.form(set.words, path, s, &it)
	it.Answers = r.answers(set.words, path, s, &it)
	for i, seg := range s.segments {
		at := fmt.Sprintf("%s.segments[%d]", path, i)
		it.Segments = append(it.Segments, Segment{
			Until: r.until(set.words, at+".until", seg.until),
			Speed: speed(seg.speed),
			Text:  r.prose(set.words, at+".text", seg.text, NeedsRun),
		})
	}
	it.Chain = r.events(set.words, path+".chain", s.chain)
	it.Summary = r.prose(set.words, path+".summary", s.summary, NeedsRun)
	return it
}

// likeness lays an item over the one it is like.
func (r *reader) likeness(path string, whole *sheet, s *itemSheet) {
	if s.like > len(whole.items) || &whole.items[s.like-1] == s || whole.items[s.like-1].like > 0 {
		r.wrong(path+".like", "", phrase.Of("lesson.no-such-like", "found", s.like, "items", len(whole.items)))
		return
	}
	s.fill(&whole.items[s.like-1])
}

// need reports the keys without which nothing can be shown.
func (r *reader) need(path string, s *itemSheet) {
	for _, k := range []struct {
		key, value string
	}{
		{"title", s.title}, {"lead.text", s.lead.text}, {"lead.until", s.lead.until},
		{"question.kind", s.question.kind}, {"question.text", s.question.text},
	} {
		if k.value == "" && document.Sound(r.problems, path+"."+k.key) {
			r.wrong(path, "", phrase.Of("lesson.missing", "key", k.key))
		}
	}
	if len(s.segments) == 0 && document.Sound(r.problems, path+".segments") {
		r.wrong(path, "", phrase.Of("lesson.missing", "key", "segments"))
	}
}

// speed is the speed of a stretch that names none.
func speed(v float64) float64 {
	if v == 0 {
		return 1
	}
	return v
}

// floor reports a floor the building does not have, and whether it has it.
func (r *reader) floor(words *vocabulary, path, name string) bool {
	if name == "" || words == nil || words.plan.Floor(name) >= 0 {
		return true
	}
	var names []string
	for _, f := range words.plan.Floors {
		names = append(names, f.Name)
	}
	r.wrong(path, "", phrase.Of("lesson.unknown-floor", "found", name, "floors", strings.Join(names, ", ")))
	return false
}

func (r *reader) until(words *vocabulary, path, written string) Until {
	if written == "" || words == nil {
		return Until{}
	}
	u, wrong, known := words.until(written)
	if wrong != nil {
		event, _, _ := strings.Cut(written, " + ")
		r.unknown(path, "", *wrong, event, known)
	}
	return u
}

func (r *reader) events(words *vocabulary, path string, written []string) []Event {
	var list []Event
	for i, name := range written {
		if e, ok := r.event(words, fmt.Sprintf("%s[%d]", path, i), name); ok {
			list = append(list, e)
		}
	}
	return list
}

func (r *reader) event(words *vocabulary, path, written string) (Event, bool) {
	if words == nil || written == "" {
		return Event{}, false
	}
	e, ok := words.events[written]
	if !ok {
		r.unknown(path, "", phrase.Of("lesson.unknown-event", "found", written), written, sortedKeys(words.events))
	}
	return e, ok
}
