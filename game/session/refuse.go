package session

import (
	"errors"

	"wheelroom/lessons/tutor"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// A Refusal is the error of a thing that cannot be done now. Nothing has
// changed.
type Refusal struct{ Phrase phrase.Phrase }

// Error spells the refusal without words, for logs.
func (r Refusal) Error() string { return "session: " + r.Phrase.String() }

func refuse(id string, pairs ...any) error { return Refusal{phrase.Of(id, pairs...)} }

// A FileError is the error of a file that cannot be used, with everything that
// is wrong with it.
type FileError struct{ Problems []document.Problem }

// Error spells the first problem without words, for logs.
func (e FileError) Error() string {
	return "session: " + e.Problems[0].Format(phrase.Phrase.String)
}

// Phrase returns what an error of this package says to the reader.
func Phrase(err error) phrase.Phrase {
	var r Refusal
	if errors.As(err, &r) {
		return r.Phrase
	}
	if p, ok := tutor.IsRefusal(err); ok {
		return p
	}
	var f FileError
	if errors.As(err, &f) {
		return phrase.Of("stage.bad-file", "count", len(f.Problems))
	}
	return phrase.Of("stage.failed", "reason", err.Error())
}
