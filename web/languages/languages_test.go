package languages_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/lessons/course"
	"wheelroom/web/languages"
)

// Every language opens, and calls itself by its own name.
func TestEveryLanguageOpens(t *testing.T) {
	assert.Equal(t, "en", languages.Tags()[0])
	names := map[string]bool{}
	for _, tag := range languages.Tags() {
		l, err := languages.Open(tag)
		require.NoError(t, err, tag)
		assert.Equal(t, tag, l.Tag())
		assert.False(t, names[l.Name()], "%s is the name of two", l.Name())
		names[l.Name()] = true
		assert.Len(t, l.Lessons(), len(course.Contents()))
	}
}

func TestUnknownLanguage(t *testing.T) {
	for _, tag := range []string{"xx", "", "EN"} {
		_, err := languages.Open(tag)
		assert.ErrorContains(t, err, "there are en", tag)
	}
}
