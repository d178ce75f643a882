package script

import (
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"

	"wheelroom/physics/phrase"
)

// Prose is a text of a lesson: paragraphs and flat lists, parsed from
// Markdown. It carries no markup, so whoever shows it cannot be made to run
// anything; raw HTML, pictures, headings and links that leave the page are
// refused when it is read.
type Prose []Block

// A Block is one paragraph or one item of a list.
type Block struct {
	Kind BlockKind
	Runs []Run
}

// BlockKind says how a block is set.
type BlockKind uint8

// The kinds of block.
const (
	Paragraph BlockKind = iota
	Bullet
	Numbered
)

// String returns the kind's name as a page receives it.
func (k BlockKind) String() string { return [...]string{"paragraph", "bullet", "numbered"}[k] }

// A Run is a stretch of text in one style. With a Fact its Text is the fact
// as it was written, and what is shown is computed from a run of the machine.
type Run struct {
	Text   string
	Strong bool
	Emph   bool
	Code   bool
	Href   string // a relative link, "" for none
	Fact   *Fact
}

// Plain returns the prose as bare text, one line a block, facts as they were
// written.
func (p Prose) Plain() string {
	var b strings.Builder
	for i, block := range p {
		if i > 0 {
			b.WriteByte('\n')
		}
		for _, r := range block.Runs {
			b.WriteString(r.Text)
		}
	}
	return b.String()
}

// Facts returns the facts the prose asks for, in order.
func (p Prose) Facts() []*Fact {
	var facts []*Fact
	for _, block := range p {
		for _, r := range block.Runs {
			if r.Fact != nil {
				facts = append(facts, r.Fact)
			}
		}
	}
	return facts
}

// longestProse bounds one text of a lesson, bytes: some eight hundred words,
// more than anybody reads beside a moving machine.
const longestProse = 6000

// A flaw is something wrong inside a text, before it has a place in a file:
// near is a piece of the text that stands where the flaw is, "" for its start.
type flaw struct {
	near string
	what phrase.Phrase
}

var markdown = parser.NewParser(
	parser.WithBlockParsers(parser.DefaultBlockParsers()...),
	parser.WithInlineParsers(parser.DefaultInlineParsers()...),
)

// parseProse reads Markdown. It returns what could be read and every flaw.
func parseProse(source string) (Prose, []flaw) {
	if len(source) > longestProse {
		return nil, []flaw{{"", phrase.Of("lesson.prose-too-long", "found", len(source), "most", longestProse)}}
	}
	w := proseWalker{source: []byte(source)}
	for n := markdown.Parse(text.NewReader(w.source)).FirstChild(); n != nil; n = n.NextSibling() {
		w.block(n)
	}
	return w.prose, w.flaws
}

type proseWalker struct {
	source []byte
	prose  Prose
	flaws  []flaw
}

func (w *proseWalker) refuse(near, what string) {
	w.flaws = append(w.flaws, flaw{near, phrase.Of("lesson.prose-refused", "what", phrase.Of("lesson.prose."+what))})
}

// block takes a block at the top of the document, where lists may stand.
func (w *proseWalker) block(n ast.Node) {
	list, ok := n.(*ast.List)
	if !ok {
		w.leaf(n, Paragraph)
		return
	}
	kind := Bullet
	if list.IsOrdered() {
		kind = Numbered
	}
	for item := list.FirstChild(); item != nil; item = item.NextSibling() {
		body := item.FirstChild()
		if body == nil {
			continue
		}
		w.leaf(body, kind)
		if more := body.NextSibling(); more != nil {
			w.refuse(w.near(more), "nested-list")
		}
	}
}

// leaf takes a block that holds text and nothing else.
func (w *proseWalker) leaf(n ast.Node, kind BlockKind) {
	switch n.(type) {
	case *ast.Paragraph, *ast.TextBlock:
		b := Block{Kind: kind}
		w.inline(n, Run{}, &b)
		w.prose = append(w.prose, b)
	case *ast.HTMLBlock:
		w.refuse(w.near(n), "html")
	case *ast.List:
		w.refuse(w.near(n), "nested-list")
	case *ast.Heading:
		w.refuse(w.near(n), "heading")
	default:
		w.refuse(w.near(n), "block")
	}
}

// near returns the first line of a block, to find it again in the file.
func (w *proseWalker) near(n ast.Node) string {
	if n.Type() != ast.TypeBlock || n.Lines() == nil || n.Lines().Len() == 0 {
		return ""
	}
	first := n.Lines().At(0)
	return strings.TrimSpace(string(first.Value(w.source)))
}

// inline adds the text under n to the block, in the style of its ancestors.
func (w *proseWalker) inline(n ast.Node, style Run, b *Block) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			raw := c.Value(w.source)
			if !style.Code && !c.IsRaw() {
				raw = plain(raw)
			}
			w.text(string(raw), style, b)
			if c.SoftLineBreak() || c.HardLineBreak() {
				w.text(" ", style, b)
			}
		case *ast.String:
			w.text(string(c.Value), style, b)
		case *ast.Emphasis:
			inner := style
			if c.Level >= 2 {
				inner.Strong = true
			} else {
				inner.Emph = true
			}
			w.inline(c, inner, b)
		case *ast.CodeSpan:
			inner := style
			inner.Code = true
			w.inline(c, inner, b)
		case *ast.Link:
			inner := style
			inner.Href = string(c.Destination)
			if !relative(inner.Href) {
				w.refuse(inner.Href, "link")
				continue
			}
			w.inline(c, inner, b)
		case *ast.AutoLink:
			w.refuse(string(c.Label(w.source)), "link")
		case *ast.Image:
			w.refuse(string(c.Destination), "picture")
		case *ast.RawHTML:
			tag := c.Segments.At(0)
			w.refuse(string(tag.Value(w.source)), "html")
		default:
			w.refuse("", "block")
		}
	}
}

// text adds text to the block, joined to the run before it where the style is
// the same: the parser cuts text at every character that might have been
// markup, and a fact must come out whole.
func (w *proseWalker) text(s string, style Run, b *Block) {
	if k := len(b.Runs) - 1; k >= 0 {
		last := b.Runs[k]
		last.Text = ""
		if last == style {
			b.Runs[k].Text += s
			return
		}
	}
	style.Text = s
	b.Runs = append(b.Runs, style)
}

// plain resolves Markdown's escapes and character references.
func plain(raw []byte) []byte {
	return util.ResolveEntityNames(util.ResolveNumericReferences(util.UnescapePunctuations(raw)))
}

// relative reports whether a link stays on the page or beside it: no scheme,
// no host, no way up, and nothing a browser would strip to find a scheme.
func relative(href string) bool {
	for i := range len(href) {
		c := href[i]
		ok := c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || strings.IndexByte("-_.#/?=&", c) >= 0
		if !ok {
			return false
		}
	}
	return href != "" && href[0] != '/' && !strings.Contains(href, "..") && !strings.Contains(href, "//")
}
