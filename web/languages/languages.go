// Package languages opens the languages that ship. It holds the words and
// lessons of them all, so the program in the browser leaves it out: that is
// handed the one language of its page.
package languages

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"wheelroom/assets/words"
	"wheelroom/lessons"
	"wheelroom/web/program"
)

// English is the tag of the language in which everything is first written.
const English = "en"

// Tags returns the languages there are, English first, then by tag.
func Tags() []string {
	tags := slices.DeleteFunc(words.Languages(), func(tag string) bool { return tag == English })
	return slices.Insert(tags, 0, English)
}

// Open returns a language by its tag. The error names the languages there are.
func Open(tag string) (*program.Language, error) {
	if !slices.Contains(Tags(), tag) {
		return nil, fmt.Errorf("there is no language %q; there are %s", tag, strings.Join(Tags(), ", "))
	}
	if tag == English {
		return program.English(), nil
	}
	told := lessons.Translated("course", tag)
	maps.Copy(told, lessons.Translated("exhibit", tag))
	return program.New(words.Of(tag), told)
}
