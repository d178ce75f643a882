package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const firstPage = `<html lang="en" data-version=""><iframe src="frame/frame.html?v="></iframe><p data-version="12"></p></html>`

// small is a site of a few files, in a folder of its own.
func small(t *testing.T) *site {
	t.Helper()
	s := &site{root: "../..", out: t.TempDir()}
	for name, text := range map[string]string{
		"index.html": firstPage, "de/index.html": firstPage, "js/main.js": "1", "stage.wasm": "program",
		"stage.wasm.br": "small", "stage.wasm.gz": "small", "sw.js": "from the tree",
	} {
		require.NoError(t, s.write(name, []byte(text)))
	}
	return s
}

// worked runs the step and reads what the worker is told.
func worked(t *testing.T, s *site) (version string, files map[string]string) {
	t.Helper()
	require.NoError(t, s.worker())
	text, err := os.ReadFile(filepath.Join(s.out, "sw.js"))
	require.NoError(t, err)
	found := regexp.MustCompile(`(?s)^const version = "([0-9a-f]{16})";\nconst files = (\{.*?\});\n// `).FindSubmatch(text)
	require.NotNil(t, found, "%.200s", text)
	require.NoError(t, json.Unmarshal(found[2], &files))
	return string(found[1]), files
}

func TestWorkerListsEveryFile(t *testing.T) {
	s := small(t)
	version, files := worked(t, s)
	var names []string
	for name, sum := range files {
		names = append(names, name)
		text, err := os.ReadFile(filepath.Join(s.out, name))
		require.NoError(t, err)
		assert.Equal(t, digest(text), sum, name)
	}
	assert.ElementsMatch(t, []string{"index.html", "de/index.html", "js/main.js", "stage.wasm"}, names)
	page, err := os.ReadFile(filepath.Join(s.out, "index.html"))
	require.NoError(t, err)
	assert.Equal(t, strings.NewReplacer(`lang="en" data-version="`, `lang="en" data-version="`+version, "?v=", "?v="+version).Replace(firstPage), string(page))
}

// SHA-256 of "abc" begins so (FIPS 180-2, B.1).
func TestDigest(t *testing.T) {
	assert.Equal(t, "ba7816bf8f01cfea414140de5dae2223", digest([]byte("abc")))
}

func TestVersionFollowsTheContent(t *testing.T) {
	s := small(t)
	first, _ := worked(t, s)
	again, _ := worked(t, s)
	assert.Equal(t, first, again, "nothing changed, though the pages hold the version now")
	for _, name := range []string{"index.html", "js/main.js", "stage.wasm"} {
		before, _ := worked(t, s)
		text, err := os.ReadFile(filepath.Join(s.out, name))
		require.NoError(t, err)
		require.NoError(t, s.write(name, append(text, ' ')))
		after, _ := worked(t, s)
		assert.NotEqual(t, before, after, name)
	}
	before, _ := worked(t, s)
	require.NoError(t, os.Rename(filepath.Join(s.out, "js/main.js"), filepath.Join(s.out, "js/other.js")))
	after, _ := worked(t, s)
	assert.NotEqual(t, before, after, "a new name")
}
