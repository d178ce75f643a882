package document

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestNearest(t *testing.T) {
	keys := []string{"span_deg", "advance_m", "advance_up_m", "advance_down_m", "handwheel_kg_m2", "name"}
	for word, want := range map[string]string{
		"span_dge":         "span_deg",
		"Span_Deg":         "span_deg",
		"advance_mm":       "advance_m",
		"advance_dwon_m":   "advance_down_m",
		"advance":          "advance_m", // its unit forgotten
		"handwheel":        "handwheel_kg_m2",
		"handwheel_kgm2":   "handwheel_kg_m2",
		"handwheel_lb_ft2": "handwheel_kg_m2", // another unit
		"nmae":             "name",
		"colour":           "",
		"x":                "",
		"":                 "",
	} {
		assert.Equal(t, want, Nearest(word, keys), word)
	}
	assert.Empty(t, Nearest("name", nil))
}

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"a", "", 1}, {"abc", "abc", 0}, {"abc", "acb", 1}, {"abc", "abd", 1}, {"abc", "bc", 1},
		{"kitten", "sitting", 3}, // Levenshtein's distance in every textbook
		{"ca", "abc", 3},         // one edit a place; the unrestricted distance is 2
		{"öl", "ol", 1},
	} {
		assert.Equal(t, c.want, distance(c.a, c.b), "%s %s", c.a, c.b)
	}
}

// TestDistanceAgainstItsDefinition compares with the recursion that defines it.
func TestDistanceAgainstItsDefinition(t *testing.T) {
	var slow func(a, b string) int
	slow = func(a, b string) int {
		if a == "" || b == "" {
			return len(a) + len(b)
		}
		change := 1
		if a[len(a)-1] == b[len(b)-1] {
			change = 0
		}
		d := min(slow(a[:len(a)-1], b)+1, slow(a, b[:len(b)-1])+1, slow(a[:len(a)-1], b[:len(b)-1])+change)
		if n, m := len(a), len(b); n > 1 && m > 1 && a[n-1] == b[m-2] && a[n-2] == b[m-1] {
			d = min(d, slow(a[:n-2], b[:m-2])+1)
		}
		return d
	}
	r := rand.New(rand.NewPCG(3, 4))
	word := func() string {
		w := make([]byte, r.IntN(6))
		for i := range w {
			w[i] = "abc"[r.IntN(3)]
		}
		return string(w)
	}
	for range 300 {
		a, b := word(), word()
		require.Equal(t, slow(a, b), distance(a, b), "%q %q", a, b)
		require.Equal(t, distance(a, b), distance(b, a))
	}
}
