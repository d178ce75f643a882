// Package marked checks a reader against documents in which the problems
// expected of each line stand beside it:
//
//	=== a floor above nothing
//	floors: 3      ### 9 floors is the number 3
//	               ### warning 9 …
//
// A file holds several documents, each headed by === and what it shows. After
// ### come the column and the beginning of the worded problem, "warning" before
// it where it is one; several may follow each other. A line that begins with
// ### marks the line above. Marks are taken out before the document is read.
package marked

import (
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// A Document is one document of a file and the marks found in it.
type Document struct {
	Name  string
	Text  []byte
	marks []mark
}

type mark struct {
	line int
	want string // "9 floors is …" or "warning 9 …"
}

// Read returns the documents of a file.
func Read(t testing.TB, path string) []Document {
	t.Helper()
	file, err := os.ReadFile(path)
	require.NoError(t, err)
	var all []Document
	for _, chunk := range strings.Split("\n"+string(file), "\n=== ")[1:] {
		name, body, _ := strings.Cut(chunk, "\n")
		d := Document{Name: name}
		var kept []string
		for _, line := range strings.Split(body, "\n") {
			text, wants, marked := strings.Cut(line, "###")
			if !marked || strings.TrimSpace(text) != "" {
				kept = append(kept, strings.TrimRight(text, " "))
			}
			if !marked {
				continue
			}
			for _, want := range strings.Split(wants, "###") {
				d.marks = append(d.marks, mark{len(kept), strings.TrimSpace(want)})
			}
		}
		d.Text = []byte(strings.Join(kept, "\n"))
		all = append(all, d)
	}
	require.NotEmpty(t, all, path)
	return all
}

// Check reads every document of a file and compares the problems with the
// marks: each problem must be marked, and each mark met.
func Check(t *testing.T, path string, text func(phrase.Phrase) string, read func(name string, text []byte) []document.Problem) {
	for _, d := range Read(t, path) {
		t.Run(d.Name, func(t *testing.T) {
			open := slices.Clone(d.marks)
			for _, p := range read(path, d.Text) {
				got := strconv.Itoa(p.Col) + " " + text(p.Phrase)
				if p.Warning {
					got = "warning " + got
				}
				i := slices.IndexFunc(open, func(m mark) bool { return m.line == p.Line && strings.HasPrefix(got, m.want) })
				if i < 0 {
					assert.Fail(t, "problem without a mark", "line %d ### %s", p.Line, got)
					continue
				}
				open = slices.Delete(open, i, i+1)
			}
			for _, m := range open {
				assert.Fail(t, "mark without a problem", "line %d ### %s", m.line, m.want)
			}
		})
	}
}
