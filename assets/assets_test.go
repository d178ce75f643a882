package assets_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/assets"
)

func TestBuildingsHaveAnOrder(t *testing.T) {
	var ids []string
	for _, b := range assets.Buildings() {
		ids = append(ids, b.ID)
		assert.NotEmpty(t, b.Text, b.ID)
	}
	assert.Equal(t, []string{"tidemill-house", "copper-yard", "kestrel-court", "lantern-row", "signal-house"}, ids)
}

// The program holds English; other languages are handed to it.
func TestWordsOfTheProgram(t *testing.T) {
	assert.NotEmpty(t, assets.Words("en"))
	assert.Empty(t, assets.Words("xx"))
}
