package main

import (
	"fmt"
	"io"
	"os"
	"slices"

	"wheelroom/lessons/script"
	"wheelroom/lessons/tutor"
	"wheelroom/physics/document"
	"wheelroom/physics/survey"
	"wheelroom/web/program"
)

// checkCommand reads building and lesson files and says what is wrong.
type checkCommand struct {
	Files []string `arg:"" name:"file"`
}

// Run checks every file: "ok FILE", or each error as FILE:LINE:COL. Warnings
// are said as well but fail nothing.
func (c checkCommand) Run(out io.Writer, aside complaints, words speaker, language *program.Language) error {
	failed := false
	for _, file := range c.Files {
		text, err := os.ReadFile(file)
		if err != nil {
			fmt.Fprintln(aside, err)
			failed = true
			continue
		}
		problems := check(file, text, language)
		for _, p := range problems {
			fmt.Fprintln(aside, words.problem(p))
		}
		if document.Failed(problems) {
			failed = true
			continue
		}
		fmt.Fprintln(out, "ok", file)
	}
	if failed {
		return bad{}
	}
	return nil
}

// check returns everything that is wrong with a file. A lesson is also run:
// what only its machine can show is wrong all the same.
func check(file string, text []byte, language *program.Language) []document.Problem {
	if !slices.Contains(document.Keys(text), "items") {
		_, problems := survey.Read(file, text)
		return problems
	}
	lesson, problems := script.Read(file, text, program.Building)
	if document.Failed(problems) {
		return problems
	}
	problems = append(problems, tutor.Check(lesson, tutor.Lift)...)
	return append(problems, untaught(file, lesson, language)...)
}

// untaught returns the trade words that a lesson of the course uses before
// they are explained in its language, or explains once more. Of a lesson that
// is not in the course nothing is known about what its learners know.
func untaught(file string, lesson *script.Lesson, language *program.Language) []document.Problem {
	all, part := language.Lessons(), false
	for i, l := range all {
		if l.ID == lesson.ID {
			all[i], part = lesson, true
		}
	}
	if !part {
		return nil
	}
	for _, l := range all {
		l.Open()
	}
	var own []document.Problem
	for _, p := range append(script.Untaught(all), script.TaughtTwice(all)...) {
		if p.File == file {
			own = append(own, p)
		}
	}
	return own
}
