package document_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/physics/document"
)

func TestScalars(t *testing.T) {
	text := "name: \"A: B\"\nlist:\n  - {one: 1, two: [x, 'y z']}\n  - one: |\n      many\n      lines\nnone:\n"
	got := document.Scalars([]byte(text))
	assert.Equal(t, "A: B", got["name"])
	assert.Equal(t, "1", got["list[0].one"])
	assert.Equal(t, "y z", got["list[0].two[1]"])
	assert.Equal(t, "many\nlines\n", got["list[1].one"])
	for path := range got {
		raw, ok := document.Raw([]byte(text), path)
		assert.True(t, ok, path)
		assert.Equal(t, raw, got[path], path)
	}
	assert.Empty(t, document.Scalars([]byte("[1, 2]")))
}
