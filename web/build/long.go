package main

import (
	"slices"

	"github.com/goccy/go-yaml"

	"wheelroom/assets/words/long"
	"wheelroom/lessons/course"
	"wheelroom/lessons/exhibit"
	"wheelroom/web/program"
)

// lengthened is an edition for tests of the layout, in which every text is
// longer by two fifths.
func lengthened() (edition, error) {
	lessons, written := map[string][]byte{}, [][]byte{}
	for _, f := range course.Files() {
		written = append(written, f.Text)
	}
	for _, f := range exhibit.Files() {
		written = append(written, f.Text)
	}
	for _, file := range written {
		var lesson yaml.MapSlice
		if err := yaml.UnmarshalWithOptions(file, &lesson, yaml.UseOrderedMap()); err != nil {
			return edition{}, err
		}
		text, err := yaml.Marshal(stretched(lesson, ""))
		if err != nil {
			return edition{}, err
		}
		id := lesson[slices.IndexFunc(lesson, func(m yaml.MapItem) bool { return m.Key == "id" })].Value.(string)
		lessons[id] = text
	}
	l, err := program.New(long.Words(), lessons)
	if err != nil {
		return edition{}, err
	}
	return newEdition(l), nil
}

// room is how many letters a file of a lesson has for its texts, by key; those
// that are not named have more than enough.
var room = map[string]int{"title": 60, "word": 60, "text": 6000, "because": 6000, "summary": 6000, "caution": 6000, "means": 300, "aims": 300}

// stretched lengthens the texts of a part of a lesson's file that stands under
// a key.
func stretched(part any, key string) any {
	switch v := part.(type) {
	case yaml.MapSlice:
		for i := range v {
			v[i].Value = stretched(v[i].Value, v[i].Key.(string))
		}
	case []any:
		for i := range v {
			v[i] = stretched(v[i], key)
		}
	case string:
		if room[key] > 0 {
			return shortened(long.Text(v), room[key])
		}
	}
	return part
}

// shortened cuts a text to so many letters.
func shortened(text string, most int) string {
	letters := []rune(text)
	return string(letters[:min(len(letters), most)])
}
