package main

import (
	"wheelroom/lessons/script"
	"wheelroom/physics/building"
)

// schemas writes the JSON Schemas of building and lesson files, for editors
// that check a file as it is written. Both are made from the declarations by
// which the program reads, and explained in each language.
func (s *site) schemas() error {
	for _, e := range s.editions {
		if err := s.write(e.folder+"building.schema.json", building.Schema(e.Words.Text)); err != nil {
			return err
		}
		if err := s.write(e.folder+"lesson.schema.json", script.Schema(e.Words.Text)); err != nil {
			return err
		}
	}
	return nil
}
