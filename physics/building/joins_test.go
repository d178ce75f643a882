package building_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/document/marked"
)

func TestJoins(t *testing.T) {
	c := words(t)
	marked.Check(t, "testdata/joins.txt", c.Text, func(name string, text []byte) []document.Problem {
		_, problems := building.Read(name, text)
		return problems
	})
	assert.Empty(t, c.Missing())
}

func TestJoinsAreWrittenBack(t *testing.T) {
	p, problems := building.Read("x", []byte(bare))
	require.Empty(t, problems)
	assert.NotContains(t, string(building.Write(p)), "joins", "a ring as it is laid out says nothing of joins")
	p.Selector.Joins = []building.Join{{Terminal: 2, Floor: "2"}, {Terminal: 0, Floor: building.Blank}}
	text := building.Write(p)
	assert.Contains(t, string(text), "  joins:\n    - {terminal: 2, floor: \"2\"}\n    - {terminal: 0, floor: blank}\n")
	again, problems := building.Read("x", text)
	require.Empty(t, problems)
	assert.Equal(t, p, again)
}
