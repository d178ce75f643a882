package machineroom

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/building"
	"wheelroom/physics/phrase"
)

func words(t *testing.T) *phrase.Catalogue {
	t.Helper()
	c, err := phrase.ReadCatalogue(assets.Words("en")...)
	require.NoError(t, err)
	return c
}

func shipped(t *testing.T) []building.Plan {
	t.Helper()
	var all []building.Plan
	for _, b := range assets.Buildings() {
		p, problems := building.Read(b.ID, b.Text)
		require.Empty(t, problems)
		all = append(all, p)
	}
	return all
}
