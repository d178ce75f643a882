package script

import (
	"fmt"
	"strings"

	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// prose parses a text and its facts, and refuses facts that could not be told
// when the text is shown.
func (r *reader) prose(words *vocabulary, path, source string, told Needs) Prose {
	p, flaws := parseProse(source)
	for _, f := range flaws {
		r.wrong(path, f.near, f.what)
	}
	for i := range p {
		p[i].Runs = r.facts(words, path, p[i].Runs, told)
	}
	return p
}

// facts cuts the runs of a block at their braces.
func (r *reader) facts(words *vocabulary, path string, runs []Run, told Needs) []Run {
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
			if fact := r.fact(words, path, written, told); fact != nil {
				add(run, "{"+written+"}", fact)
			}
			rest = behind
		}
	}
	return out
}

func (r *reader) fact(words *vocabulary, path, written string, told Needs) *Fact {
	if words == nil {
		return nil
	}
	near := "{" + written + "}"
	fact, wrong, known := words.fact(written)
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

// Texts calls yield with every text of the lesson and its path in the file.
// What an item takes over from another is given where the item stands.
func (l *Lesson) Texts(yield func(path string, p Prose)) {
	yield("caution", l.Caution)
	for i := range l.Items {
		l.Items[i].Texts(yield)
	}
}

// Texts calls yield with every text of the item and its path in the file.
func (it *Item) Texts(yield func(path string, p Prose)) {
	yield(it.Path+".lead.text", it.Lead.Text)
	yield(it.Path+".question.text", it.Question)
	for k := range it.Options {
		yield(fmt.Sprintf("%s.options[%d].text", it.Path, k), it.Options[k].Text)
		yield(fmt.Sprintf("%s.options[%d].because", it.Path, k), it.Options[k].Because)
	}
	for k := range it.Answers {
		yield(fmt.Sprintf("%s.answers[%d].because", it.Path, k), it.Answers[k].Because)
	}
	for k := range it.Segments {
		yield(fmt.Sprintf("%s.segments[%d].text", it.Path, k), it.Segments[k].Text)
	}
	yield(it.Path+".summary", it.Summary)
}

// Whys lists the parts that the item's texts explain, as they stand when a
// text is told or as they stood at the frozen frame.
func (it *Item) Whys(frozen bool) []lift.Part {
	var parts []lift.Part
	it.Texts(func(_ string, p Prose) {
		for _, f := range p.Facts() {
			if f.Why != "" && f.Frozen == frozen {
				parts = append(parts, f.Why)
			}
		}
	})
	return parts
}
