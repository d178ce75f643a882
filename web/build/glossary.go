package main

import (
	"slices"
	"strings"

	"golang.org/x/text/collate"
	"golang.org/x/text/language"
)

// A term is one word of the trade, as the glossary lists it.
type term struct {
	ID          string   // its place on the page
	Others      []string // places it has on the pages of other languages, so that an address leads to it in each
	Word, Means string
	Lesson      string // identity of the lesson that teaches it
	Title       string // of that lesson
	Language    string // of word, meaning and title where it is not the page's, else ""
}

// glossary lists the words that the lessons of an edition teach, by the
// alphabet of its language.
func (s *site) glossary(e edition) []term {
	var list []term
	taken := map[string]bool{}
	others := s.places()
	for _, l := range e.lessons {
		l.Open()
		for i, t := range l.Terms {
			list = append(list, term{ID: t.ID(), Others: others[place{l.ID, i}], Word: t.Word, Means: t.Means, Lesson: l.ID, Title: l.Title, Language: l.Language})
			taken[t.ID()] = true
		}
	}
	for i := range list {
		list[i].Others = slices.DeleteFunc(slices.Clone(list[i].Others), func(id string) bool {
			had := taken[id]
			taken[id] = true
			return had
		})
	}
	order := collate.New(language.Make(e.Tag()), collate.IgnoreCase)
	slices.SortStableFunc(list, func(a, b term) int { return order.CompareString(a.Word, b.Word) })
	return list
}

// A place is that of a word among those a lesson teaches: the same in every
// language.
type place struct {
	lesson string
	term   int
}

// places are the identities that each word has in the languages there are.
func (s *site) places() map[place][]string {
	all := map[place][]string{}
	for _, e := range s.editions {
		for _, l := range e.lessons {
			l.Open()
			for i, t := range l.Terms {
				all[place{l.ID, i}] = append(all[place{l.ID, i}], t.ID())
			}
		}
	}
	return all
}

// Glossary is where each of its words stands on the page, for scripts.
func (c content) Glossary() map[string]string {
	at := map[string]string{}
	for _, t := range c.Terms {
		at[strings.ToLower(t.Word)] = t.ID
	}
	return at
}
