package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/web/program"
)

// sources returns the texts of the page's files with one of the suffixes, by
// name.
func sources(t *testing.T, suffixes ...string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir("../page", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		for _, suffix := range suffixes {
			if strings.HasSuffix(path, suffix) {
				text, err := os.ReadFile(path)
				all[path] = string(text)
				return err
			}
		}
		return nil
	})
	require.NoError(t, err)
	require.NotEmpty(t, all)
	return all
}

var (
	ofAction = regexp.MustCompile(`(?s)\{\{.*?\}\}|<!--.*?-->|<(style|script)[^>]*>.*?</(style|script)>`)
	ofTag    = regexp.MustCompile(`(?s)<[^>]*>`)
	ofLabel  = regexp.MustCompile(`\b(?:title|alt|aria-label|placeholder|content)="([^"]*)"`)
	ofLetter = regexp.MustCompile(`\p{L}{2,}`)
	ofString = regexp.MustCompile("[\"`]([a-z]+\\.[a-z0-9-]+)(\\$?)")
	ofWord   = regexp.MustCompile(`\{\{\s*word "([^"]+)"`)
)

// Every word a reader sees comes from the catalogue: none stands in the pages.
func TestPagesHoldNoWords(t *testing.T) {
	for name, text := range sources(t, ".html") {
		bare := ofAction.ReplaceAllString(text, "")
		for _, found := range ofLabel.FindAllStringSubmatch(bare, -1) {
			if strings.HasPrefix(found[1], "width=device-width") || found[1] == "light dark" {
				continue
			}
			assert.NotRegexp(t, ofLetter, found[1], name)
		}
		assert.NotRegexp(t, ofLetter, ofTag.ReplaceAllString(bare, ""), name)
	}
}

var ofShared = regexp.MustCompile(`(?:href|src)="(?:style|js|fonts|icon)[/.]`)

// What the pages of all languages share they reach through the root of the
// site, from whatever folder they stand in.
func TestPagesReachWhatTheyShareThroughTheRoot(t *testing.T) {
	for name, text := range sources(t, ".html") {
		assert.NotRegexp(t, ofShared, text, "%s: put {{.Root}} in front", name)
	}
}

// Every message that pages and scripts name is there.
func TestEveryWordIsThere(t *testing.T) {
	words := program.English().Words
	for name, text := range sources(t, ".html", ".js") {
		for _, found := range ofWord.FindAllStringSubmatch(text, -1) {
			assert.True(t, words.Has(found[1]), "%s: %s", name, found[1])
		}
		for _, found := range ofString.FindAllStringSubmatch(text, -1) {
			if strings.HasPrefix(found[1], "page.") && found[2] == "" {
				assert.True(t, words.Has(found[1]), "%s: %s", name, found[1])
			}
		}
	}
	for _, id := range cautions {
		assert.True(t, words.Has(id) && words.Has(id+"-why"), id)
	}
	for _, k := range keys {
		assert.True(t, words.Has(k.Key) && words.Has(k.Does), k.Key)
	}
}

// No message of the page lies unused: it would be translated for nothing.
func TestEveryWordIsUsed(t *testing.T) {
	words := program.English().Words
	used, begun := map[string]bool{}, []string{}
	for _, text := range sources(t, ".html", ".js") {
		for _, found := range ofString.FindAllStringSubmatch(text, -1) {
			if found[2] == "$" {
				begun = append(begun, found[1]) // `page.relay-${name}`
			} else {
				used[found[1]] = true
			}
		}
	}
	for _, k := range keys {
		used[k.Key], used[k.Does] = true, true
	}
	// The tables name a value's message by its kind of cell.
	begun = append(begun, "page.call-", "page.lamp-", "page.switch-", "page.contact-")
	for _, id := range words.IDs() {
		if !strings.HasPrefix(id, "page.") || used[id] {
			continue
		}
		found := false
		for _, prefix := range begun {
			found = found || strings.HasPrefix(id, prefix)
		}
		assert.True(t, found, "%s is used nowhere", id)
	}
}
