package script

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// plainly spells letters that an address would rather not hold.
var plainly = strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss")

// ID names the term in an address: its word in lower case, with dashes.
func (t Term) ID() string {
	var b strings.Builder
	for _, r := range plainly.Replace(strings.ToLower(t.Word)) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0:
			b.WriteByte('-')
		}
	}
	return strings.TrimRight(b.String(), "-")
}

// endings are what a word of the trade may end in when it is bent, in the
// languages there are.
var endings = []string{"", "s", "es", "e", "n", "en", "er", "ern"}

// Is reports whether a word is the term, alone or bent.
func (t Term) Is(word string) bool {
	bent, begins := strings.CutPrefix(strings.ToLower(word), strings.ToLower(t.Word))
	return begins && slices.Contains(endings, bent)
}

// Untaught returns every use of a trade word in a text of a lesson that comes
// before the lesson that teaches it, in the order of the course. A word that a
// lesson teaches may stand anywhere in that lesson.
func Untaught(course []*Lesson) []document.Problem {
	var problems []document.Problem
	taught := map[string]bool{}
	for i, l := range course {
		for _, t := range l.Terms {
			taught[t.Word] = true
		}
		var found []complaint
		for _, later := range course[i+1:] {
			for _, t := range later.Terms {
				if taught[t.Word] {
					continue
				}
				l.Texts(func(path string, p Prose) {
					if near := mentions(p, t.Word); near != "" {
						found = append(found, complaint{path, near, phrase.Of("lesson.term-too-early", "word", t.Word, "lesson", later.ID)})
					}
				})
			}
		}
		problems = append(problems, place(l.file, l.text, found)...)
	}
	return problems
}

// TaughtTwice returns terms that a lesson explains although one before it in
// the course has done so.
func TaughtTwice(course []*Lesson) []document.Problem {
	var problems []document.Problem
	where := map[string]string{}
	for _, l := range course {
		var found []complaint
		for _, t := range l.Terms {
			word := strings.ToLower(t.Word)
			if first, twice := where[word]; twice {
				found = append(found, complaint{"terms", t.Word, phrase.Of("lesson.term-twice", "word", t.Word, "lesson", first)})
				continue
			}
			where[word] = l.ID
		}
		problems = append(problems, place(l.file, l.text, found)...)
	}
	return problems
}

// mentions returns the term as a text first uses it, as words of their own, ""
// if it does not.
func mentions(p Prose, word string) string {
	text := p.Plain()
	lower, want := strings.ToLower(text), strings.ToLower(word)
	if len(lower) != len(text) { // a letter whose lower case has another length
		text = lower
	}
	for from := 0; ; {
		at := strings.Index(lower[from:], want)
		if at < 0 {
			return ""
		}
		at += from
		end := at + len(want)
		from = end
		rest := strings.TrimPrefix(strings.TrimPrefix(lower[end:], "e"), "s")
		if !runsOn(last(lower[:at])) && !letter(first(rest)) {
			return text[at:end]
		}
	}
}

func first(s string) rune {
	for _, r := range s {
		return r
	}
	return ' '
}

func last(s string) rune {
	r, size := utf8.DecodeLastRuneInString(s)
	if size == 0 {
		return ' '
	}
	return r
}

func letter(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) }

// runsOn reports whether a word behind this is part of another, or of the name
// of a fact.
func runsOn(r rune) bool { return letter(r) || r == '.' || r == '{' || r == '-' }
