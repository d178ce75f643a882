package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html/template"
	"path/filepath"
	"slices"
	"strings"

	"wheelroom/assets"
	"wheelroom/physics/phrase"
	"wheelroom/web/program"
)

// content is what the pages' templates may use.
type content struct {
	Language   string
	Languages  []tongue        // one for each, if there are several
	Root       string          // way to the root of the site
	File       string          // from which the program takes the language, "" for English
	Translated bool            // from English
	Words      json.RawMessage // the scripts' messages
	Bytes      int64           // uncompressed size of the program
	Buildings  []choice
	Screens    []string // by name, in the order of the navigation
	Keys       []key
	Picture    struct{ Width, Height int }
	Cautions   []string // message identities
	Parts      []part
	Terms      []term
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

// render fills the pages of every edition.
func (s *site) render() error {
	licences, err := s.licences()
	if err != nil {
		return err
	}
	for _, e := range s.editions {
		scripts, err := e.scripts("page", "screens", "offline")
		if err != nil {
			return err
		}
		c := content{Language: e.Tag(), Words: scripts, Bytes: s.bytes, Buildings: buildings(), Keys: keys, Cautions: cautions, Parts: licences, Terms: s.glossary(e)}
		c.Picture.Width, c.Picture.Height = pictureWidth, pictureHeight
		for _, n := range screens {
			c.Screens = append(c.Screens, n.name)
		}
		for _, name := range []string{"index.html", "about.html", "glossary.html", "frame/frame.html"} {
			if err := s.page(e, name, c, nil); err != nil {
				return err
			}
		}
		if err := s.screens(e, c); err != nil {
			return err
		}
	}
	return nil
}

// shared holds what several pages have in common, each under its own name.
const shared = "web/page/shared.html"

// page fills one page of an edition and puts head in front of it.
func (s *site) page(e edition, name string, c content, head []byte) error {
	c.Translated = e.folder != ""
	c.Root = e.root(strings.TrimPrefix(name, "screens/")) // a screen is put into the index page
	if len(s.editions) > 1 {
		c.Languages = s.tongues(e, name)
	}
	if c.Translated {
		c.File = c.Root + e.folder + languageFile
	}
	t := template.New(filepath.Base(name)).Funcs(template.FuncMap{"word": e.word}).Option("missingkey=error")
	t, err := t.ParseFiles(filepath.Join(s.root, shared), filepath.Join(s.root, "web/page", name))
	if err != nil {
		return err
	}
	out := bytes.NewBuffer(head)
	if err := t.Execute(out, c); err != nil {
		return err
	}
	return s.write(e.folder+name, out.Bytes())
}

// word returns the words of a message that has no slots.
func (e edition) word(id string) (string, error) {
	if !e.Words.Has(id) {
		return "", fmt.Errorf("no words for %q", id)
	}
	return e.Words.Text(phrase.Of(id)), nil
}

// scripts returns the messages whose identities begin with one of the
// families, for scripts, as JSON.
func (e edition) scripts(families ...string) (json.RawMessage, error) {
	var all map[string]json.RawMessage
	if err := json.Unmarshal(e.Words.JSON(), &all); err != nil {
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
