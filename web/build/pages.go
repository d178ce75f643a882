package main

import (
	"bytes"
	"encoding/json"
	"html/template"
	"os"
	"path/filepath"

	"github.com/goccy/go-yaml"
)

// content is what the pages' templates may use.
type content struct {
	Language  string
	Words     json.RawMessage // the scripts' messages
	Bytes     int64           // uncompressed size of the program
	Buildings []choice
	Keys      []key
	Picture   struct{ Width, Height int }
	Cautions  []string // message identities
	Parts     []part
}

// A choice is one building that ships.
type choice struct{ ID, Name string }

// A key is one key of the picture: message identities of its name and effect.
type key struct{ Key, Does string }

var keys = []key{
	{"page.key-space", "page.key-space-does"},
	{"page.key-s", "page.key-s-does"},
	{"page.key-a", "page.key-a-does"},
	{"page.key-speed", "page.key-speed-does"},
	{"page.key-arrows", "page.key-arrows-does"},
	{"page.key-enter", "page.key-enter-does"},
	{"page.key-escape", "page.key-escape-does"},
}

// render fills the three pages.
func (s *site) render() error {
	scripts, err := s.words.page()
	if err != nil {
		return err
	}
	buildings, err := s.buildings()
	if err != nil {
		return err
	}
	licences, err := s.licences()
	if err != nil {
		return err
	}
	c := content{Language: "en", Words: scripts, Bytes: s.bytes, Buildings: buildings, Keys: keys, Cautions: cautions, Parts: licences}
	c.Picture.Width, c.Picture.Height = pictureWidth, pictureHeight
	for _, name := range []string{"index.html", "about.html", "frame/frame.html"} {
		source, err := os.ReadFile(filepath.Join(s.root, "web/page", name))
		if err != nil {
			return err
		}
		t, err := template.New(name).Funcs(template.FuncMap{"word": s.words.word}).Option("missingkey=error").Parse(string(source))
		if err != nil {
			return err
		}
		var out bytes.Buffer
		if err := t.Execute(&out, c); err != nil {
			return err
		}
		if err := s.write(name, out.Bytes()); err != nil {
			return err
		}
	}
	return nil
}

// buildings lists the buildings that ship, in the order of their files.
func (s *site) buildings() ([]choice, error) {
	files, err := filepath.Glob(filepath.Join(s.root, "assets/buildings/*.yaml"))
	if err != nil {
		return nil, err
	}
	var list []choice
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		var head struct{ Name string }
		if err := yaml.Unmarshal(text, &head); err != nil {
			return nil, err
		}
		base := filepath.Base(file)
		list = append(list, choice{ID: base[:len(base)-len(".yaml")], Name: head.Name})
	}
	return list, nil
}
