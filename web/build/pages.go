package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html/template"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"wheelroom/assets"
	"wheelroom/physics/phrase"
	"wheelroom/web/program"
)

// content is what the pages' templates may use.
type content struct {
	Language  string
	Words     json.RawMessage // the scripts' messages
	Bytes     int64           // uncompressed size of the program
	Buildings []choice
	Screens   []string // by name, in the order of the navigation
	Keys      []key
	Picture   struct{ Width, Height int }
	Cautions  []string // message identities
	Parts     []part
	Terms     []term
}

// A choice is one building that ships.
type choice struct{ ID, Name string }

// A key is one key of the picture: message identities of its name and effect.
type key struct{ Key, Does string }

var keys = []key{
	{"page.key-space", "page.key-space-does"},
	{"page.key-s", "page.key-s-does"},
	{"page.key-z", "page.key-z-does"},
	{"page.key-e", "page.key-e-does"},
	{"page.key-a", "page.key-a-does"},
	{"page.key-speed", "page.key-speed-does"},
	{"page.key-arrows", "page.key-arrows-does"},
	{"page.key-size", "page.key-size-does"},
	{"page.key-whole", "page.key-whole-does"},
	{"page.key-move", "page.key-move-does"},
	{"page.key-enter", "page.key-enter-does"},
	{"page.key-escape", "page.key-escape-does"},
}

// render fills the pages.
func (s *site) render() error {
	scripts, err := s.scripts("page", "screens")
	if err != nil {
		return err
	}
	licences, err := s.licences()
	if err != nil {
		return err
	}
	c := content{Language: language, Words: scripts, Bytes: s.bytes, Buildings: buildings(), Keys: keys, Cautions: cautions, Parts: licences, Terms: glossary()}
	c.Picture.Width, c.Picture.Height = pictureWidth, pictureHeight
	for _, n := range screens {
		c.Screens = append(c.Screens, n.name)
	}
	for _, name := range []string{"index.html", "about.html", "glossary.html", "frame/frame.html"} {
		if err := s.page(name, c, nil); err != nil {
			return err
		}
	}
	return s.screens(c)
}

// page fills one page and puts head in front of it.
func (s *site) page(name string, c content, head []byte) error {
	source, err := os.ReadFile(filepath.Join(s.root, "web/page", name))
	if err != nil {
		return err
	}
	t, err := template.New(name).Funcs(template.FuncMap{"word": s.word}).Option("missingkey=error").Parse(string(source))
	if err != nil {
		return err
	}
	out := bytes.NewBuffer(head)
	if err := t.Execute(out, c); err != nil {
		return err
	}
	return s.write(name, out.Bytes())
}

// word returns the words of a message that has no slots.
func (s *site) word(id string) (string, error) {
	if !s.words.Has(id) {
		return "", fmt.Errorf("no words for %q", id)
	}
	return s.words.Text(phrase.Of(id)), nil
}

// scripts returns the messages whose identities begin with one of the
// families, for scripts, as JSON.
func (s *site) scripts(families ...string) (json.RawMessage, error) {
	var all map[string]json.RawMessage
	if err := json.Unmarshal(s.words.JSON(), &all); err != nil {
		return nil, err
	}
	for id := range all {
		family, _, _ := strings.Cut(id, ".")
		if !slices.Contains(families, family) {
			delete(all, id)
		}
	}
	return json.Marshal(all) // sorted by identity
}

// buildings lists the buildings that ship, the first to show first.
func buildings() []choice {
	var list []choice
	for _, b := range assets.Buildings() {
		plan, _ := program.Building(b.ID)
		list = append(list, choice{ID: b.ID, Name: plan.Name})
	}
	return list
}
