package main

import (
	"strings"

	"github.com/alecthomas/kong"

	"wheelroom/physics/phrase"
)

// wordHelp puts the catalogue's words into the help of every command, flag and
// argument: "command.help" for the program, "command.help-language" for one of
// its flags, "command.help-trace" for a command, "command.help-trace-until" for
// one of its flags. A flag's default
// fills the slot "default". What the catalogue lacks keeps the words of its tag.
func wordHelp(app *kong.Application, words *phrase.Catalogue) {
	help := func(tag string, pairs []any, name ...string) string {
		id := strings.Join(append([]string{"command.help"}, name...), "-")
		if !words.Has(id) {
			return tag
		}
		return words.Text(phrase.Of(id, pairs...))
	}
	app.Help = help(app.Help, nil)
	for _, flag := range app.Flags {
		flag.Help = help(flag.Help, []any{"default", flag.Default}, flag.Name)
	}
	for _, command := range app.Children {
		command.Help = help(command.Help, nil, command.Name)
		for _, flag := range command.Flags {
			flag.Help = help(flag.Help, []any{"default", flag.Default}, command.Name, flag.Name)
		}
		for _, argument := range command.Positional {
			argument.Help = help(argument.Help, nil, command.Name, argument.Name)
		}
	}
}
