package why

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// TestEveryPartAndFactHasWords asks for the name and for both states of
// everything that has a contact, a coil or a lamp, under every scheme.
func TestEveryPartAndFactHasWords(t *testing.T) {
	words := english(t)
	for _, scheme := range control.Schemes() {
		n := look(machine(t, scheme, 4, 1))
		for i := range n.leaves {
			part := n.leaves[i].Part()
			words.Text(n.name(part))
			words.Text(n.loadFact(part))
			if c, ok := n.leaves[i].Body.(control.Contact); ok {
				words.Text(n.contactName(i))
				for _, on := range []bool{true, false} {
					words.Text(n.fact(part, c.Pole, on))
				}
			}
		}
		for _, gang := range n.w.Gangs {
			words.Text(Name(lift.Part(gang.Part)))
		}
	}
	assert.Empty(t, words.Missing())
}
