package main

import (
	"bytes"
	"fmt"
	"os"

	"wheelroom/physics/phrase"
	"wheelroom/web/languages"
	"wheelroom/web/scorm"
	"wheelroom/web/serve"
)

// pack writes the finished site as a package for a college's system, with one
// lesson or all of them, that opens in a language.
func (s *site) pack(file, lesson, language string) error {
	l, err := languages.Open(language)
	if err != nil {
		return err
	}
	c := scorm.Course{ID: "course", Title: l.Words.Text(phrase.Of("page.name")), Policy: serve.Policy, Start: folder(language) + "index.html"}
	for _, e := range s.editions {
		c.Pages = append(c.Pages, e.folder+"index.html")
	}
	for _, l := range l.Lessons() {
		contents := l.Contents()
		switch lesson {
		case "":
			c.Lessons = append(c.Lessons, contents.ID)
		case contents.ID:
			c.ID, c.Title, c.Lessons = contents.ID, contents.Title, []string{contents.ID}
		}
	}
	if len(c.Lessons) == 0 {
		return fmt.Errorf("no lesson %q", lesson)
	}
	var out bytes.Buffer
	if err := scorm.Write(&out, os.DirFS(s.out), c); err != nil {
		return err
	}
	return os.WriteFile(file, out.Bytes(), 0o644)
}
