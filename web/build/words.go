package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/goccy/go-yaml"
)

// words are the messages of one language as their files hold them: a text, or
// the texts of a plural.
type words map[string]any

// readWords reads every message file of a folder.
func readWords(folder string) (words, error) {
	files, err := filepath.Glob(filepath.Join(folder, "*.yaml"))
	if err != nil {
		return nil, err
	}
	all := words{}
	for _, file := range files {
		content, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		var some map[string]any
		if err := yaml.Unmarshal(content, &some); err != nil {
			return nil, fmt.Errorf("%s: %w", file, err)
		}
		for id, message := range some {
			all[id] = message
		}
	}
	return all, nil
}

// word returns the text of a message that has neither slots nor a plural.
func (w words) word(id string) (string, error) {
	text, ok := w[id].(string)
	if !ok {
		return "", fmt.Errorf("no plain words for %q", id)
	}
	return text, nil
}

// page returns the messages that the page's scripts use, as JSON. The
// encoder sorts by identity, so equal words give equal bytes.
func (w words) page() (json.RawMessage, error) {
	some := words{}
	for id, message := range w {
		if strings.HasPrefix(id, "page.") {
			some[id] = message
		}
	}
	return json.Marshal(some)
}
