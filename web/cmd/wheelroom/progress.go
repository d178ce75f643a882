package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"unicode/utf8"

	"wheelroom/physics/phrase"
)

// untilInterrupt is a context that ends when the program is interrupted.
func untilInterrupt() (context.Context, context.CancelFunc) {
	return signal.NotifyContext(context.Background(), os.Interrupt)
}

// awaited does long work and tells meanwhile on a terminal how far it is. Work
// that its context has broken off ends in the words of a message.
func awaited(aside io.Writer, words speaker, message string, do func(progress func(done, of int)) error) error {
	p := progressOn(aside, words)
	err := do(p.tell)
	p.clear()
	if errors.Is(err, context.Canceled) {
		return stopped{words(phrase.Of(message))}
	}
	return err
}

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
