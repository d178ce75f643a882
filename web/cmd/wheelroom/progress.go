package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"unicode/utf8"

	"wheelroom/physics/phrase"
)

// A progress is one line on a terminal that says how much of long work is done
// and is gone when the work is.
type progress struct {
	out   io.Writer
	words speaker
	shown string
}

// progressOn returns a progress where out is a terminal, nil where it is a file
// or goes to another program, which it would only litter.
func progressOn(out io.Writer, words speaker) *progress {
	file, ok := out.(*os.File)
	if !ok {
		return nil
	}
	if info, err := file.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	return &progress{out: out, words: words}
}

// tell says that so much is done of so much, when that is news.
func (p *progress) tell(done, of int) {
	if p == nil || of <= 0 {
		return
	}
	if text := p.words(phrase.Of("command.progress", "percent", 100*done/of)); text != p.shown {
		p.clear()
		fmt.Fprint(p.out, text)
		p.shown = text
	}
}

// clear leaves an empty line and the cursor at its beginning.
func (p *progress) clear() {
	if p != nil && p.shown != "" {
		fmt.Fprintf(p.out, "\r%s\r", strings.Repeat(" ", utf8.RuneCountInString(p.shown)))
		p.shown = ""
	}
}
