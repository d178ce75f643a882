// Command build makes the static site: it compiles the program to WebAssembly,
// fills the pages with the catalogue's words, and lays compressed copies beside
// every large file. It needs the Go tools and nothing else.
package main

import (
	"fmt"
	"os"
	"time"

	"github.com/alecthomas/kong"
)

// An order is one run of the builder, as the command line gives it.
type order struct {
	Root    string `default:"." type:"existingdir" help:"Root of the source tree."`
	Out     string `default:"web/dist" help:"Folder to write, relative to the root."`
	Quality int    `default:"11" help:"Brotli quality, 0 to 11; 11 is smallest and slowest."`
	Again   bool   `help:"Make the worker and the compressed copies anew for the site that is there, after a change by hand, and build none."`
	Pack    string `placeholder:"FILE" help:"Pack the site that is there for a college's system (SCORM 1.2), and build none."`
	Lesson  string `placeholder:"ID" help:"The one lesson that counts in the package; all of the course if left out."`

	Lengthened bool `help:"Add a language for tests of the layout, in which every text is longer by two fifths."`

	Language string `default:"en" placeholder:"TAG" help:"Language in which the package opens."`
}

func main() {
	var o order
	kong.Parse(&o, kong.Name("build"), kong.Description("Builds the static site."), kong.UsageOnError())
	if err := o.run(); err != nil {
		fmt.Fprintln(os.Stderr, "build:", err)
		os.Exit(1)
	}
}

// A step is one part of the work.
type step struct {
	name string
	do   func() error
}

// run builds the site step by step and prints what each took.
func (o order) run() error {
	if o.Pack != "" || o.Again {
		s, err := builtSite(o.Root, o.Out)
		if err != nil {
			return err
		}
		if o.Pack != "" {
			return s.pack(o.Pack, o.Lesson, o.Language)
		}
		return take(s.last(o.Quality))
	}
	s, err := newSite(o.Root, o.Out)
	if err != nil {
		return err
	}
	if o.Lengthened {
		e, err := lengthened()
		if err != nil {
			return err
		}
		s.editions = append(s.editions, e)
	}
	err = take(append([]step{
		{"program", s.compile},
		{"copies", s.copy},
		{"languages", s.languages},
		{"picture", s.draw},
		{"palette", s.palette},
		{"pages", s.render},
		{"schemas", s.schemas},
		{"manifest", s.manifests},
	}, s.last(o.Quality)...))
	if err != nil {
		return err
	}
	return s.report(os.Stdout)
}

// last are the steps that look at every file of the site.
func (s *site) last(quality int) []step {
	return []step{{"worker", s.worker}, {"compression", func() error { return s.compress(quality) }}}
}

// take goes through the steps and prints what each took.
func take(steps []step) error {
	for _, step := range steps {
		start := time.Now()
		if err := step.do(); err != nil {
			return fmt.Errorf("%s: %w", step.name, err)
		}
		fmt.Printf("%-12s %5.1f s\n", step.name, time.Since(start).Seconds())
	}
	return nil
}
