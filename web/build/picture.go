package main

import (
	"bytes"

	"wheelroom/game/figure"
	"wheelroom/game/svg"
)

// The size of the picture that stands in until the program runs, CSS pixels:
// that of the stage in a window of 1280 by 720.
const pictureWidth, pictureHeight = 950, 570

// draw writes the picture of the machine at rest in both themes, for the time
// before the program runs and for browsers that cannot run it.
func (s *site) draw() error {
	for _, e := range s.editions {
		if err := s.picture(e); err != nil {
			return err
		}
	}
	return nil
}

func (s *site) picture(e edition) error {
	machine, err := e.Session()
	if err != nil {
		return err
	}
	machine.Size(pictureWidth, pictureHeight)
	var whole figure.Figure
	whole.Reset(pictureWidth, pictureHeight)
	moving := machine.Moving()
	whole.Append(machine.Still())
	whole.Append(moving)
	for _, theme := range []struct {
		name    string
		palette *figure.Palette
	}{{"paper", &figure.Paper}, {"slate", &figure.Slate}} {
		var out bytes.Buffer
		if err := svg.Write(&out, &whole, theme.palette, svg.Options{ID: "picture", Bare: true}); err != nil {
			return err
		}
		if err := s.write(e.folder+"picture-"+theme.name+".svg", out.Bytes()); err != nil {
			return err
		}
	}
	return nil
}
