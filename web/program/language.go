package program

import (
	"encoding/json"
	"fmt"

	"wheelroom/assets"
	"wheelroom/lessons/script"
	"wheelroom/physics/phrase"
)

// english is the language that the program itself holds: the one in which
// lessons are first written.
const english = "en"

// A Language is everything the program says in one language. English is in the
// program; any other comes as one file, made when the site is built, so that
// the program does not grow with the languages there are.
type Language struct {
	Words *phrase.Catalogue
	Told  map[string]Told // lessons by identity; those it lacks are told in English

	files [][]byte // message files
}

// Told is a lesson in a language.
type Told struct {
	Contents script.Contents
	Text     string // its file
}

// Tag names the language, as in "de".
func (l *Language) Tag() string { return l.Words.Language() }

// Name is what the language calls itself.
func (l *Language) Name() string { return l.Words.Text(phrase.Of("language.name")) }

// English returns the language that is in the program.
func English() *Language {
	l, err := New(assets.Words(english), nil)
	if err != nil {
		panic("program: " + err.Error())
	}
	return l
}

// New makes a language of its message files and of its lesson files, by
// identity. The error is that of the message files, or names a lesson that
// cannot be used.
func New(messages [][]byte, lessons map[string][]byte) (*Language, error) {
	l := &Language{Told: map[string]Told{}, files: messages}
	for id, text := range lessons {
		lesson, problems := script.Read(id+".yaml", text, Building)
		if lesson == nil {
			return nil, fmt.Errorf("program: %s", problems[0].Format(phrase.Phrase.String))
		}
		l.Told[id] = Told{lesson.Contents(), string(text)}
	}
	return l, l.read()
}

func (l *Language) read() (err error) {
	l.Words, err = phrase.ReadCatalogue(l.files...)
	return err
}

// A file is a language as it is handed to the program in the browser.
type file struct {
	Words   []string        `json:"words"`
	Lessons map[string]Told `json:"lessons"`
}

// File writes the language for Read.
func (l *Language) File() []byte {
	f := file{Lessons: l.Told}
	for _, text := range l.files {
		f.Words = append(f.Words, string(text))
	}
	text, err := json.Marshal(f) // sorts the lessons
	if err != nil {
		panic("program: language as JSON: " + err.Error())
	}
	return text
}

// Read reads what File wrote.
func Read(text []byte) (*Language, error) {
	var f file
	if err := json.Unmarshal(text, &f); err != nil {
		return nil, fmt.Errorf("program: language: %w", err)
	}
	l := &Language{Told: f.Lessons}
	for _, words := range f.Words {
		l.files = append(l.files, []byte(words))
	}
	return l, l.read()
}
