package script

import (
	"flag"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/phrase"
)

var update = flag.Bool("update", false, "write the schema anew")

const schemaFile = "../lesson.schema.json"

func english(t testing.TB) *phrase.Catalogue {
	t.Helper()
	c, err := phrase.ReadCatalogue(assets.Words("en")...)
	require.NoError(t, err)
	return c
}

// Every state a part can come into has words, and so has every unit.
func TestStatesAndUnitsHaveWords(t *testing.T) {
	words := english(t)
	for _, f := range families {
		for _, w := range f.words {
			assert.True(t, words.Has("lesson.state-"+w), w)
		}
	}
	for _, s := range stands {
		assert.True(t, words.Has("lesson.stand-"+s), s)
		assert.True(t, words.Has("lesson.answer-switch-"+s), s)
	}
	for _, u := range units {
		assert.NotContains(t, words.Text(u.unit.say(1, u.decimals)), "⟦")
	}
}

// The schema that ships is the reader's own declaration.
func TestTheSchemaIsTheReaders(t *testing.T) {
	want := Schema(english(t).Text)
	if *update {
		require.NoError(t, os.WriteFile(schemaFile, want, 0o644))
	}
	got, err := os.ReadFile(schemaFile)
	require.NoError(t, err)
	assert.Equal(t, string(want), string(got), "go test ./lessons/script -update writes it")
}
