package session

import (
	"bytes"
	"encoding/json"

	"wheelroom/game/figure"
)

// An Asking is what an action of a screen may use.
type Asking struct {
	*Session
	Palette *figure.Palette // of the theme the page has chosen, for drawings
}

// An action answers one action of a screen; its arguments are a JSON object.
type action func(a Asking, args json.RawMessage) (any, error)

// screens are the actions of every screen, by the screen's name and theirs.
var screens = map[string]map[string]action{
	"building":  editor,
	"circuit":   circuit,
	"compare":   compared,
	"takeaway":  takeaway,
	"drive":     driveScreen,
	"ring":      ringScreen,
	"winding":   windingScreen,
	"lecture":   lecture,
	"exhibit":   exhibited,
	"worksheet": worksheet,
	"results":   results,
	"writer":    writer,
}

// desks are what screens keep between two questions; a session that is brought
// back has empty ones.
type desks struct {
	drive   driveDesk
	ring    ringDesk
	winding windingDesk
	compare compareDesk
	proof   *proving // nil before the first
}

// Screen does what a screen of the page asks for.
func (s *Session) Screen(p *figure.Palette, name, what string, args []byte) (any, error) {
	do, known := screens[name][what]
	if !known {
		return nil, refuse("stage.unknown-question", "question", name+"/"+what)
	}
	return do(Asking{s, p}, args)
}

// taking turns a function of a struct into an action. Arguments that do not
// fit the struct are refused, and so are names it does not have.
func taking[T any](do func(a Asking, args T) (any, error)) action {
	return func(a Asking, text json.RawMessage) (any, error) {
		var args T
		d := json.NewDecoder(bytes.NewReader(text))
		d.DisallowUnknownFields()
		if err := d.Decode(&args); err != nil {
			return nil, refuse("stage.bad-arguments", "question", err.Error())
		}
		return do(a, args)
	}
}
