package session

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
)

func TestTextsPassThroughAnAddress(t *testing.T) {
	texts := [][]byte{{}, []byte("é\n"), bytes.Repeat([]byte("a"), 1<<19)}
	for _, b := range assets.Buildings() {
		texts = append(texts, b.Text)
		assert.Less(t, len(Pack(b.Text)), 1200, "%s in an address", b.ID) // mail programs break longer ones (common practice, no source)
	}
	for _, text := range texts {
		packed := Pack(text)
		assert.Regexp(t, `^[A-Za-z0-9_-]*$`, packed)
		back, err := Unpack(packed)
		require.NoError(t, err)
		assert.True(t, bytes.Equal(text, back))
	}
}

func TestDamagedAddressesAreRefused(t *testing.T) {
	whole := Pack(assets.Buildings()[0].Text)
	for name, packed := range map[string]string{
		"cut off":   whole[:len(whole)/2],
		"not ours":  "%%%",
		"no stream": "AAAA",
		"a bomb":    Pack(make([]byte, 8<<20)),
	} {
		_, err := Unpack(packed)
		require.Error(t, err, name)
		assert.Equal(t, "stage.bad-address", Phrase(err).ID, name)
	}
}
