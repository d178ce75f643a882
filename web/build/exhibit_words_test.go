package main

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/web/program"
)

// ofExhibit finds messages of the view for an exhibition by name; a dollar sign
// behind one says that the rest of its name is computed.
var ofExhibit = regexp.MustCompile("[\"`](exhibit\\.[a-z0-9-]*)(\\$?)")

// Every message of the view is there, and none lies unused.
func TestWordsOfTheExhibit(t *testing.T) {
	words := program.English().Words
	used, begun := map[string]bool{}, []string{}
	for name, text := range sources(t, ".html", ".js") {
		for _, found := range ofExhibit.FindAllStringSubmatch(text, -1) {
			if found[2] == "$" {
				begun = append(begun, found[1])
				continue
			}
			used[found[1]] = true
			assert.True(t, words.Has(found[1]), "%s: %s", name, found[1])
		}
	}
	for _, id := range words.IDs() {
		if !strings.HasPrefix(id, "exhibit.") || used[id] {
			continue
		}
		found := false
		for _, prefix := range begun {
			found = found || strings.HasPrefix(id, prefix) && prefix != "exhibit."
		}
		assert.True(t, found, "%s is used nowhere", id)
	}
}
