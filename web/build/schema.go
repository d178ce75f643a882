package main

import (
	"wheelroom/lessons/script"
	"wheelroom/physics/building"
)

// schemas writes the JSON Schemas of building and lesson files, for editors
// that check a file as it is written. Both are made from the declarations by
// which the program reads.
func (s *site) schemas() error {
	if err := s.write("building.schema.json", building.Schema(s.words.Text)); err != nil {
		return err
	}
	return s.write("lesson.schema.json", script.Schema(s.words.Text))
}
