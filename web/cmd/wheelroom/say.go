package main

import (
	"io"
	"strings"

	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// complaints is standard error, apart from standard output by its type.
type complaints interface{ io.Writer }

// A speaker puts phrases into words.
type speaker func(phrase.Phrase) string

// bad is the error of bad input, in words; without any, all has been said.
type bad struct{ text string }

func (b bad) Error() string { return b.text }

// usage is the error of a command line that cannot be meant.
type usage struct{ text string }

func (u usage) Error() string { return u.text }

// stopped is the error of work that was broken off from outside.
type stopped struct{ text string }

func (s stopped) Error() string { return s.text }

// problem says what is wrong with a file, as FILE:LINE:COL: words.
func (s speaker) problem(p document.Problem) string {
	if !p.Warning {
		return p.Format(s)
	}
	return p.Format(func(what phrase.Phrase) string { return s(phrase.Of("command.warning", "text", what)) })
}

// list is the error of a file that cannot be used: every line of it.
func (s speaker) list(problems []document.Problem) error {
	var lines []string
	for _, p := range problems {
		lines = append(lines, s.problem(p))
	}
	return bad{strings.Join(lines, "\n")}
}
