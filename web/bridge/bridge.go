// Package bridge answers the page: questions by name with plain arguments,
// answers as JSON. It is the whole of what the page can ask for, without the
// browser, so that it can be tested anywhere.
//
// An answer is {"value": …} or {"error": "words"}; a file that cannot be used
// adds "errors" with line, column and words of each. Nothing that goes wrong
// leaves here in another way: a fault of the program is an answer as well.
package bridge

import (
	"encoding/json"
	"fmt"

	"wheelroom/game/figure"
	"wheelroom/game/session"
	"wheelroom/physics/phrase"
)

// A Bridge is one session as the page sees it.
type Bridge struct {
	Session *session.Session
	Palette *figure.Palette // of the theme the page has chosen
	Ratio   float64         // device pixels to a CSS pixel

	words func(phrase.Phrase) string
}

// New returns a bridge in the paper theme.
func New(s *session.Session, words func(phrase.Phrase) string) *Bridge {
	return &Bridge{Session: s, Palette: &figure.Paper, Ratio: 1, words: words}
}

// An answer is what goes back to the page.
type answer struct {
	Value  any         `json:"value"`
	Error  string      `json:"error,omitempty"`
	Errors []fileError `json:"errors,omitempty"`
}

// A fileError is one thing wrong with a file, as the page lists it.
type fileError struct {
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Text   string `json:"text"`
}

// Ask answers a question. The arguments are strings, float64s and bools.
func (b *Bridge) Ask(name string, args ...any) (reply string) {
	defer func() {
		if fault := recover(); fault != nil {
			reply = encode(answer{Error: b.words(phrase.Of("stage.broken", "reason", fmt.Sprint(fault)))})
		}
	}()
	q, known := questions[name]
	if !known {
		return b.refusal(session.Refusal{Phrase: phrase.Of("stage.unknown-question", "question", name)})
	}
	if !fits(q.takes, args) {
		return b.refusal(session.Refusal{Phrase: phrase.Of("stage.bad-arguments", "question", name)})
	}
	value, err := q.answer(b, args)
	if err != nil {
		return b.refusal(err)
	}
	return encode(answer{Value: value})
}

// Names lists the questions there are.
func Names() []string {
	names := make([]string, 0, len(questions))
	for name := range questions {
		names = append(names, name)
	}
	return names
}

func encode(a answer) string {
	text, err := json.Marshal(a)
	if err != nil {
		panic("bridge: " + err.Error())
	}
	return string(text)
}

// refusal puts an error into words.
func (b *Bridge) refusal(err error) string {
	a := answer{Error: b.words(session.Phrase(err))}
	if f, ok := err.(session.FileError); ok {
		for _, p := range f.Problems {
			if !p.Warning {
				a.Errors = append(a.Errors, fileError{p.Line, p.Col, b.words(p.Phrase)})
			}
		}
	}
	return encode(a)
}

// fits reports whether the arguments are of the kinds a question takes:
// s a string, n a number, b a truth value.
func fits(takes string, args []any) bool {
	if len(takes) != len(args) {
		return false
	}
	for i, kind := range takes {
		ok := false
		switch kind {
		case 's':
			_, ok = args[i].(string)
		case 'n':
			_, ok = args[i].(float64)
		case 'b':
			_, ok = args[i].(bool)
		}
		if !ok {
			return false
		}
	}
	return true
}
