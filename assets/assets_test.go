package assets_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/phrase"
)

func TestBuildingsHaveAnOrder(t *testing.T) {
	var ids []string
	for _, b := range assets.Buildings() {
		ids = append(ids, b.ID)
		assert.NotEmpty(t, b.Text, b.ID)
	}
	assert.Equal(t, []string{"tidemill-house", "copper-yard", "kestrel-court", "lantern-row", "signal-house"}, ids)
}

// TestEveryLanguageSaysTheSame: its files read, and it has the messages that
// English has.
func TestEveryLanguageSaysTheSame(t *testing.T) {
	english, err := phrase.ReadCatalogue(assets.Words("en")...)
	require.NoError(t, err)
	require.Contains(t, assets.Languages(), "en")
	for _, tag := range assets.Languages() {
		c, err := phrase.ReadCatalogue(assets.Words(tag)...)
		require.NoError(t, err)
		assert.Equal(t, tag, c.Language())
		assert.Equal(t, english.IDs(), c.IDs(), tag)
	}
	assert.Empty(t, assets.Words("xx"))
}
