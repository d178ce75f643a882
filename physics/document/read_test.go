package document_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/document"
	"wheelroom/physics/document/marked"
)

func read(name string, text []byte) []document.Problem {
	s := plain()
	return document.Read(name, text, s.declare)
}

func TestForm(t *testing.T) {
	c := words(t)
	marked.Check(t, "testdata/form.txt", c.Text, read)
	assert.Empty(t, c.Missing())
}

func TestReadGivesTheValues(t *testing.T) {
	s := plain()
	problems := document.Read("x", []byte(`
version: 2
name: 'it''s'
size_mm: 1.5e2
least_mm: -0.5
pause_ms: 15
count: -3
hot: true
colour: green
reach_m: 2
reach_out_m: 3
inner: {depth_m: 4, more: {deeper_m: 1}}
parts:
  - label: |
      one
      two
  - {label: b, size_m: -5}
tags: [yes, "2"]
`), s.declare)
	require.Empty(t, problems)
	least := -0.5
	assert.Equal(t, sample{version: 2, name: "it's", sizeMM: 150, least: &least, pauseS: 0.015, count: -3, hot: true,
		colour: "green", inM: 2, outM: 3, depthM: 4, deeper: 1, parts: []part{{"one\ntwo\n", 0}, {"b", -5}},
		tags: []string{"yes", "2"}}, s)
}

func TestAbsentAndWrongValuesStayAsTheyWere(t *testing.T) {
	s := plain()
	s.outM = 2
	document.Read("x", []byte("name: b\nsize_mm: -1\ncolour: blue\nreach_m: far\n"), s.declare)
	want := plain()
	want.name, want.outM = "b", 2
	assert.Equal(t, want, s)
}

func TestAnEmptyListReplacesADefault(t *testing.T) {
	s := plain()
	s.tags = []string{"x"}
	document.Read("x", []byte("name: b\nparts: []\ntags: []\n"), s.declare)
	assert.Empty(t, s.parts)
	assert.Empty(t, s.tags)
}

func TestLineEndsAndByteOrderMarkMoveNothing(t *testing.T) {
	text := "name: a # first\nsize_mm: 5000 # second\n\ncount: x\n"
	want := read("x", []byte(text))
	require.Len(t, want, 2)
	for name, other := range map[string]string{
		"windows": strings.ReplaceAll(text, "\n", "\r\n"),
		"old mac": strings.ReplaceAll(text, "\n", "\r"),
		"marked":  "\ufeff" + text,
	} {
		assert.Equal(t, want, read("x", []byte(other)), name)
	}
}

// What is too large or too deep is refused before the parser sees it: its time
// grows with the square of both.
func TestHostile(t *testing.T) {
	var wide strings.Builder
	for i := range 100_000 {
		wide.WriteString("k")
		wide.WriteString(strings.Repeat("x", i%7))
		wide.WriteString(": 1\n")
	}
	for _, c := range []struct{ name, text, want string }{
		{"a megabyte and a byte", strings.Repeat("#", document.MaxBytes+1), "document.too-long"},
		{"many keys", wide.String(), "document.too-many-values"},
		{"many brackets", "tags: " + strings.Repeat("[", 5000), "document.too-deep"},
		{"many closed brackets", "tags: " + strings.Repeat("[", 25) + strings.Repeat("]", 25), "document.too-deep"},
		{"many braces", "inner: " + strings.Repeat("{a: ", 25) + strings.Repeat("}", 25), "document.too-deep"},
		{"many dashes", "tags:\n  " + strings.Repeat("- ", 30) + "a", "document.too-deep"},
		{"many indents", deepBlock(30), "document.too-deep"},
		{"many dashes in a line", strings.Repeat("- ", 4000), "document.too-deep"},
		{"many question marks", strings.Repeat("? ", 4000), "document.too-deep"},
		{"many tags", "name: " + strings.Repeat("!!str ", 4000), "document.too-deep"},
		{"many anchors", "name: " + strings.Repeat("&a ", 4000), "document.too-deep"},
		{"many keys in a line", strings.Repeat("a: ", 3000), "document.too-deep"},
		{"brackets in blocks", "a:\n b:\n  c: " + strings.Repeat("[", 22), "document.too-deep"},
		{"not UTF-8", "name: caf\xe9", "document.not-utf8"},
		{"references to references", "a: &a [1]\nb: &b [*a, *a]\nc: [*b, *b]\n", "document.anchor"},
	} {
		t.Run(c.name, func(t *testing.T) {
			problems := read("x", []byte(c.text))
			assert.True(t, document.Failed(problems))
			var ids []string
			for _, p := range problems {
				ids = append(ids, p.Phrase.ID)
			}
			assert.Contains(t, ids, c.want)
		})
	}
}

func deepBlock(levels int) string {
	var b strings.Builder
	for i := range levels {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String() + strings.Repeat(" ", levels) + "b: 1\n"
}

func TestPlaceOfBytesThatAreNoText(t *testing.T) {
	problems := read("x", []byte("name: a\ncolour: r\u00f6\xff"))
	require.Len(t, problems, 1)
	assert.Equal(t, []int{2, 11}, []int{problems[0].Line, problems[0].Col})
}

func TestFormat(t *testing.T) {
	problems := read("sample.yaml", []byte("name: a\ncount: 11\n"))
	require.Len(t, problems, 1)
	assert.Equal(t, "sample.yaml:2:8: count is 11; it must be at most 10, because it is a sample",
		problems[0].Format(words(t).Text))
	assert.Equal(t, "sample.yaml: count is 11; it must be at most 10, because it is a sample",
		document.Problem{File: "sample.yaml", Phrase: problems[0].Phrase}.Format(words(t).Text))
}

func TestPlace(t *testing.T) {
	text := []byte("name: a\ninner:\n  depth_m: 1\nparts:\n  - {label: x}\n  - label: y\n")
	for _, c := range []struct {
		path      string
		line, col int
		has       bool
	}{
		{"name", 1, 7, true},
		{"inner", 2, 1, true},
		{"inner.depth_m", 3, 12, true},
		{"inner.more.deeper_m", 2, 1, false}, // nearest around it
		{"parts", 4, 1, true},
		{"parts[0].label", 5, 13, true},
		{"parts[1].label", 6, 12, true},
		{"parts[1].size_m", 6, 5, false},
		{"parts[7].size_m", 4, 1, false},
		{"count", 1, 1, false},
	} {
		problems := []document.Problem{{Path: c.path}}
		document.Place("f", text, problems)
		assert.Equal(t, []int{c.line, c.col}, []int{problems[0].Line, problems[0].Col}, c.path)
		assert.Equal(t, c.has, document.Has(text, c.path), c.path)
	}
}

func TestSound(t *testing.T) {
	problems := []document.Problem{{Path: "inner.depth_m"}, {Path: "parts[1].label"}, {Path: "count", Warning: true}}
	for path, want := range map[string]bool{
		"inner": false, "inner.depth_m": false, "inner.more": true, "parts": false, "parts[0].label": true,
		"parts[1]": false, "count": true, "in": true,
	} {
		assert.Equal(t, want, document.Sound(problems, path), path)
	}
}

func TestKeys(t *testing.T) {
	assert.Equal(t, []string{"name", "floors"}, document.Keys([]byte("name: a\nfloors: []\n")))
	assert.Empty(t, document.Keys([]byte("- a\n")))
}

func FuzzRead(f *testing.F) {
	for _, d := range marked.Read(f, "testdata/form.txt") {
		f.Add(d.Text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		s := plain()
		problems := document.Read("x", text, s.declare)
		for _, p := range problems {
			require.GreaterOrEqual(t, p.Line, 1)
			require.GreaterOrEqual(t, p.Col, 1)
			require.True(t, utf8.ValidString(p.Phrase.String()))
		}
		if document.Failed(problems) {
			return
		}
		again := sample{}
		require.Empty(t, document.Read("y", document.Write(s.declare), again.declare))
		require.Equal(t, s, again)
	})
}
