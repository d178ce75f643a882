package main

import (
	"bytes"
	"io"
	"os"

	"wheelroom/assets/fonts"
	"wheelroom/game/handout"
	"wheelroom/lessons/sheet"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/document"
	"wheelroom/web/program"
)

// sheetCommand makes a worksheet of a lesson file.
type sheetCommand struct {
	Lesson    string `required:"" placeholder:"FILE" help:"Lesson file."`
	Format    string `enum:"html" default:"html" help:"html (default ${default})."`
	Set       int    `placeholder:"N" help:"A class set of so many sheets, each with its answers in another order, and the key."`
	Seed      uint64 `default:"1" help:"Number of the set; the same number makes the same set (default ${default})."`
	NoAnswers bool   `help:"Leave out the answers and the key."`
	Address   string `default:"http://127.0.0.1:8080/" placeholder:"ADDRESS" help:"Address of the page, for the link at the foot (default ${default})."`
	Out       string `type:"path" placeholder:"FILE" help:"Write to a file instead of standard output."`
}

// Run checks the lesson, plays it and sets it.
func (c sheetCommand) Run(out io.Writer, words speaker, language *program.Language) error {
	if c.Set < 0 || c.Set > sheet.MostCopies {
		return usage{words.fail("sheet.bad-set", "most", sheet.MostCopies).Error()}
	}
	text, err := os.ReadFile(c.Lesson)
	if err != nil {
		return err
	}
	lesson, problems := tutor.CheckFile(c.Lesson, text, program.Building, tutor.Lift)
	if document.Failed(problems) {
		return words.list(problems)
	}
	made, err := sheet.Make(lesson, words)
	if err != nil {
		return err
	}
	var page bytes.Buffer
	err = handout.Write(&page, made, handout.Options{Words: words, Language: language.Tag(), Address: c.Address,
		Copies: c.Set, Seed: c.Seed, Answers: !c.NoAnswers, Regular: fonts.RegularWeb, Bold: fonts.BoldWeb})
	if err != nil {
		return err
	}
	return deliver(out, c.Out, page.Bytes())
}
