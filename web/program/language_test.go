package program_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/lessons/course"
	"wheelroom/physics/phrase"
	"wheelroom/web/program"
)

// other is English under another tag, with one lesson.
func other(t *testing.T) *program.Language {
	t.Helper()
	var words [][]byte
	for _, text := range assets.Words("en") {
		words = append(words, bytes.Replace(text, []byte("language.tag: en\n"), []byte("language.tag: de\n"), 1))
	}
	for _, f := range course.Files() {
		if f.Name == "two-calls.yaml" {
			text := bytes.Replace(f.Text, []byte("title: Two calls at once"), []byte("title: Zwei Rufe"), 1)
			l, err := program.New(words, map[string][]byte{"two-calls": text})
			require.NoError(t, err)
			return l
		}
	}
	t.Fatal("no lesson two-calls")
	return nil
}

// A language comes through its file whole, and has the lessons it tells; the
// rest are English and say so.
func TestALanguageComesThroughItsFile(t *testing.T) {
	made := other(t)
	l, err := program.Read(made.File())
	require.NoError(t, err)
	assert.Equal(t, "de", l.Tag())
	assert.Equal(t, made.File(), l.File())
	assert.Equal(t, program.English().Words.Text(phrase.Of("page.run")), l.Words.Text(phrase.Of("page.run")))
	english, told := program.English().Lessons(), 0
	for i, lesson := range l.Lessons() {
		require.Equal(t, english[i].ID, lesson.ID)
		contents := lesson.Contents()
		if lesson.ID == "two-calls" {
			told++
			assert.Equal(t, "Zwei Rufe", contents.Title)
			assert.Empty(t, contents.Language)
			lesson.Open()
			assert.Equal(t, contents, lesson.Contents())
			continue
		}
		assert.Equal(t, "en", contents.Language, lesson.ID)
		assert.Equal(t, english[i].Contents().Title, contents.Title)
	}
	assert.Equal(t, 1, told)
	lesson := l.Lessons()[0]
	lesson.Open()
	assert.Equal(t, "en", lesson.Contents().Language, "known as well once it is open")
	assert.Empty(t, english[0].Contents().Language)
	_, err = l.Session()
	assert.NoError(t, err)
}

func TestWhatIsNoLanguage(t *testing.T) {
	for _, text := range []string{"", "{", "{}", `{"words": ["a.b: c"]}`} {
		_, err := program.Read([]byte(text))
		assert.Error(t, err, text)
	}
	_, err := program.New(assets.Words("en"), map[string][]byte{"bad": []byte("id: bad\n")})
	assert.ErrorContains(t, err, "bad.yaml")
}
