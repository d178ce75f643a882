package script

import (
	"fmt"
	"slices"
	"strings"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// Buildings finds the plan of a building by the name of its file. For a name
// it does not know it returns nil and the names it does.
type Buildings func(id string) (plan *building.Plan, known []string)

// Read reads a lesson file, known as name, and returns everything that is
// wrong with it, sorted by place. A lesson is returned only without errors. What can be
// known only by running the machine is left to the tutor's check.
func Read(name string, text []byte, buildings Buildings) (*Lesson, []document.Problem) {
	var s sheet
	s.version = newest
	r := reader{name: name, text: text, problems: document.Read(name, text, func(m *document.Mapping) { declare(m, &s) })}
	if len(r.problems) > 0 && document.Keys(text) == nil {
		return nil, r.problems
	}
	lesson := r.lesson(&s, buildings)
	r.problems = append(r.problems, place(name, text, r.found)...)
	document.Sort(r.problems)
	if document.Failed(r.problems) {
		return nil, r.problems
	}
	return lesson, r.problems
}

// reader turns a sheet into a lesson and collects what is wrong. A text that
// is empty was missing or refused already and gives no second problem.
type reader struct {
	name     string
	text     []byte
	problems []document.Problem
	found    []complaint
	guessed  int
	words    *vocabulary // nil while the building is not known
}

func (r *reader) wrong(path, near string, what phrase.Phrase) {
	r.found = append(r.found, complaint{path, near, what})
}

// mostGuesses bounds how often the nearest name is looked for: nobody mends
// more than these at once, and a file made to be slow has thousands.
const mostGuesses = 50

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

func (r *reader) lesson(s *sheet, buildings Buildings) *Lesson {
	l := &Lesson{ID: s.id, Version: s.version, Title: s.title, Level: Level(s.level), Aims: s.aims,
		Building: s.building, Terms: s.terms, file: r.name, text: r.text}
	if s.id != "" && !isID(s.id) {
		r.wrong("id", "", phrase.Of("lesson.bad-id", "found", s.id))
	}
	l.Plan = r.building(s, buildings)
	if l.Plan != nil {
		r.words = newVocabulary(l.Plan)
	}
	r.floor("start", s.start)
	l.Caution = r.prose("caution", s.caution, NeedsNothing)
	for i := range s.items {
		l.Items = append(l.Items, r.item(fmt.Sprintf("items[%d]", i), &s.items[i], s.start))
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

// building finds the plan and gives it the lesson's scheme.
func (r *reader) building(s *sheet, buildings Buildings) *building.Plan {
	if s.building == "" {
		return nil
	}
	found, known := buildings(s.building)
	if found == nil {
		r.unknown("building", "", phrase.Of("lesson.unknown-building", "found", s.building), s.building, known)
		return nil
	}
	plan := *found
	if s.scheme != "" {
		if !slices.Contains(control.Schemes(), s.scheme) {
			r.unknown("scheme", "", phrase.Of("lesson.unknown-scheme", "found", s.scheme), s.scheme, control.Schemes())
			return &plan // the rest of the file can be judged all the same
		}
		plan.Control.Scheme = s.scheme
	}
	return &plan
}

func (r *reader) item(path string, s *itemSheet, start string) Item {
	it := Item{Title: s.title, Start: start, Kind: Kind(s.kind), Calls: s.calls, Path: path}
	if s.start != "" {
		it.Start = s.start
		r.floor(path+".start", s.start)
	}
	it.Lead = Lead{
		Text:  r.prose(path+".lead.text", s.lead.text, NeedsNothing),
		Calls: s.lead.calls,
		Until: r.until(path+".lead.until", s.lead.until),
		Speed: speed(s.lead.speed),
	}
	r.calls(path+".lead.calls", s.lead.calls)
	it.Question = r.prose(path+".question.text", s.text, NeedsLead)
	r.options(path, s, &it)
	r.calls(path+".calls", s.calls)
	for i, seg := range s.segments {
		at := fmt.Sprintf("%s.segments[%d]", path, i)
		it.Segments = append(it.Segments, Segment{
			Until: r.until(at+".until", seg.until),
			Speed: speed(seg.speed),
			Text:  r.prose(at+".text", seg.text, NeedsRun),
		})
	}
	it.Summary = r.prose(path+".summary", s.summary, NeedsRun)
	return it
}

// speed is the speed of a stretch that names none.
func speed(v float64) float64 {
	if v == 0 {
		return 1
	}
	return v
}

func (r *reader) options(path string, s *itemSheet, it *Item) {
	switch {
	case s.kind == string(Worked) && len(s.options) > 0:
		r.wrong(path+".options", "", phrase.Of("lesson.worked-with-options"))
	case s.kind == string(ChooseOne) && len(s.options) == 0:
		r.wrong(path, "", phrase.Of("lesson.no-options"))
	}
	for i := range s.options {
		o := &s.options[i]
		at := fmt.Sprintf("%s.options[%d]", path, i)
		option := Option{
			ID:      string(rune('a' + i)),
			Text:    r.prose(at+".text", o.text, NeedsLead),
			Because: r.prose(at+".because", o.because, NeedsRun),
			Claim: Claim{
				Goes:    ways[o.goes],
				Happens: r.events(at+".happens", o.happens),
				Never:   r.events(at+".never", o.never),
				Order:   r.events(at+".order", o.order),
			},
		}
		if o.saysStops {
			stops := append([]string{}, o.stops...)
			option.Claim.Stops = &stops
			for j, name := range stops {
				r.floor(fmt.Sprintf("%s.stops[%d]", at, j), name)
			}
		}
		if option.Claim.Empty() && o.goes == "" && len(o.happens)+len(o.never)+len(o.order) == 0 {
			r.wrong(at, "", phrase.Of("lesson.no-claim"))
		}
		it.Options = append(it.Options, option)
	}
}

func (r *reader) calls(path string, calls []Call) {
	for i, c := range calls {
		r.floor(fmt.Sprintf("%s[%d].floor", path, i), c.Floor)
	}
}

// floor reports a floor the building does not have.
func (r *reader) floor(path, name string) {
	if name == "" || r.words == nil || r.words.plan.Floor(name) >= 0 {
		return
	}
	var names []string
	for _, f := range r.words.plan.Floors {
		names = append(names, f.Name)
	}
	r.wrong(path, "", phrase.Of("lesson.unknown-floor", "found", name, "floors", strings.Join(names, ", ")))
}

func (r *reader) until(path, words string) Until {
	if words == "" || r.words == nil {
		return Until{}
	}
	u, wrong, known := r.words.until(words)
	if wrong != nil {
		event, _, _ := strings.Cut(words, " + ")
		r.unknown(path, "", *wrong, event, known)
	}
	return u
}

func (r *reader) events(path string, written []string) []Event {
	if r.words == nil {
		return nil
	}
	known := r.words.events
	var list []Event
	for i, words := range written {
		e, ok := known[words]
		if !ok {
			r.unknown(fmt.Sprintf("%s[%d]", path, i), "", phrase.Of("lesson.unknown-event", "found", words), words, sortedKeys(known))
			continue
		}
		list = append(list, e)
	}
	return list
}

// prose parses a text and its facts, and refuses facts that could not be told
// when the text is shown.
func (r *reader) prose(path, source string, told Needs) Prose {
	p, flaws := parseProse(source)
	for _, f := range flaws {
		r.wrong(path, f.near, f.what)
	}
	for i := range p {
		p[i].Runs = r.facts(path, p[i].Runs, told)
	}
	return p
}

// facts cuts the runs of a block at their braces.
func (r *reader) facts(path string, runs []Run, told Needs) []Run {
	var out []Run
	add := func(style Run, text string, fact *Fact) {
		if text != "" || fact != nil {
			style.Text, style.Fact = text, fact
			out = append(out, style)
		}
	}
	for _, run := range runs {
		rest := run.Text
		for {
			before, after, found := strings.Cut(rest, "{")
			add(run, before, nil)
			if !found {
				break
			}
			written, behind, closed := strings.Cut(after, "}")
			if !closed {
				r.wrong(path, "{"+firstWord(after), phrase.Of("lesson.open-brace", "found", firstWord(after)))
				break
			}
			if fact := r.fact(path, written, told); fact != nil {
				add(run, "{"+written+"}", fact)
			}
			rest = behind
		}
	}
	return out
}

func (r *reader) fact(path, written string, told Needs) *Fact {
	if r.words == nil {
		return nil
	}
	near := "{" + written + "}"
	fact, wrong, known := r.words.fact(written)
	if wrong != nil {
		r.unknown(path, near, *wrong, written, known)
		return nil
	}
	if fact.Needs() > told {
		id := "lesson.fact-of-the-answer"
		if told == NeedsNothing {
			id = "lesson.fact-too-early"
		}
		r.wrong(path, near, phrase.Of(id, "found", written))
		return nil
	}
	return fact
}

func firstWord(s string) string {
	word, _, _ := strings.Cut(s, " ")
	return strings.ToValidUTF8(word[:min(len(word), 40)], "")
}
