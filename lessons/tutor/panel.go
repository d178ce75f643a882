package tutor

import (
	"strings"

	"wheelroom/lessons/script"
	"wheelroom/physics/phrase"
)

// A Panel is all that a page shows of a lesson, in words. What the present
// phase keeps hidden is not in it: before the commit there is no outcome, no
// verdict, no explanation and nothing else that the asked run decides.
type Panel struct {
	ID        string      `json:"id"`
	Title     string      `json:"title"`
	ItemTitle string      `json:"itemTitle"`
	Item      int         `json:"item"`   // from 1
	Items     int         `json:"items"`  // without those for review
	Review    int         `json:"review"` // which item for review, from 1; 0 for none of them
	Reviews   int         `json:"reviews"`
	Language  string      `json:"language,omitempty"` // of the lesson's texts where it is another than the reader's
	Aims      []string    `json:"aims"`               // at the first item
	Terms     []TermText  `json:"terms"`              // the words the lesson teaches
	State     Phase       `json:"state"`
	Kind      script.Kind `json:"kind"`
	Caution   []Paragraph `json:"caution"`
	Lead      []Paragraph `json:"lead"`
	Question  []Paragraph `json:"question"` // from the frozen frame on
	Task      *Task       `json:"task"`     // likewise; nil in a worked item
	Options   []Choice    `json:"options"`  // likewise; of choose-one and choose-several
	Chosen    string      `json:"chosen"`
	Said      string      `json:"said"` // the answer chosen, in words
	Sure      int         `json:"sure"`
	Committed bool        `json:"committed"`
	Seen      string      `json:"seen"` // what the learner is about to say happened

	Segment  int         `json:"segment"`  // segments of the run that are over
	Segments int         `json:"segments"` // 0 until committed
	Notes    []Paragraph `json:"notes"`    // told at the ends of the segments so far

	Observed    *Observed   `json:"observed"`
	Outcome     *Outcome    `json:"outcome"`
	Verdict     *Verdict    `json:"verdict"`
	Explanation []Paragraph `json:"explanation"` // of the answer chosen and the right one, then the summary
	Chain       []Light     `json:"chain"`       // what to light in the picture, in causal order

	CanChoose   bool `json:"canChoose"`
	CanCommit   bool `json:"canCommit"`
	CanRun      bool `json:"canRun"`  // time may pass, if need be after continue
	CanStep     bool `json:"canStep"` // likewise
	CanContinue bool `json:"canContinue"`
	CanObserve  bool `json:"canObserve"` // what was seen may be handed in
	CanRepeat   bool `json:"canRepeat"`
	CanNext     bool `json:"canNext"`

	Results []Result `json:"results"`
}

// A Paragraph is one block of text: kind is "paragraph", "bullet" or
// "numbered".
type Paragraph struct {
	Kind string  `json:"kind"`
	Runs []Piece `json:"runs"`
}

// A Piece is a stretch of text in one style. It is text, never markup.
type Piece struct {
	Text   string `json:"text"`
	Strong bool   `json:"strong,omitempty"`
	Emph   bool   `json:"emph,omitempty"`
	Code   bool   `json:"code,omitempty"`
	Fact   bool   `json:"fact,omitempty"` // computed by the run
	Href   string `json:"href,omitempty"` // relative
}

// A TermText is one word that the lesson teaches. ID is its place in the
// glossary.
type TermText struct {
	ID    string `json:"id"`
	Word  string `json:"word"`
	Means string `json:"means"`
}

// A Choice is one option. Right and Because are there once the item is
// explained.
type Choice struct {
	ID      string      `json:"id"`
	Text    string      `json:"text"`
	Right   *bool       `json:"right,omitempty"`
	Because []Paragraph `json:"because,omitempty"`
}

// Observed is what the learner says happened, and whether it did.
type Observed struct {
	ID    string `json:"id"` // the answer
	Said  string `json:"said"`
	Right bool   `json:"right"`
	Text  string `json:"text"`
}

// An Outcome is what happened, to stand beside the prediction.
type Outcome struct {
	ID   string `json:"id"` // the machine's answer
	Text string `json:"text"`
}

// A Verdict says whether the prediction came true.
type Verdict struct {
	Right bool   `json:"right"`
	Text  string `json:"text"`
}

// Panel returns what is to be shown now. With no lesson open it is the zero
// Panel. It shares nothing with the tutor.
func (t *Tutor) Panel() Panel {
	if t.phase == Closed {
		return Panel{}
	}
	item := t.item()
	p := Panel{
		ID: t.lesson.ID, Title: t.lesson.Title, ItemTitle: item.Title,
		Item: t.index + 1, Items: t.lesson.Reviewed() - 1, Reviews: len(t.lesson.Items) - t.lesson.Reviewed() + 1,
		Language: t.lesson.Language, State: t.phase, Kind: item.Kind, Aims: []string{}, Terms: terms(t.lesson), Chain: []Light{},
		Caution: t.prose(t.lesson.Caution, &t.run.log), Lead: t.prose(item.Lead.Text, &t.run.log),
		Question: []Paragraph{}, Options: []Choice{}, Notes: []Paragraph{}, Explanation: []Paragraph{},
		Chosen:  t.chosen,
		Said:    t.say(t.chosen, &t.run.log),
		Sure:    t.sure,
		Seen:    t.seen,
		Results: append([]Result{}, t.results...),
	}
	if item.Review {
		p.Review = t.index + 2 - t.lesson.Reviewed()
	}
	if t.index == 0 {
		p.Aims = append(p.Aims, t.lesson.Aims...)
	}
	t.permit(&p)
	if t.phase == LeadIn {
		return p
	}
	p.Question, p.Task = t.prose(item.Question, &t.run.log), t.task()
	for i := range item.Options {
		o := &item.Options[i]
		p.Options = append(p.Options, Choice{ID: o.ID, Text: t.line(o.Text, &t.run.log)})
	}
	if t.phase == Asked || t.passedOver() {
		return p
	}
	p.Committed, p.Segment, p.Segments = true, t.segment, len(item.Segments)
	for i := range t.told {
		p.Notes = append(p.Notes, t.prose(item.Segments[i].Text, &t.told[i])...)
	}
	if t.phase == Explained || t.phase == Done {
		t.reveal(&p)
	}
	return p
}

// passedOver reports whether the lesson ended on an item that was not
// answered: its run never was, so there is nothing to reveal.
func (t *Tutor) passedOver() bool { return t.phase == Done && t.finished == nil }

// permit says what the learner may do now.
func (t *Tutor) permit(p *Panel) {
	p.CanChoose = t.phase == Asked
	p.CanCommit = t.phase == Asked && t.item().Asks() && t.item().Form.Whole(t.chosen)
	p.CanContinue = t.phase == Committed || t.phase == Paused
	p.CanRun = t.Moving() || p.CanContinue
	p.CanStep = p.CanRun
	p.CanObserve = t.phase == Observe && t.item().Form.Whole(t.seen)
	p.CanRepeat = t.phase == Explained
	p.CanNext = t.phase == Explained || t.phase == Asked
}

// reveal adds what the run has decided.
func (t *Tutor) reveal(p *Panel) {
	item, log := t.item(), t.finished
	if item.Asks() {
		for i := range item.Options {
			o := &item.Options[i]
			right := o.Claim.Holds(log)
			p.Options[i].Right = &right
			p.Options[i].Because = t.prose(o.Because, log)
		}
		t.judge(p)
	}
	p.Explanation = append(p.Explanation, t.prose(item.Summary, log)...)
	p.Chain = t.chain()
}

// judge sets prediction and observation beside the answer of the machine.
func (t *Tutor) judge(p *Panel) {
	item, log := t.item(), t.finished
	if truth, ok := item.Form.Truth(log); ok {
		p.Outcome = &Outcome{ID: truth, Text: t.say(truth, log)}
	}
	right := t.right(t.chosen)
	p.Verdict = &Verdict{Right: right, Text: t.words(phrase.Of(verdict(right, t.sure)))}
	seen := t.right(t.observed)
	p.Observed = &Observed{ID: t.observed, Said: t.say(t.observed, log), Right: seen,
		Text: t.words(phrase.Of(pick(seen, "lesson.seen-right", "lesson.seen-otherwise")))}
	for _, why := range item.Explain(t.chosen, log) {
		p.Explanation = append(p.Explanation, t.prose(why, log)...)
	}
}

// verdict is the message for a prediction that came true or did not. One that
// was certain and failed is what is remembered best, once it is looked at.
func verdict(right bool, sure int) string {
	switch {
	case !right && sure == Sure:
		return "lesson.came-otherwise-sure"
	case !right:
		return "lesson.came-otherwise"
	case sure == 1:
		return "lesson.came-true-guessed"
	}
	return "lesson.came-true"
}

// terms lists the words a lesson teaches.
func terms(l *script.Lesson) []TermText {
	list := []TermText{}
	for _, t := range l.Terms {
		list = append(list, TermText{ID: t.ID(), Word: t.Word, Means: t.Means})
	}
	return list
}

func pick(yes bool, a, b string) string {
	if yes {
		return a
	}
	return b
}

// prose words a text of the lesson with the facts of a log.
func (t *Tutor) prose(text script.Prose, log *script.Log) []Paragraph {
	paragraphs := make([]Paragraph, 0, len(text))
	for _, block := range text {
		p := Paragraph{Kind: block.Kind.String()}
		for _, r := range block.Runs {
			piece := Piece{Text: r.Text, Strong: r.Strong, Emph: r.Emph, Code: r.Code, Href: r.Href}
			if r.Fact != nil {
				piece.Text, piece.Fact = t.fact(r.Fact, log), true
			} else if r.Strong && r.Href == "" {
				piece.Href = t.glossary(r.Text)
			}
			p.Runs = append(p.Runs, piece)
		}
		paragraphs = append(paragraphs, p)
	}
	return paragraphs
}

// glossary returns the link to a word of the trade that some lesson teaches,
// "" for any other word.
func (t *Tutor) glossary(word string) string {
	for _, l := range t.lessons {
		for _, known := range l.Contents().Words {
			if term := (script.Term{Word: known}); term.Is(word) {
				return "glossary.html#" + term.ID()
			}
		}
	}
	return ""
}

// fact words a fact. One that the run does not bear out, which a checked
// lesson has none of, is said to be unknown.
func (t *Tutor) fact(f *script.Fact, log *script.Log) string {
	value, ok := f.Value(log)
	if !ok {
		return t.words(phrase.Of("lesson.fact-unknown"))
	}
	if value.Name != "" {
		return value.Name
	}
	return t.words(value.Words)
}

// line words a text as bare words on one line.
func (t *Tutor) line(text script.Prose, log *script.Log) string {
	var b strings.Builder
	for i, p := range t.prose(text, log) {
		if i > 0 {
			b.WriteByte(' ')
		}
		for _, r := range p.Runs {
			b.WriteString(r.Text)
		}
	}
	return b.String()
}
