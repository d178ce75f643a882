package handout

import (
	"fmt"
	"html"
	"math"
	"strconv"

	"wheelroom/lessons/script"
	"wheelroom/lessons/sheet"
)

// room leaves the room an answer of this kind needs, then asks how sure the
// learner is, why, and what happened.
func (p *press) room(c sheet.Copy, i int) {
	it := &p.s.Items[i]
	p.raw(`<div class="answer">` + "\n")
	switch task := it.Asked.Task; it.Asked.Kind {
	case script.ChooseOne, script.ChooseSeveral, script.PointAtPart, script.FaultyPart:
		hint := "sheet.tick-one"
		if it.Asked.Kind == script.ChooseSeveral {
			hint = "sheet.tick-several"
		}
		p.hint(p.say(hint))
		p.letters(c, i)
	case script.OrderStops:
		p.hint(p.say("sheet.order"))
		p.raw(`<p class="boxes">`)
		for k := range min(len(task.Floors), 8) {
			fmt.Fprintf(&p.b, `<span class="place">%d.<span class="blank"></span></span>`, k+1)
		}
		p.raw("</p>\n")
	case script.SetSwitches:
		p.hint(p.say("sheet.switches"))
		p.raw(`<table class="stands"><tbody>`)
		for k := len(task.Floors) - 1; k >= 0; k-- { // the highest on top, as in the shaft
			p.raw("<tr><th scope=\"row\">")
			p.text(task.Floors[k].Text)
			p.raw("</th>")
			for _, stand := range task.Stands {
				p.raw(`<td><span class="tick-box"></span>`)
				p.text(stand.Text)
				p.raw("</td>")
			}
			p.raw("</tr>")
		}
		p.raw("</tbody></table>\n")
	case script.ReadNumber:
		p.hint(task.Tolerance)
		p.raw(`<p class="number"><span class="blank wide"></span> `)
		p.text(task.Unit)
		p.raw("</p>\n")
	case script.LampOut:
		p.hint(p.say("sheet.moment") + " " + task.Tolerance)
		p.line(task.SpanS)
	}
	p.raw(`<p class="sure">`)
	p.text(p.say("sheet.sure"))
	for _, id := range []string{"sheet.sure-1", "sheet.sure-2", "sheet.sure-3"} {
		p.raw(` <span class="sure-one"><span class="tick-box"></span>`)
		p.text(p.say(id))
		p.raw("</span>")
	}
	p.raw("</p>\n")
	p.lines("sheet.why", 3)
	p.lines("sheet.seen", 2)
	p.raw("</div>\n")
}

func (p *press) hint(text string) {
	if text != "" {
		p.raw(`<p class="hint">`)
		p.text(text)
		p.raw("</p>\n")
	}
}

// letters lists what is offered, in the copy's own order.
func (p *press) letters(c sheet.Copy, i int) {
	offered := p.s.Items[i].Offered()
	p.raw(`<ol class="letters">`)
	for at, place := range c.Orders[i] {
		fmt.Fprintf(&p.b, `<li><span class="tick-box"></span><b>%s</b> <span>%s</span></li>`, sheet.Letter(at), html.EscapeString(offered[place].Text))
	}
	p.raw("</ol>\n")
}

// lines leaves ruled lines under a few words.
func (p *press) lines(id string, count int) {
	p.raw(`<div class="lines"><p>`)
	p.text(p.say(id))
	p.raw("</p>")
	for range count {
		p.raw(`<div class="rule"></div>`)
	}
	p.raw("</div>\n")
}

// line draws a time line to mark an instant on, seconds from the frozen frame.
func (p *press) line(spanS float64) {
	const w, left = 640.0, 12.0
	step := 1.0
	for spanS/step > 12 {
		step *= 5
	}
	x := func(s float64) string { return strconv.FormatFloat(left+s/spanS*(w-2*left), 'f', 2, 64) }
	fmt.Fprintf(&p.b, `<svg class="timeline" viewBox="0 0 %g 34" aria-hidden="true"><path d="M%g 12H%g`, w, left, w-left)
	for k := 0; float64(k)*step/5 <= spanS+1e-9; k++ {
		tall := 4
		if k%5 == 0 {
			tall = 9
		}
		fmt.Fprintf(&p.b, "M%s %dv%d", x(float64(k)*step/5), 12-tall, 2*tall)
	}
	p.raw(`" stroke="#000" fill="none"/>`)
	for k := 0; k <= int(math.Floor(spanS/step+1e-9)); k++ {
		fmt.Fprintf(&p.b, `<text x="%s" y="33" text-anchor="middle" font-size="10">%g s</text>`, x(float64(k)*step), float64(k)*step)
	}
	p.raw("</svg>\n")
}

// answers sets the right answers with their explanations on sheets of their
// own.
func (p *press) answers() {
	p.open(p.say("sheet.answers"), p.s.Title)
	p.raw("<h2>")
	p.text(p.say("sheet.answers"))
	p.raw("</h2>\n")
	plain := p.s.Plain()
	for i := range p.s.Items {
		it := &p.s.Items[i]
		if it.Asked.Kind == script.Worked {
			continue
		}
		p.raw(`<section class="key-item"><h3>`)
		p.text(fmt.Sprintf("%d. %s", i+1, it.Asked.ItemTitle))
		p.raw("</h3>\n")
		p.raw(`<p class="right">`)
		answer := it.Told.Outcome.Text
		if key := p.s.Key(plain, i); len(p.copies) == 1 && it.Offered() != nil {
			answer = key + ": " + answer
		}
		p.text(p.say("sheet.right", "answer", answer))
		p.raw("</p>\n")
		p.prose(it.Told.Explanation)
		for k, o := range it.Offered() {
			if it.Right(k) || len(o.Because) == 0 {
				continue
			}
			p.raw(`<p class="wrong">`)
			p.text(p.say("sheet.wrong", "answer", o.Text))
			p.raw("</p>\n")
			p.prose(o.Because)
		}
		p.raw("</section>\n")
	}
	p.close(-1)
}

// key sets the letters of a class set, one row a copy.
func (p *press) key() {
	p.open(p.say("sheet.key"), p.s.Title)
	p.raw("<h2>")
	p.text(p.say("sheet.key"))
	p.raw("</h2>\n<p>")
	p.text(p.say("sheet.key-hint", "seed", fmt.Sprint(p.o.Seed)))
	p.raw("</p>\n" + `<table class="key"><thead><tr><th scope="col">`)
	p.text(p.say("sheet.key-copy"))
	p.raw("</th>")
	for i := range p.s.Items {
		if p.s.Items[i].Asked.Kind != script.Worked {
			fmt.Fprintf(&p.b, `<th scope="col">%d</th>`, i+1)
		}
	}
	p.raw("</tr></thead><tbody>\n")
	for _, c := range p.copies {
		fmt.Fprintf(&p.b, `<tr><th scope="row">%d</th>`, c.Number)
		for i := range p.s.Items {
			if p.s.Items[i].Asked.Kind != script.Worked {
				p.raw("<td>")
				p.text(p.s.Key(c, i))
				p.raw("</td>")
			}
		}
		p.raw("</tr>\n")
	}
	p.raw("</tbody></table>\n")
	p.close(-1)
}
