package bridge

import (
	"encoding/json"
	"fmt"
	"strings"

	"wheelroom/game/figure"
	"wheelroom/game/session"
	"wheelroom/game/svg"
	"wheelroom/physics/phrase"
)

// A question is one thing the page can ask, and the kinds of its arguments.
type question struct {
	takes  string
	answer func(b *Bridge, args []any) (any, error)
}

// look answers a question that changes nothing and takes nothing.
func look[T any](of func(s *session.Session) T) question {
	return question{"", func(b *Bridge, _ []any) (any, error) { return of(b.Session), nil }}
}

// deed answers a question that does something and takes nothing.
func deed(of func(s *session.Session) error) question {
	return question{"", func(b *Bridge, _ []any) (any, error) { return nil, of(b.Session) }}
}

// named answers a question that does something with one text.
func named(of func(s *session.Session, text string) error) question {
	return question{"s", func(b *Bridge, args []any) (any, error) { return nil, of(b.Session, args[0].(string)) }}
}

// measured answers a question that does something with one number.
func measured(of func(s *session.Session, n float64) error) question {
	return question{"n", func(b *Bridge, args []any) (any, error) { return nil, of(b.Session, args[0].(float64)) }}
}

var questions map[string]question

func init() {
	questions = map[string]question{
		// What there is
		"clock":    look((*session.Session).Clock),
		"snapshot": look(func(s *session.Session) any { return s.Snapshot() }),
		"building": look((*session.Session).Building),
		"lessons":  look((*session.Session).Lessons),
		"lesson":   look((*session.Session).Lesson),
		"parts":    look((*session.Session).Parts),
		"buttons":  look((*session.Session).Buttons),
		"record":   look((*session.Session).Record),
		"strip":    look((*session.Session).Strip),
		"entries":  {"n", func(b *Bridge, args []any) (any, error) { return b.Session.Entries(int(args[0].(float64))), nil }},
		"link":     look(func(s *session.Session) string { return s.Link().String() }),
		"hash":     look(func(s *session.Session) string { return fmt.Sprintf("%016x", s.Machine().Hash()) }),
		"describe": {"s", func(b *Bridge, args []any) (any, error) { return b.Session.Describe(args[0].(string)), nil }},
		"at": {"nn", func(b *Bridge, args []any) (any, error) {
			return b.Session.At(args[0].(float64), args[1].(float64)), nil
		}},
		"box": {"s", func(b *Bridge, args []any) (any, error) { return b.Session.Box(args[0].(string)) }},
		"svg": {"", func(b *Bridge, _ []any) (any, error) { return b.svg() }},
		"loupe": {"sn", func(b *Bridge, args []any) (any, error) {
			f, err := b.Session.Loupe(args[0].(string), args[1].(float64))
			if err != nil {
				return nil, err
			}
			return b.drawn(f, "loupe-")
		}},
		"loupeAt": {"nn", func(b *Bridge, args []any) (any, error) {
			return b.Session.LoupeAt(args[0].(float64), args[1].(float64)), nil
		}},
		"rimAt": {"nn", func(b *Bridge, args []any) (any, error) {
			return b.Session.RimAt(args[0].(float64), args[1].(float64)), nil
		}},
		"rim": {"n", func(b *Bridge, args []any) (any, error) {
			return b.drawn(b.Session.Rim(args[0].(float64)), "rim-")
		}},

		// Time
		"run":     deed((*session.Session).Run),
		"pause":   deed(func(s *session.Session) error { s.Pause(); return nil }),
		"step":    deed((*session.Session).Step),
		"back":    deed((*session.Session).Back),
		"look":    measured((*session.Session).LookAt),
		"event":   measured(func(s *session.Session, n float64) error { return s.LookAtEvent(int(n)) }),
		"return":  deed(func(s *session.Session) error { s.Return(); return nil }),
		"undo":    deed((*session.Session).Undo),
		"reset":   deed((*session.Session).Reset),
		"speed":   measured((*session.Session).Speed),
		"advance": measured((*session.Session).Advance),
		"tick":    measured(func(s *session.Session, dt float64) error { s.Tick(dt); return nil }),
		"motion":  {"b", func(b *Bridge, args []any) (any, error) { b.Session.KeyFrames(!args[0].(bool)); return nil, nil }},

		// The machine and its lesson
		"call":    named((*session.Session).Call),
		"open":    named((*session.Session).Open),
		"load":    named(func(s *session.Session, text string) error { return s.Load([]byte(text)) }),
		"restore": named(restore),
		"moment":  named((*session.Session).OpenLink),
		"lessonDo": {"ss", func(b *Bridge, args []any) (any, error) {
			return nil, b.Session.LessonDo(args[0].(string), args[1].(string))
		}},

		"screen": {"sss", func(b *Bridge, args []any) (any, error) {
			return b.Session.Screen(b.Palette, args[0].(string), args[1].(string), []byte(args[2].(string)))
		}},

		// What can be heard
		"noises": {"", func(*Bridge, []any) (any, error) { return session.Noises(), nil }},
		"listen": {"b", func(b *Bridge, args []any) (any, error) { b.Session.Listen(args[0].(bool)); return nil, nil }},
		"hear": look(func(s *session.Session) any {
			made, slides := s.Hear()
			return map[string]any{"made": made, "slides": slides}
		}),

		// The picture
		"choose": named((*session.Session).Choose),
		"press":  deed((*session.Session).Press),
		"bring":  named(func(s *session.Session, part string) error { s.Bring(part); return nil }),
		"whole":  deed(func(s *session.Session) error { s.Whole(); return nil }),
		"zoom": {"nnn", func(b *Bridge, args []any) (any, error) {
			return nil, b.Session.Zoom(args[0].(float64), args[1].(float64), args[2].(float64))
		}},
		"pan": {"nn", func(b *Bridge, args []any) (any, error) {
			b.Session.Pan(args[0].(float64), args[1].(float64))
			return nil, nil
		}},
		"view":  named((*session.Session).View),
		"theme": {"s", (*Bridge).theme},
		"size":  {"nnn", (*Bridge).size},
	}
}

// restore brings a session back from a record.
func restore(s *session.Session, text string) error {
	var r session.Record
	if err := json.Unmarshal([]byte(text), &r); err != nil {
		return session.Refusal{Phrase: phrase.Of("stage.bad-record")}
	}
	return s.Restore(r)
}

var themes = map[string]*figure.Palette{
	"paper": &figure.Paper, "slate": &figure.Slate,
	"paper-projector": &figure.PaperProjector, "slate-projector": &figure.SlateProjector,
}

func (b *Bridge) theme(args []any) (any, error) {
	p, known := themes[args[0].(string)]
	if !known {
		return nil, session.Refusal{Phrase: phrase.Of("stage.unknown-theme", "theme", args[0])}
	}
	b.Palette = p
	return nil, nil
}

// size takes the picture's size in CSS pixels and the device's ratio.
func (b *Bridge) size(args []any) (any, error) {
	b.Session.Size(args[0].(float64), args[1].(float64))
	b.Ratio = args[2].(float64)
	return nil, nil
}

// svg draws the picture as it stands, for a page without a canvas.
func (b *Bridge) svg() (string, error) {
	var whole figure.Figure
	still, moving := b.Session.Still(), b.Session.Moving()
	whole.Reset(still.Width, still.Height)
	whole.Append(still)
	whole.Append(moving)
	return b.drawn(&whole, "stage")
}

// drawn writes a figure as SVG in the colours of the theme; id begins every
// identity in it.
func (b *Bridge) drawn(f *figure.Figure, id string) (string, error) {
	var text strings.Builder
	err := svg.Write(&text, f, b.Palette, svg.Options{ID: id, Parts: true})
	return text.String(), err
}
