package main

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/web/program"
)

// ofScreen finds messages of drive and hand-winding by name; a dollar sign
// behind one says that the rest of its name is computed.
var ofScreen = regexp.MustCompile("[\"`]((?:drive|winding)-screen\\.[a-z0-9-]*)(\\$?)")

// Every message of the two screens is there, and none lies unused.
func TestWordsOfDriveAndWinding(t *testing.T) {
	words := program.English().Words
	used, begun := map[string]bool{}, []string{}
	for name, text := range sources(t, ".html", ".js") {
		for _, found := range ofScreen.FindAllStringSubmatch(text, -1) {
			if found[2] == "$" {
				begun = append(begun, found[1])
				continue
			}
			used[found[1]] = true
			assert.True(t, words.Has(found[1]), "%s: %s", name, found[1])
		}
	}
	for _, id := range words.IDs() {
		if family, _, _ := strings.Cut(id, "."); family != "drive-screen" && family != "winding-screen" || used[id] {
			continue
		}
		found := false
		for _, prefix := range begun {
			found = found || strings.HasPrefix(id, prefix) && prefix != "drive-screen." && prefix != "winding-screen."
		}
		assert.True(t, found || computed[id], "%s is used nowhere", id)
	}
}

// computed are messages whose whole name is computed.
var computed = map[string]bool{
	"drive-screen.speed": true, "drive-screen.motor": true, "drive-screen.torque": true, "drive-screen.energy": true, "drive-screen.winding": true,
	"drive-screen.csv": true, "drive-screen.csv-figures": true, "winding-screen.up": true, "winding-screen.down": true,
}
