package main

import (
	"cmp"
	"slices"
	"strings"

	"wheelroom/web/program"
)

// A term is one word of the trade, as the glossary lists it.
type term struct {
	ID          string // its place on the page
	Word, Means string
	Lesson      string // identity of the lesson that teaches it
	Title       string // of that lesson
}

// glossary lists the words that the lessons teach, by the alphabet.
func glossary() []term {
	var list []term
	for _, l := range program.Lessons() {
		l.Open()
		for _, t := range l.Terms {
			list = append(list, term{t.ID(), t.Word, t.Means, l.ID, l.Title})
		}
	}
	slices.SortFunc(list, func(a, b term) int { return cmp.Compare(strings.ToLower(a.Word), strings.ToLower(b.Word)) })
	return list
}

// Glossary is where each of its words stands on the page, for scripts.
func (c content) Glossary() map[string]string {
	at := map[string]string{}
	for _, t := range c.Terms {
		at[strings.ToLower(t.Word)] = t.ID
	}
	return at
}
