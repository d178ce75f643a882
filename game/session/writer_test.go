package session

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
)

// wrote asks the screen that writes lessons.
func wrote[T any](t *testing.T, s *Session, what string, args any) (T, error) {
	t.Helper()
	text, err := json.Marshal(args)
	require.NoError(t, err)
	value, err := s.Screen(&figure.Paper, "writer", what, text)
	if err != nil {
		var none T
		return none, err
	}
	return value.(T), nil
}

func blank(t *testing.T, s *Session) string {
	t.Helper()
	text, err := wrote[string](t, s, "blank", struct{}{})
	require.NoError(t, err)
	return text
}

func TestBlankLessonWorks(t *testing.T) {
	s := openWith(t, catalogue(t).Text)
	text := blank(t, s)
	d, err := wrote[Draft](t, s, "read", WriterItem{text, 0})
	require.NoError(t, err)
	assert.True(t, d.Sound, "%v", d.Faults)
	assert.Len(t, d.Items, 1)
	p, err := wrote[Proof](t, s, "prove", WriterItem{text, 0})
	require.NoError(t, err)
	assert.Empty(t, p.Faults)
	assert.Equal(t, "At floor 5", p.Answer, "the machine decides")
	assert.Contains(t, p.Picture, "<svg")
}

// Each entry of the form, written back as it is, changes nothing a reader
// would notice; another value comes back as it was typed.
func TestFormWritesTheText(t *testing.T) {
	s := openWith(t, catalogue(t).Text)
	text := blank(t, s)
	d, err := wrote[Draft](t, s, "read", WriterItem{text, 0})
	require.NoError(t, err)
	set := map[string]string{"text": "Two words", "long": "One line.\n\nAnother: with {start.floor}.", "list": "2, 3", "calls": "2@0.5, 4@1.25"}
	tried := 0
	for _, f := range d.Fields {
		value, ok := set[f.Kind]
		if !ok {
			continue
		}
		tried++
		next, err := wrote[string](t, s, "edit", WriterEdit{Text: text, Do: "set", Path: f.Path, Kind: f.Kind, Value: value})
		require.NoError(t, err, f.Path)
		again, err := wrote[Draft](t, s, "read", WriterItem{next, 0})
		require.NoError(t, err)
		require.True(t, again.Readable, f.Path)
		found := ""
		for _, g := range again.Fields {
			if g.Path == f.Path {
				found = g.Value
			}
		}
		assert.Equal(t, value, found, f.Path)
	}
	assert.Greater(t, tried, 12)

	more, err := wrote[string](t, s, "edit", WriterEdit{Text: text, Do: "add", Path: "items[0].options", Value: `{text: "Nowhere", stops: [], because: "A call brings it."}`})
	require.NoError(t, err)
	p, err := wrote[Proof](t, s, "prove", WriterItem{more, 0})
	require.NoError(t, err)
	assert.Len(t, p.Options, 3)
	fewer, err := wrote[string](t, s, "edit", WriterEdit{Text: more, Do: "remove", Path: "items[0].options", Index: 2})
	require.NoError(t, err)
	assert.Equal(t, strings.TrimSpace(text), strings.TrimSpace(fewer))
}

func TestFaultsOfALessonHaveTheirLines(t *testing.T) {
	s := openWith(t, catalogue(t).Text)
	text := blank(t, s)
	d, err := wrote[Draft](t, s, "read", WriterItem{strings.Replace(text, "until: stops 5", "until: stopps 5", 1), 0})
	require.NoError(t, err)
	require.NotEmpty(t, d.Faults)
	at := strings.Count(text[:strings.Index(text, "until: stops 5")], "\n") + 1
	assert.Equal(t, at, d.Faults[0].Line)

	p, err := wrote[Proof](t, s, "prove", WriterItem{strings.Replace(text, `stops: ["5"]`, `stops: ["4"]`, 1), 0})
	require.NotEmpty(t, p.Faults, "no option is right: %v", err)
}

// A written lesson can be opened beside those that ship, and takes the place
// of none.
func TestOffer(t *testing.T) {
	s := openWith(t, catalogue(t).Text)
	before := len(s.Lessons())
	id, err := wrote[string](t, s, "use", struct{ Text string }{blank(t, s)})
	require.NoError(t, err)
	assert.Equal(t, "own-my-lesson", id)
	assert.Len(t, s.Lessons(), before+1)
	require.NoError(t, s.LessonDo("open", id))
	assert.Equal(t, "My lesson", s.Lesson().Title)
	require.NoError(t, s.Restore(s.Record()))
}

// Whatever a file holds, it is refused in words and the session goes on.
func TestHostileLessons(t *testing.T) {
	s := openWith(t, catalogue(t).Text)
	text := blank(t, s)
	for name, bad := range map[string]string{
		"a script in Markdown": strings.Replace(text, "text: Floor 5 calls. Where does the car stop?", `text: "<script>alert(1)</script>"`, 1),
		"a link that runs":     strings.Replace(text, "text: Floor 5 calls. Where does the car stop?", `text: "[x](javascript:alert(1))"`, 1),
		"ten megabytes":        text + strings.Repeat("# a long remark\n", 10<<16),
		"anchors in a ring":    "a: &a [*b]\nb: &b [*a]\n" + text,
		"anchors in a tree":    "a: &a [1]\nb: &b [*a, *a]\nc: &c [*b, *b]\n" + text,
		"no text":              "\x00\xff\xfe",
		"deep":                 strings.Repeat("[", 5000),
	} {
		d, err := wrote[Draft](t, s, "read", WriterItem{bad, 0})
		require.NoError(t, err, name)
		assert.False(t, d.Sound, name)
		require.NotEmpty(t, d.Faults, name)
		assert.NotEmpty(t, d.Faults[0].Text, name)
		_, err = wrote[string](t, s, "use", struct{ Text string }{bad})
		assert.Error(t, err, name)
		_, err = wrote[Proof](t, s, "prove", WriterItem{bad, 0})
		assert.Error(t, err, name)
	}
	require.NoError(t, s.Advance(1))
}
