package building_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/document/marked"
	"wheelroom/physics/phrase"
)

func words(t testing.TB) *phrase.Catalogue {
	t.Helper()
	c, err := phrase.ReadCatalogue(assets.Words("en")...)
	require.NoError(t, err)
	return c
}

func TestErrors(t *testing.T) {
	c := words(t)
	marked.Check(t, "testdata/errors.txt", c.Text, func(name string, text []byte) []document.Problem {
		p, problems := building.Read(name, text)
		if document.Failed(problems) {
			assert.Zero(t, p, "a file is never half applied")
		}
		return problems
	})
	assert.Empty(t, c.Missing())
}
