package tutor

import (
	"strings"

	"wheelroom/lessons/script"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// A Task says how the question of an item is answered: what a page needs to
// lay out its controls. Which of its fields are used depends on the kind. An
// answer is spelled as script.Form says: identities of options, floors in
// order, FLOOR:STAND, the name of a part, or a number with a point.
type Task struct {
	Several   bool     `json:"several,omitempty"`   // of choose-one and choose-several: more than one may be chosen
	Floors    []Choice `json:"floors,omitempty"`    // of order-stops and set-switches
	Stands    []Choice `json:"stands,omitempty"`    // of set-switches
	Parts     []Choice `json:"parts,omitempty"`     // of point-at-part and faulty-part
	Unit      string   `json:"unit,omitempty"`      // of read-number
	Tolerance string   `json:"tolerance,omitempty"` // in words: how near is right
	SpanS     float64  `json:"span_s,omitempty"`    // of lamp-out: the length of the time line
}

// task describes the question's controls.
func (t *Tutor) task() *Task {
	item := t.item()
	if !item.Asks() {
		return nil
	}
	out := &Task{Several: item.Kind == script.ChooseSeveral}
	switch item.Kind {
	case script.OrderStops, script.SetSwitches:
		for _, f := range item.Form.(interface{ Offered() []string }).Offered() {
			out.Floors = append(out.Floors, Choice{ID: f, Text: t.words(phrase.Of("lesson.answer-floor", "floor", f))})
		}
		if item.Kind == script.SetSwitches {
			for _, s := range script.Stands() {
				out.Stands = append(out.Stands, Choice{ID: s, Text: t.words(phrase.Of("lesson.stand-" + s))})
			}
		}
	case script.PointAtPart, script.FaultyPart:
		for _, p := range item.Form.(interface{ Offered() []string }).Offered() {
			out.Parts = append(out.Parts, Choice{ID: p, Text: t.words(script.PartName(lift.Part(p)))})
		}
	case script.ReadNumber:
		n := item.Form.(interface {
			Unit() script.Unit
			Tolerance() phrase.Phrase
		})
		out.Unit = t.words(n.Unit().Sign())
		if exact := n.Tolerance(); exact.ID != "" {
			out.Tolerance = t.words(phrase.Of("lesson.within", "tolerance", exact))
		}
	case script.LampOut:
		m := item.Form.(interface {
			SpanS() float64
			Tolerance() phrase.Phrase
		})
		out.SpanS, out.Tolerance = m.SpanS(), t.words(phrase.Of("lesson.within", "tolerance", m.Tolerance()))
	}
	return out
}

// say words an answer of the open item; "" words to "".
func (t *Tutor) say(answer string, log *script.Log) string {
	item := t.item()
	if answer == "" || !item.Asks() {
		return ""
	}
	if !item.Chooses() {
		return t.words(item.Form.Say(answer))
	}
	var texts []string
	for _, id := range strings.Fields(answer) {
		if o := item.Option(id); o != nil {
			texts = append(texts, t.line(o.Text, log))
		}
	}
	return strings.Join(texts, t.words(phrase.Of("lesson.between-options")))
}

// A Light is one step of the explanation in the picture: a part that changed,
// and when. A page lights them one after another.
type Light struct {
	Part  string  `json:"part"`
	TimeS float64 `json:"time_s"`
	Text  string  `json:"text"` // "20.4 s: up relay in"
}

// chain is what brought the item's events about, in causal order.
func (t *Tutor) chain() []Light {
	list := []Light{}
	for _, i := range t.finished.Chain(t.item().Chain) {
		e := &t.finished.Events[i]
		list = append(list, Light{Part: string(e.Part), TimeS: e.TimeS, Text: t.words(script.Happening(e))})
	}
	return list
}
