package script

import (
	"strings"
	"unicode/utf8"

	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// A complaint is something wrong with the value at path; near is a piece of
// the value that stands where it is wrong, "" for the value's beginning.
type complaint struct {
	path, near string
	what       phrase.Phrase
}

// Problem places what is wrong with a value of the lesson's file: at the text
// near inside it, or, with near "" or not to be found, at the value itself.
func (l *Lesson) Problem(path, near string, what phrase.Phrase) document.Problem {
	return place(l.file, l.text, []complaint{{path, near, what}})[0]
}

// place gives complaints their lines and columns. The text is parsed once.
func place(name string, text []byte, complaints []complaint) []document.Problem {
	if len(complaints) == 0 {
		return nil
	}
	var paths []document.Problem
	seen := map[string]bool{}
	for _, c := range complaints {
		if !seen[c.path] {
			seen[c.path] = true
			paths = append(paths, document.Problem{Path: c.path})
		}
	}
	document.Place(name, text, paths)
	at := map[string]document.Problem{}
	for _, p := range paths {
		at[p.Path] = p
	}
	lines := strings.Split(strings.TrimPrefix(string(text), "\ufeff"), "\n")
	problems := make([]document.Problem, len(complaints))
	for i, c := range complaints {
		p := at[c.path]
		p.Phrase = c.what
		if c.near != "" && p.Line > 0 {
			p.Line, p.Col = seek(lines, p.Line, p.Col, c.near)
		}
		problems[i] = p
	}
	return problems
}

// farLines is how many lines below the beginning of a value a piece of it is
// looked for: more than the longest text a lesson may hold has.
const farLines = 400

// seek finds a piece of text at or after a place; the place itself if it is
// not there as it stands.
func seek(lines []string, line, col int, piece string) (int, int) {
	for i := line - 1; i < min(len(lines), line+farLines); i++ {
		from := 0
		if i == line-1 {
			from = runeOffset(lines[i], col-1)
		}
		if at := strings.Index(lines[i][from:], piece); at >= 0 {
			return i + 1, utf8.RuneCountInString(lines[i][:from+at]) + 1
		}
	}
	return line, col
}

// runeOffset returns where the n-th character of s begins, in bytes.
func runeOffset(s string, n int) int {
	for i := range s {
		if n == 0 {
			return i
		}
		n--
	}
	return len(s)
}
