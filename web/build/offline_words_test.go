package main

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/web/program"
)

var ofOffline = regexp.MustCompile(`"(offline\.[a-z-]+)"`)

// Every message of use without a network is there, and none lies unused.
func TestWordsOfUseWithoutANetwork(t *testing.T) {
	words := program.English().Words
	used := map[string]bool{"offline.short-name": true} // of the manifest
	for name, text := range sources(t, ".html", ".js") {
		for _, found := range ofOffline.FindAllStringSubmatch(text, -1) {
			used[found[1]] = true
			assert.True(t, words.Has(found[1]), "%s: %s", name, found[1])
		}
	}
	for _, id := range words.IDs() {
		if strings.HasPrefix(id, "offline.") {
			assert.True(t, used[id], "%s is used nowhere", id)
		}
	}
}
