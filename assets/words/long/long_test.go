package long_test

import (
	"encoding/json"
	"regexp"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets/words"
	"wheelroom/assets/words/long"
	"wheelroom/physics/phrase"
)

var slot = regexp.MustCompile(`\{[^}]*\}`)

func TestText(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", ""},
		{"m/s", "m/s"},
		{"relay", "réläyen"},
		{"at {floor}", "at {floor}"},
		{"{count} calls of `up`", "{count} cällsen of `up`"},
	} {
		assert.Equal(t, c.want, long.Text(c.text))
	}
}

// Every message is there, and all together are longer by two fifths.
func TestWords(t *testing.T) {
	english, err := phrase.ReadCatalogue(words.Of("en")...)
	require.NoError(t, err)
	lengthened, err := phrase.ReadCatalogue(long.Words()...)
	require.NoError(t, err)
	assert.Equal(t, long.Tag, lengthened.Language())
	assert.Equal(t, english.IDs(), lengthened.IDs())
	size := func(c *phrase.Catalogue) (sum int) {
		var all map[string]any
		require.NoError(t, json.Unmarshal(c.JSON(), &all))
		for _, m := range all {
			if text, plain := m.(string); plain {
				sum += utf8.RuneCountInString(slot.ReplaceAllString(text, ""))
			}
		}
		return sum
	}
	assert.InDelta(t, 1.4, float64(size(lengthened))/float64(size(english)), 0.02)
}
