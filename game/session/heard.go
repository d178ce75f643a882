package session

import (
	"encoding/base64"

	"wheelroom/game/sound"
	"wheelroom/physics/lift"
)

// No more noises than this wait to be heard: at sixteen times the speed the
// rest would only be a rattle.
const noisesMost = 16

// Ears keep what is to be heard of the machine while somebody listens.
type ears struct {
	listen bool
	noises []Heard
	door   float64 // how far open when last looked at
	slides bool    // it has moved since
}

// Heard is one noise that was made: by name, its part and the side it comes
// from, −1 left to +1 right.
type Heard struct {
	Name string  `json:"name"`
	Part string  `json:"part"`
	Pan  float64 `json:"pan"`
}

// hear takes in what has happened while time passed. What is jumped over is
// not heard.
func (e *ears) hear(events []lift.Event, v *lift.View) {
	e.slides = v.DoorOpen != e.door
	e.door = v.DoorOpen
	if !e.listen {
		return
	}
	for _, event := range events {
		if n, ok := sound.Of(event); ok && len(e.noises) < noisesMost {
			e.noises = append(e.noises, Heard{n.String(), n.Part(), n.Pan()})
		}
	}
}

// Listen begins or ends keeping noises for Hear.
func (s *Session) Listen(on bool) { s.ears = ears{listen: on, door: s.view.DoorOpen} }

// Hear returns the noises since it was last asked, and whether a door is
// moving now.
func (s *Session) Hear() (made []Heard, slides bool) {
	made = append([]Heard{}, s.ears.noises...)
	s.ears.noises = s.ears.noises[:0]
	return made, s.running && s.ears.slides
}

// Noises returns every noise by name as a WAV file in base64.
func Noises() map[string]string {
	all := map[string]string{}
	for _, n := range sound.All() {
		all[n.String()] = base64.StdEncoding.EncodeToString(n.WAV())
	}
	return all
}
