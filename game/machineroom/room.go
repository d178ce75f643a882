// Package machineroom prepares what a page shows of the machine room: the
// drive's figures, two handwheels compared, starts and stops link by link, and
// hand-winding. Everything comes worded and drawn: texts in the catalogue's
// language, pictures as SVG laid out for the width they are shown at. The
// structs turn into JSON as they stand; a figure that was not reached is null.
//
// It computes nothing itself: package physics/study does.
package machineroom

import (
	"bytes"
	"math"

	"wheelroom/game/figure"
	"wheelroom/game/plot"
	"wheelroom/game/svg"
	"wheelroom/physics/phrase"
)

// A Room is how things are to be shown.
type Room struct {
	Words   Words
	Palette *figure.Palette
	Width   float64 // CSS pixels of a picture, from 320 up
	Beside  float64 // of pictures that stand beside a larger one; 0: Width
	ID      string  // begins the ids inside the pictures; give each screen of a page its own

	drawn func(id string, f *figure.Figure) // a test's look at every drawing
}

// Words is the language of a room, as phrase.Catalogue speaks it.
type Words interface {
	Text(phrase.Phrase) string
	Number(phrase.Number) string
}

// A Picture is an SVG ready to be put into a page.
type Picture struct {
	Title  string       `json:"title"`
	Desc   string       `json:"desc"` // what it shows, in words
	SVG    string       `json:"svg"`
	Width  float64      `json:"width"`
	Height float64      `json:"height"`
	Frames []plot.Frame `json:"frames,omitempty"` // where its panels lie
}

// A Row is one figure of a table.
type Row struct {
	Key   string   `json:"key"`
	Name  string   `json:"name"`
	Text  string   `json:"text"`  // the value with its unit
	Value *float64 `json:"value"` // in that unit
	Unit  string   `json:"unit"`
}

// A Table has a head and rows of texts.
type Table struct {
	Head []string   `json:"head"`
	Rows [][]string `json:"rows"`
}

func (r *Room) say(p phrase.Phrase) string { return r.Words.Text(p) }

func (r *Room) of(id string, pairs ...any) string { return r.say(phrase.Of(id, pairs...)) }

func (r *Room) all(ps []phrase.Phrase) []string {
	out := make([]string, len(ps))
	for i, p := range ps {
		out[i] = r.say(p)
	}
	return out
}

func (r *Room) number(v float64, decimals int) string {
	return r.Words.Number(phrase.Num(v, decimals))
}

// sheet draws a sheet of plots as a picture.
func (r *Room) sheet(id string, s plot.Sheet, desc phrase.Phrase) Picture {
	s.Width, s.Number = r.Width, r.Words.Number
	f, frames := s.Draw()
	p := r.picture(id, f, desc)
	p.Frames = frames
	return p
}

// picture writes a figure; "drive.picture-ID" is its title.
func (r *Room) picture(id string, f *figure.Figure, desc phrase.Phrase) Picture {
	if r.drawn != nil {
		r.drawn(id, f)
	}
	p := Picture{Title: r.of("drive.picture-" + id), Desc: r.say(desc), Width: f.Width, Height: f.Height}
	var out bytes.Buffer
	// A buffer takes everything.
	_ = svg.Write(&out, f, r.Palette, svg.Options{Title: p.Title, Desc: p.Desc, ID: r.ID + id + "-", Parts: true})
	p.SVG = out.String()
	return p
}

// value is a figure for JSON: null where it is none.
func value(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}
