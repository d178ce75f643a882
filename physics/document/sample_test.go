package document_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// sample is a declaration with every kind of field.
type sample struct {
	version int
	name    string
	sizeMM  float64
	least   *float64
	pauseS  float64
	count   int
	hot     bool
	colour  string
	inM     float64
	outM    float64
	depthM  float64
	deeper  float64
	parts   []part
	tags    []string
}

type part struct {
	label string
	size  float64
}

const why = "sample.why"

func (s *sample) declare(m *document.Mapping) {
	m.Need("name")
	m.Version(&s.version, 3)
	m.Text("name", &s.name, document.Count(1, 20, why))
	m.Float("size_mm", &s.sizeMM, document.AboveTo(0, 1000, "mm", why))
	m.Maybe("least_mm", &s.least, document.Between(-10, 10, "mm", why))
	m.Float("pause_ms", &s.pauseS, document.Milliseconds(0, 5000, why))
	m.Int("count", &s.count, document.Between(-10, 10, "", why))
	m.Bool("hot", &s.hot)
	m.Choice("colour", &s.colour, []string{"red", "green"}, why)
	m.Either("reach_m", "reach_in_m", "reach_out_m", &s.inM, &s.outM, document.Between(0, 5, "m", why))
	m.Map("inner", func(m *document.Mapping) {
		m.Float("depth_m", &s.depthM, document.Between(0, 5, "m", why))
		m.Map("more", func(m *document.Mapping) {
			m.Float("deeper_m", &s.deeper, document.Between(0, 5, "m", why))
		})
	})
	document.ListOf(m, "parts", &s.parts, document.Count(1, 3, why), func(m *document.Mapping, p *part) {
		m.Need("label")
		m.Text("label", &p.label, document.Count(0, 80, why))
		m.Float("size_m", &p.size, document.Between(-5, 5, "m", why))
	})
	m.Texts("tags", &s.tags, document.Count(0, 2, why))
}

func plain() sample {
	return sample{version: 3, name: "plain", sizeMM: 10, count: 1, colour: "red", parts: []part{{"a", 1}}}
}

// words reads the program's own words and the sample's.
func words(t testing.TB) *phrase.Catalogue {
	t.Helper()
	var files [][]byte
	for _, name := range []string{"language", "document"} {
		text, err := os.ReadFile("../../assets/words/en/" + name + ".yaml")
		require.NoError(t, err)
		files = append(files, text)
	}
	c, err := phrase.ReadCatalogue(append(files, []byte(`sample.why: "it is a sample"`))...)
	require.NoError(t, err)
	return c
}

var plainTitle = phrase.Of("document.at-top")
