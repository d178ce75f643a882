package main

// The size of the picture that stands in until the program runs, CSS pixels.
const pictureWidth, pictureHeight = 960, 560

// draw writes the picture of the machine at rest.
func (s *site) draw() error {
	return s.write("picture.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 960 560"/>`))
}
