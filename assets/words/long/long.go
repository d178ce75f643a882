// Package long makes a language for tests of layouts: English in which every
// text is longer by two fifths and has letters with accents. A layout that
// holds with it holds with most languages there are.
package long

import (
	"encoding/json"
	"regexp"
	"runtime"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml"

	"wheelroom/assets/words"
)

// Tag names the language: CLDR keeps it for English with accents and longer
// words, made for tests.
const Tag = "en-XA"

// Words returns its message files.
func Words() [][]byte {
	var all [][]byte
	for _, text := range words.Of("en") {
		messages := map[string]any{}
		if err := yaml.Unmarshal(text, &messages); err != nil {
			panic("long: " + err.Error())
		}
		for id, message := range messages {
			switch m := message.(type) {
			case string:
				messages[id] = Text(m)
			case map[string]any:
				for form, text := range m {
					m[form] = Text(text.(string))
				}
			}
		}
		if _, itself := messages["language.tag"]; itself {
			messages["language.tag"], messages["language.name"] = Tag, "Lóng"
		}
		out, err := json.Marshal(messages) // which is YAML as well, and sorted
		if err != nil {
			panic("long: " + err.Error())
		}
		all = append(all, out)
	}
	return all
}

// Languages returns the languages there are and, at the end, this one. Where
// tests run in WebAssembly it is this one alone: a layout is the same there,
// and trying it takes ten times as long.
func Languages() []string {
	if runtime.GOOS == "js" {
		return []string{Tag}
	}
	return append(words.Languages(), Tag)
}

// Of returns the message files of any of them.
func Of(language string) [][]byte {
	if language == Tag {
		return Words()
	}
	return words.Of(language)
}

// share is how much longer a text becomes.
const share = 0.4

// What stays as it is: slots and facts, code, the way of a link.
var (
	kept  = regexp.MustCompile("\\{[^}]*\\}|`[^`]*`|\\]\\([^)]*\\)|\\p{L}+")
	bare  = strings.NewReplacer("a", "ä", "e", "é", "i", "ï", "o", "ö", "u", "ü", "A", "Ä", "E", "É", "I", "Ï", "O", "Ö", "U", "Ü")
	extra = []rune("enarüsétli")
)

// Text lengthens a text word by word, each also for the gap behind it. Words of
// one or two letters, which may be units or keys, stay as they are; those that
// follow make up for them.
func Text(text string) string {
	owed, next := 0.0, 0
	return kept.ReplaceAllStringFunc(text, func(word string) string {
		if strings.ContainsAny(word[:1], "{`]") {
			return word
		}
		letters := utf8.RuneCountInString(word)
		owed += share * float64(letters+1)
		if letters < 3 {
			return word
		}
		var b strings.Builder
		b.WriteString(bare.Replace(word))
		for ; owed >= 0.5; owed-- {
			b.WriteRune(extra[next%len(extra)])
			next++
		}
		return b.String()
	})
}
