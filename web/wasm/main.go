//go:build js

// Command wasm is the program in the page's frame: it puts a session on the
// stage and answers what the page asks on the object "stage" of the frame's
// window.
//
// The frame sets three things before it starts the program: stageDraws, whether
// there is WebGL 2 to draw with, stageChanged, called when the page has
// something new to show, and stageWords, the language of the page as one text,
// which is left out in English. Without WebGL 2 everything is computed all the
// same, and the page draws from the answers.
package main

import (
	"fmt"
	"strconv"
	"syscall/js"

	"wheelroom/assets/fonts"
	"wheelroom/game/figure"
	"wheelroom/game/stage"
	"wheelroom/web/bridge"
	"wheelroom/web/program"
)

func main() {
	if err := run(); err != nil {
		js.Global().Get("console").Call("error", fmt.Sprintf("stage: %v", err))
	}
}

// run puts everything together and stays until the frame is gone.
func run() error {
	spoken := language()
	s, err := spoken.Session()
	if err != nil {
		return err
	}
	b := bridge.New(s, spoken.Words.Text)
	changed := js.Global().Get("stageChanged")
	expose(b, changed)
	js.Global().Get("stage").Set("language", spoken.Tag())
	if !js.Global().Get("stageDraws").Bool() {
		select {}
	}
	show, err := stage.New(s, func() *figure.Palette { return b.Palette }, func() { changed.Invoke() }, fonts.Regular, fonts.Bold)
	if err != nil {
		return err
	}
	js.Global().Get("stage").Set("took", js.FuncOf(func(js.Value, []js.Value) any {
		text := []byte{'['}
		for i, d := range show.Took() {
			if i > 0 {
				text = append(text, ',')
			}
			text = strconv.AppendFloat(text, d.Seconds()*1000, 'f', 3, 64)
		}
		return string(append(text, ']'))
	}))
	return show.Run()
}

// language is the one the frame has handed over; without one, or with one that
// cannot be read, it is English, and the page sees that it is.
func language() *program.Language {
	given := js.Global().Get("stageWords")
	if given.Type() != js.TypeString {
		return program.English()
	}
	spoken, err := program.Read([]byte(given.String()))
	if err != nil {
		js.Global().Get("console").Call("error", err.Error())
		return program.English()
	}
	return spoken
}

// expose puts every question on the frame's object. After a question the page
// is told when the session has changed by it.
func expose(b *bridge.Bridge, changed js.Value) {
	object := js.Global().Get("Object").New()
	for _, name := range bridge.Names() {
		object.Set(name, js.FuncOf(func(_ js.Value, args []js.Value) any {
			reply := b.Ask(name, plain(args)...)
			if b.Session.Changed() {
				changed.Invoke()
			}
			return reply
		}))
	}
	js.Global().Set("stage", object)
}

// plain turns arguments into Go's own kinds; what is none of them becomes nil,
// which no question takes.
func plain(args []js.Value) []any {
	list := make([]any, len(args))
	for i, a := range args {
		switch a.Type() {
		case js.TypeString:
			list[i] = a.String()
		case js.TypeNumber:
			list[i] = a.Float()
		case js.TypeBoolean:
			list[i] = a.Bool()
		}
	}
	return list
}
