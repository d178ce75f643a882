package control

// Schemes returns the names of the schemes there are, simplest first.
func Schemes() []string { return []string{"directional"} }

// New returns the diagram of a scheme for the floors named, lowest first,
// and the ring terminals joined for each; nil for a scheme there is not.
func New(scheme string, floors []string, terminals [][]int) *Diagram {
	switch scheme {
	case "directional":
		return Directional(floors, terminals)
	}
	return nil
}

// Relays returns the names every scheme's trace has, in the order of a trace.
func Relays() []string {
	return []string{"up-line", "down-line", "direction", "start", "up", "down", "level", "stop", "door",
		"up-contactor", "down-contactor", "fast", "slow", "brake", "safety"}
}
