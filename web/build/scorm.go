package main

import (
	"bytes"
	"fmt"
	"os"

	"wheelroom/physics/phrase"
	"wheelroom/web/program"
	"wheelroom/web/scorm"
	"wheelroom/web/serve"
)

// pack writes the finished site as a package for a college's system, with one
// lesson or all of them.
func (s *site) pack(file, lesson string) error {
	c := scorm.Course{ID: "course", Title: s.words.Text(phrase.Of("page.name")), Policy: serve.Policy}
	for _, l := range program.Lessons() {
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
