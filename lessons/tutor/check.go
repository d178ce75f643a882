package tutor

import (
	"fmt"
	"math"
	"strings"

	"wheelroom/lessons/script"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// Check runs every item of a lesson to its end and returns what is wrong,
// placed in the lesson's file: a condition that does not come about in time,
// an input that is never made or that the machine refuses, a fact that the run
// does not bear out, a question without a right answer, a wrong answer that
// turns out right, an answer that nothing explains.
func Check(lesson *script.Lesson, make Maker) []document.Problem {
	var problems []document.Problem
	for i := range lesson.Items {
		c := checker{lesson: lesson, item: &lesson.Items[i]}
		c.check(make)
		problems = append(problems, c.problems...)
	}
	document.Sort(problems)
	return script.Limited(problems)
}

// CheckFile reads a lesson file, known as name, and checks it. The lesson is
// nil when it cannot be read at all.
func CheckFile(name string, text []byte, buildings script.Buildings, make Maker) (*script.Lesson, []document.Problem) {
	lesson, problems := script.Read(name, text, buildings)
	if lesson != nil {
		problems = append(problems, Check(lesson, make)...)
		document.Sort(problems)
	}
	return lesson, script.Limited(problems)
}

type checker struct {
	lesson   *script.Lesson
	item     *script.Item
	run      *run
	problems []document.Problem
}

// wrong places a problem at a path below the item.
func (c *checker) wrong(path, near string, what phrase.Phrase) {
	c.problems = append(c.problems, c.lesson.Problem(c.item.Path+path, near, what))
}

func (c *checker) check(make Maker) {
	var err error
	if c.run, err = begin(c.item, make); err != nil {
		c.wrong("", "", phrase.Of("lesson.no-machine", "reason", err.Error()))
		return
	}
	if !c.stretch(".lead.until", c.item.Lead.Until, c.item.Lead.Speed) {
		return
	}
	c.inputs()
	c.run.freeze()
	c.facts(".question.text", c.item.Question)
	for i, o := range c.item.Options {
		c.facts(fmt.Sprintf(".options[%d].text", i), o.Text)
	}
	for i, s := range c.item.Segments {
		if !c.stretch(fmt.Sprintf(".segments[%d].until", i), s.Until, s.Speed) {
			return
		}
		c.run.log.Whys = c.run.whys(false)
		c.facts(fmt.Sprintf(".segments[%d].text", i), s.Text)
	}
	c.inputs()
	c.facts(".summary", c.item.Summary)
	for i, e := range c.item.Chain {
		if len(c.run.log.Chain([]script.Event{e})) == 0 {
			c.wrong(fmt.Sprintf(".chain[%d]", i), "", phrase.Of("lesson.chain-not-in-run", "event", e.String()))
		}
	}
	c.answers()
}

// patienceS is how long a condition is waited for beyond its time, to say when
// it would have come about, seconds of the machine.
const patienceS = 120.0

// stretch runs to the end of a stretch and reports whether it came about at
// all.
func (c *checker) stretch(path string, until script.Until, speed float64) bool {
	r := c.run
	r.stretch()
	for !until.Reached(&r.log, r.before, r.since) {
		switch {
		case r.view.Stopped != "":
			c.wrong(path, "", phrase.Of("lesson.machine-stopped", "why", phrase.Of(r.view.Stopped)))
			return false
		case r.log.NowS-r.since > patienceS:
			c.wrong(path, "", phrase.Of("lesson.never-happens", "event", until.String(), "seconds", phrase.Num(patienceS, 0)))
			return false
		}
		r.beat()
	}
	if lasts := r.log.NowS - r.since; lasts > script.MotionS*speed+beatS/2 {
		c.wrong(path, "", phrase.Of("lesson.lasts-too-long", "seconds", phrase.Num(lasts/speed, 1),
			"most", phrase.Num(script.MotionS, 0), "speed", phrase.Num(math.Ceil(lasts/script.MotionS*100)/100, 2)))
	}
	return true
}

// inputs reports those of the part just over that came too late for it, and
// those the machine would not take.
func (c *checker) inputs() {
	for _, late := range c.run.inputs[c.run.done:] {
		c.problems = append(c.problems, c.lesson.Problem(late.Path, "", phrase.Of("lesson.input-never-made", "input", late.Name, "seconds", phrase.Num(late.AtS, 2))))
	}
	for _, bad := range c.run.refused {
		c.problems = append(c.problems, c.lesson.Problem(bad.input.Path, "", phrase.Of("lesson.input-refused", "input", bad.input.Name, "why", bad.why)))
	}
	c.run.refused = nil
}

// facts reports the facts of a text that the run so far does not bear out.
func (c *checker) facts(path string, text script.Prose) {
	for _, f := range text.Facts() {
		if _, ok := f.Value(&c.run.log); !ok {
			c.wrong(path, "{"+f.Written+"}", phrase.Of("lesson.fact-not-in-run", "found", f.Written))
		}
	}
}

// answers reports a question with no right answer or with too many, a wrong
// one that turns out right, and an answer that nothing explains.
func (c *checker) answers() {
	item, log := c.item, &c.run.log
	if !item.Asks() {
		return
	}
	if item.Chooses() {
		c.options()
		return
	}
	truth, ok := item.Form.Truth(log)
	if !ok {
		c.wrong(".question", "", phrase.Of("lesson.no-truth", "stops", c.stops()))
		return
	}
	explained := map[string]bool{}
	for i, a := range item.Answers {
		c.facts(fmt.Sprintf(".answers[%d].because", i), a.Because)
		explained[a.Is] = true
		if a.Is == truth {
			c.wrong(fmt.Sprintf(".answers[%d].is", i), "", phrase.Of("lesson.answer-right", "found", a.Is))
		}
	}
	for _, class := range item.Form.Classes(log) {
		if !explained[class] && !explained[script.Other] {
			c.wrong(".answers", "", phrase.Of("lesson.class-unexplained", "class", class))
		}
	}
}

func (c *checker) options() {
	right, several := 0, c.item.Kind == script.ChooseSeveral
	for i, o := range c.item.Options {
		path := fmt.Sprintf(".options[%d]", i)
		c.facts(path+".because", o.Because)
		if !o.Claim.Holds(&c.run.log) {
			continue
		}
		if o.Tempting && !several {
			c.wrong(path, "", phrase.Of("lesson.tempting-right"))
		}
		if right++; right > 1 && !several {
			c.wrong(path, "", phrase.Of("lesson.two-right"))
		}
	}
	if right == 0 {
		c.wrong(".options", "", phrase.Of("lesson.none-right", "stops", c.stops()))
	}
	if c.unfinished() {
		p := c.lesson.Problem(c.item.Path+".segments", "", phrase.Of("lesson.calls-left"))
		p.Warning = true
		c.problems = append(c.problems, p)
	}
}

// stops says where the car stopped, for the message to an author.
func (c *checker) stops() phrase.Phrase {
	floors := c.run.log.Stops()
	if len(floors) == 0 {
		return phrase.Of("lesson.no-stops")
	}
	return phrase.Of("lesson.stops", "floors", strings.Join(floors, ", "))
}

// unfinished reports whether options speak of all the stops while a call is
// still waiting at the end of the run.
func (c *checker) unfinished() bool {
	says := false
	for _, o := range c.item.Options {
		says = says || o.Claim.Stops != nil
	}
	if !says {
		return false
	}
	for i, part := range c.run.machine.Wiring().Coils {
		if strings.HasPrefix(part, "call") && c.run.view.Relays[i] {
			return true
		}
	}
	return false
}
