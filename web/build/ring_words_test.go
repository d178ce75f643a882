package main

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/web/program"
)

// ofRing finds messages of the ring bench by name; a dollar sign behind one
// says that the rest of its name is computed.
var ofRing = regexp.MustCompile("[\"`](ring-screen\\.[a-z0-9-]*)(\\$?)")

// Every message of the ring bench is there, and none lies unused.
func TestWordsOfTheRingBench(t *testing.T) {
	words := program.English().Words
	used, begun := map[string]bool{}, []string{}
	for name, text := range sources(t, ".html", ".js") {
		for _, found := range ofRing.FindAllStringSubmatch(text, -1) {
			if found[2] == "$" {
				begun = append(begun, found[1])
				continue
			}
			used[found[1]] = true
			assert.True(t, words.Has(found[1]), "%s: %s", name, found[1])
		}
	}
	for _, id := range words.IDs() {
		if !strings.HasPrefix(id, "ring-screen.") || used[id] {
			continue
		}
		found := false
		for _, prefix := range begun {
			found = found || strings.HasPrefix(id, prefix) && prefix != "ring-screen."
		}
		assert.True(t, found, "%s is used nowhere", id)
	}
}
