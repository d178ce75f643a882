package control

import "wheelroom/physics/phrase"

// scheme is one entry of the table of schemes.
type scheme struct {
	name string
	make func(floors []string, terminals [][]int) *Diagram
}

// schemes are all there are, simplest first.
var schemes = []scheme{
	{"direct", Direct},
	{"interlocked", Interlocked},
	{"directional", Directional},
	{"two-button", TwoButton},
}

// Schemes returns the names of the schemes there are, simplest first.
func Schemes() []string {
	var names []string
	for _, s := range schemes {
		names = append(names, s.name)
	}
	return names
}

// New returns the diagram of a scheme for the floors named, lowest first,
// and the ring terminals joined for each; nil for a scheme there is not.
func New(name string, floors []string, terminals [][]int) *Diagram {
	for _, s := range schemes {
		if s.name == name {
			return s.make(floors, terminals)
		}
	}
	return nil
}

// Limits says in a sentence what a scheme cannot do, and of direct that it is
// never to be built. It is empty for a scheme there is not.
func Limits(name string) phrase.Phrase {
	for _, s := range schemes {
		if s.name == name {
			return phrase.Of("scheme.limits-" + name)
		}
	}
	return phrase.Phrase{}
}

// Name returns a scheme's name in words; empty for a scheme there is not.
func Name(name string) phrase.Phrase {
	if Limits(name).ID == "" {
		return phrase.Phrase{}
	}
	return phrase.Of("scheme.name-" + name)
}

// Relays returns the names every scheme's trace has, in the order of a trace.
func Relays() []string {
	return []string{"up-line", "down-line", "direction", "start", "up", "down", "level", "stop", "door",
		"up-contactor", "down-contactor", "fast", "slow", "brake", "safety"}
}
