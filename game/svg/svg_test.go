package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets/fonts"
	"wheelroom/game/figure"
	"wheelroom/game/figure/sample"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

// One picture with every kind of mark; a change of the writer shows as a
// change of this file.
func TestGolden(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Write(&b, sample.Figure(), &figure.Paper, Options{Title: "Every mark", Desc: "A sample <for tests>", ID: "s-", Parts: true}))
	const name = "testdata/sample.svg"
	if *update {
		require.NoError(t, os.WriteFile(name, b.Bytes(), 0o644))
	}
	want, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Equal(t, string(want), b.String())
}

func write(t *testing.T, f *figure.Figure, options Options) string {
	var b strings.Builder
	require.NoError(t, Write(&b, f, &figure.Paper, options))
	d := xml.NewDecoder(strings.NewReader(b.String()))
	for {
		if _, err := d.Token(); err == io.EOF {
			return b.String()
		} else {
			require.NoError(t, err)
		}
	}
}

func TestTextIsEscaped(t *testing.T) {
	f := new(figure.Figure)
	f.Reset(10, 10)
	f.Text(figure.Paint{Role: figure.Ink}, figure.Face{Size: 5}, 0, 0, "a<b & \"c\"\x01").Part = `"><script>`
	out := write(t, f, Options{Title: "<t>", Parts: true})
	assert.Contains(t, out, `>a&lt;b &amp; &quot;c&quot; </text>`)
	assert.Contains(t, out, `data-part="&quot;&gt;&lt;script&gt;"`)
	assert.Contains(t, out, `<title id="title">&lt;t&gt;</title>`)
}

// A picture that carries its fonts carries only the weights it uses.
func TestFontsAreThoseUsed(t *testing.T) {
	f := new(figure.Figure)
	f.Reset(10, 10)
	o := Options{Regular: fonts.RegularWeb, Bold: fonts.BoldWeb}
	assert.NotContains(t, write(t, f, o), "<style")
	f.Text(figure.Paint{Role: figure.Ink}, figure.Face{Size: 5}, 0, 0, "a")
	out := write(t, f, o)
	assert.Equal(t, 1, strings.Count(out, "@font-face"))
	assert.Contains(t, out, "font-weight:400")
	f.Text(figure.Paint{Role: figure.Ink}, figure.Face{Size: 5, Bold: true}, 0, 0, "a")
	assert.Equal(t, 2, strings.Count(write(t, f, o), "@font-face"))
	assert.NotContains(t, write(t, f, Options{}), "style", "a strict content policy refuses styles")
}

func TestLengths(t *testing.T) {
	for _, c := range []struct {
		v    float64
		want string
	}{{1, "1"}, {1.005, "1"}, {1.006, "1.01"}, {-0.001, "0"}, {-12.3456, "-12.35"}, {1e7, "10000000"}} {
		assert.Equal(t, c.want, decimal(c.v))
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestErrorOfTheWriter(t *testing.T) {
	assert.EqualError(t, Write(full{}, sample.Figure(), &figure.Paper, Options{}), "disk full")
}
