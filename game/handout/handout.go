// Package handout sets a worksheet in type: A4 pages as HTML, with the machine
// at each frozen frame as a picture in SVG, room to answer, and the answers on
// sheets of their own.
//
// A page is a table whose foot repeats on every printed page. Pictures are
// written once and used by every copy of a set.
package handout

import (
	_ "embed"
	"encoding/base64"
	"fmt"
	"html"
	"io"
	"strings"

	"wheelroom/game/figure"
	"wheelroom/game/scene"
	"wheelroom/game/svg"
	"wheelroom/game/timeline"
	"wheelroom/lessons/script"
	"wheelroom/lessons/sheet"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// Style is the style sheet of the pages.
//
//go:embed sheet.css
var Style string

// Options are what a handout is made with.
type Options struct {
	Words    func(phrase.Phrase) string
	Language string // of the words, as HTML names it
	Address  string // of the page, without a #; "" leaves the links out
	Version  string // of the program; "" leaves it out
	Copies   int    // of a class set; 0 for one sheet in the lesson's own order
	Seed     uint64
	Answers  bool // put the answers and the key behind

	// Fonts as woff2; given, a whole document looks the same where the face is
	// not installed.
	Regular, Bold []byte
}

// Write writes a whole document that needs nothing else. Its errors are those
// of w.
func Write(w io.Writer, s *sheet.Sheet, o Options) error {
	_, err := fmt.Fprintf(w, "<!DOCTYPE html>\n<html lang=\"%s\">\n<head>\n<meta charset=\"utf-8\">\n<title>%s</title>\n<style>\n%s%s</style>\n</head>\n<body>\n%s</body>\n</html>\n",
		html.EscapeString(o.Language), html.EscapeString(o.Words(phrase.Of("sheet.title", "lesson", s.Title))), faces(o), Style, Pages(s, o))
	return err
}

// faces puts the fonts into the document.
func faces(o Options) string {
	var b strings.Builder
	for i, data := range [][]byte{o.Regular, o.Bold} {
		if data != nil {
			fmt.Fprintf(&b, "@font-face { font-family: \"Atkinson Hyperlegible Next\"; font-weight: %d; src: url(data:font/woff2;base64,%s); }\n",
				400+300*i, base64.StdEncoding.EncodeToString(data))
		}
	}
	return b.String()
}

// Pages returns the pages alone, to stand in a page that has the Style.
func Pages(s *sheet.Sheet, o Options) string {
	p := press{s: s, o: o, copies: []sheet.Copy{s.Plain()}}
	if o.Copies > 0 {
		p.copies = s.Set(min(o.Copies, sheet.MostCopies), o.Seed)
	}
	p.pictures()
	for _, c := range p.copies {
		for i := range s.Items {
			p.item(c, i)
		}
	}
	if o.Answers {
		p.answers()
		if o.Copies > 0 {
			p.key()
		}
	}
	return p.b.String()
}

// A press is one handout being written.
type press struct {
	s      *sheet.Sheet
	o      Options
	copies []sheet.Copy
	b      strings.Builder
}

// The size of a picture on paper, units of the scene: 180 mm wide, with labels
// of 7.5 points and more.
const pictureW, pictureH = 640, 430

// Ink is the palette of paper that may be copied without colours: every role
// stands 7 to 1 or better against white, the lamp apart, which is a surface
// with an edge of ink.
var Ink = func() figure.Palette {
	p := figure.PaperProjector
	white := p[figure.Ground]
	white.R, white.G, white.B = 255, 255, 255
	p[figure.Ground], p[figure.Panel] = white, white
	return p
}()

// Picture draws a machine as it stands, at the size it has on paper.
func Picture(machine *lift.Machine, words func(phrase.Phrase) string) *figure.Figure {
	run := timeline.Follow(machine)
	m := run.Machine()
	s := scene.New(m.Plan(), m.Wiring(), scene.Options{Width: pictureW, Height: pictureH, Words: words})
	var whole figure.Figure
	whole.Reset(pictureW, pictureH)
	var view lift.View
	m.Look(&view)
	moving := s.Moving(&view, run.Chart())
	whole.Append(s.Still())
	whole.Append(moving)
	return &whole
}

// pictures writes every picture once, out of sight.
func (p *press) pictures() {
	p.raw(`<svg class="pictures" width="0" height="0" aria-hidden="true">` + "\n")
	for i := range p.s.Items {
		fmt.Fprintf(&p.b, `<g id="picture-%d">`+"\n", i+1)
		// The only errors are those of the writer, and a builder has none.
		_ = svg.Write(&p.b, Picture(p.s.Items[i].Machine, p.o.Words), &Ink, svg.Options{ID: fmt.Sprintf("p%d-", i+1), Bare: true})
		p.raw("</g>\n")
	}
	p.raw("</svg>\n")
}

// item sets one item of one copy on a page of its own.
func (p *press) item(c sheet.Copy, i int) {
	it := &p.s.Items[i]
	p.open(p.count(i, c), p.s.Title)
	p.raw("<h2>")
	p.text(it.Asked.ItemTitle)
	p.raw("</h2>\n")
	p.prose(it.Asked.Lead)
	fmt.Fprintf(&p.b, `<svg class="picture" viewBox="0 0 %d %d" role="img" aria-label="%s"><use href="#picture-%d"/></svg>`+"\n",
		pictureW, pictureH, html.EscapeString(p.say("sheet.picture", "item", it.Asked.ItemTitle)), i+1)
	if it.Asked.Kind == script.Worked {
		p.prose(it.Asked.Question)
		p.prose(it.Told.Notes)
		p.prose(it.Told.Explanation)
	} else {
		p.raw(`<div class="question">` + "\n")
		p.prose(it.Asked.Question)
		p.raw("</div>\n")
		p.room(c, i)
	}
	if i == 0 {
		p.terms()
	}
	p.close(i)
}

// terms lists the words the lesson teaches.
func (p *press) terms() {
	if len(p.s.Terms) == 0 {
		return
	}
	p.raw(`<dl class="terms">`)
	for _, t := range p.s.Terms {
		p.raw("<div><dt>")
		p.text(t.Word)
		p.raw("</dt><dd>")
		p.text(t.Means)
		p.raw("</dd></div>")
	}
	p.raw("</dl>\n")
}

// count heads a page: which item of how many, and of which copy.
func (p *press) count(i int, c sheet.Copy) string {
	head := p.say("sheet.item", "item", i+1, "items", len(p.s.Items))
	if c.Number > 0 {
		head += " · " + p.say("sheet.copy", "copy", c.Number, "copies", len(p.copies))
	}
	return head
}

// open begins a page.
func (p *press) open(left, right string) {
	p.raw(`<table class="sheet" role="presentation"><tbody><tr><td>` + "\n" + `<p class="running"><span>`)
	p.text(left)
	p.raw("</span><span>")
	p.text(right)
	p.raw("</span></p>\n")
}

// close ends a page with what stands at the foot of each: the caution, the
// exact link, the versions. Item is -1 where a page is of the whole lesson.
func (p *press) close(item int) {
	p.raw(`</td></tr></tbody><tfoot><tr><td><p class="caution">`)
	p.text(p.say("sheet.caution"))
	p.raw("</p>\n")
	p.raw(`<p class="source"><span>`)
	if p.o.Address != "" {
		link := p.o.Address + "#lesson=" + p.s.ID + "&item=" + fmt.Sprint(max(item, 0)+1)
		fmt.Fprintf(&p.b, `<a href="%s">`, html.EscapeString(link))
		p.text(link)
		p.raw("</a>")
	}
	p.raw("</span><span>")
	p.text(p.say("sheet.edition", "lesson", p.s.ID, "edition", p.s.Edition))
	if p.o.Version != "" {
		p.text(" · " + p.o.Version)
	}
	p.raw("</span></p></td></tr></tfoot></table>\n")
}

func (p *press) say(id string, pairs ...any) string { return p.o.Words(phrase.Of(id, pairs...)) }

func (p *press) raw(markup string) { p.b.WriteString(markup) }

func (p *press) text(s string) { p.b.WriteString(html.EscapeString(s)) }

// prose sets a text of the lesson. It arrives as pieces of plain text.
func (p *press) prose(paragraphs []tutor.Paragraph) {
	list := ""
	end := func() {
		if list != "" {
			p.raw("</" + list + ">\n")
		}
		list = ""
	}
	for _, block := range paragraphs {
		tag := map[string]string{"bullet": "ul", "numbered": "ol"}[block.Kind]
		if tag != list {
			end()
			if list = tag; tag != "" {
				p.raw("<" + tag + ">")
			}
		}
		item := "p"
		if tag != "" {
			item = "li"
		}
		p.raw("<" + item + ">")
		for _, r := range block.Runs {
			style := ""
			switch {
			case r.Fact:
				style = "b"
			case r.Strong:
				style = "strong"
			case r.Emph:
				style = "em"
			case r.Code:
				style = "code"
			}
			if style == "" {
				p.text(r.Text)
				continue
			}
			p.raw("<" + style + ">")
			p.text(r.Text)
			p.raw("</" + style + ">")
		}
		p.raw("</" + item + ">\n")
	}
	end()
}
