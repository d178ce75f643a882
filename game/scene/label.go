package scene

import (
	"strings"

	"wheelroom/physics/phrase"
)

// Label is the short name of a part that has a place in the circuit, with its
// floor and its letter code, as other drawings of the circuit bear it.
func Label(words func(phrase.Phrase) string, part string) string {
	kind, rest, dotted := strings.Cut(part, ".")
	name := ""
	switch {
	case kind == "relay":
		name = words(phrase.Of("scene.short-relay-" + rest))
	case dotted:
		name = words(phrase.Of("circuit.of-floor", "name", phrase.Of("scene.short-"+kind), "which", rest))
	default:
		name = words(phrase.Of("scene.short-" + kind))
	}
	return words(phrase.Of("scene.short", "name", name, "code", Code(part)))
}
