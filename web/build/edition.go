package main

import (
	"strings"

	"wheelroom/lessons/script"
	"wheelroom/web/languages"
	"wheelroom/web/program"
)

// An edition is the pages of the site in one language. English has the root of
// the site, every other language a folder of its own with pages of the same
// names; scripts, styles, type and program are the same for all.
type edition struct {
	*program.Language
	folder  string           // "" or as "de/"
	lessons []*script.Lesson // each is read when it is first needed
}

func newEdition(l *program.Language) edition { return edition{l, folder(l.Tag()), l.Lessons()} }

// folder is where the pages of a language stand.
func folder(tag string) string {
	if tag == languages.English {
		return ""
	}
	return tag + "/"
}

// root leads from one of the edition's pages, by its name in the edition, to
// the root of the site.
func (e edition) root(name string) string {
	return strings.Repeat("../", strings.Count(e.folder+name, "/"))
}

// languageFile is the file from which the program takes a language, beside its
// pages.
const languageFile = "program.json"

// A tongue is one choice among the languages of a page.
type tongue struct {
	Tag, Name string
	Href      string // of the page in that language, from the page it stands on
	Here      bool   // the language of that page
}

// tongues lists the languages of a page of the edition, by its name there.
func (s *site) tongues(e edition, name string) []tongue {
	var list []tongue
	for _, other := range s.editions {
		list = append(list, tongue{other.Tag(), other.Name(), e.root(name) + other.folder + name, other.folder == e.folder})
	}
	return list
}

// languages writes the files of the languages that are not in the program.
func (s *site) languages() error {
	for _, e := range s.editions {
		if e.folder == "" {
			continue
		}
		if err := s.write(e.folder+languageFile, e.File()); err != nil {
			return err
		}
	}
	return nil
}
