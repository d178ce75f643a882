package figure_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/game/figure"
)

func TestFit(t *testing.T) {
	const text = "direction relay"
	wide := figure.Measure(text, 10, true)
	for _, c := range []struct {
		name        string
		width       float64
		want        string
		least, most float64
	}{
		{"room enough", wide + 1, text, 10, 10},
		{"just enough", wide, text, 10, 10},
		{"set smaller", 0.9 * wide, text, 8.99, 9.01},
		{"as small as may be", 0.8 * wide, text, 7.99, 8.01},
		{"cut, and no gap before the dots", 0.8 * figure.Measure("direction …", 10, true), "direction…", 8, 8},
		{"no room at all", 0, "…", 8, 8},
	} {
		got, size := figure.Fit(text, 10, 8, c.width, true)
		assert.Equal(t, c.want, got, c.name)
		assert.True(t, size >= c.least && size <= c.most, "%s: %v", c.name, size)
		if c.width > 0 {
			assert.LessOrEqual(t, figure.Measure(got, size, true), c.width*(1+1e-6), c.name)
		}
	}
}

func TestWrap(t *testing.T) {
	const text = "the relay that remembers"
	width := figure.Measure("the relay that", 10, false)
	assert.Equal(t, []string{"the relay that", "remembers"}, figure.Wrap(text, 10, width, false))
	assert.Equal(t, []string{text}, figure.Wrap(text, 10, 10*width, false))
	assert.Equal(t, []string{"the", "relay", "that", "remembers"}, figure.Wrap(text, 10, 1, false))
	assert.Empty(t, figure.Wrap("", 10, width, false))
}
