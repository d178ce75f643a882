package main

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/web/program"
)

// families are the messages of screens, views and of use without a network.
var families = []string{"drive-screen", "winding-screen", "ring-screen", "exhibit", "offline"}

// ofFamily finds such messages by name; a dollar sign behind one says that the
// rest of its name is computed.
var ofFamily = regexp.MustCompile("[\"`]((?:" + strings.Join(families, "|") + ")\\.)([a-z0-9-]*)(\\$?)")

// Every message of the families is there, and none lies unused.
func TestWordsOfTheScreens(t *testing.T) {
	words := program.English().Words
	used, begun := map[string]bool{}, []string{}
	for name, text := range sources(t, ".html", ".js") {
		for _, found := range ofFamily.FindAllStringSubmatch(text, -1) {
			family, rest, computed := found[1], found[2], found[3] == "$"
			switch {
			case !computed:
				used[family+rest] = true
				assert.True(t, words.Has(family+rest), "%s: %s", name, family+rest)
			case rest != "":
				begun = append(begun, family+rest)
			}
		}
	}
	for _, id := range words.IDs() {
		family, _, _ := strings.Cut(id, ".")
		if !slices.Contains(families, family) || used[id] || computed[id] {
			continue
		}
		assert.True(t, slices.ContainsFunc(begun, func(b string) bool { return strings.HasPrefix(id, b) }), "%s is used nowhere", id)
	}
}

// computed are messages whose whole name is computed, or that no page names.
var computed = map[string]bool{
	"drive-screen.speed": true, "drive-screen.motor": true, "drive-screen.torque": true, "drive-screen.energy": true, "drive-screen.winding": true,
	"drive-screen.csv": true, "drive-screen.csv-figures": true, "winding-screen.up": true, "winding-screen.down": true,
	"offline.short-name": true, // of the manifest
}
