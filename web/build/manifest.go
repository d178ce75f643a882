package main

import (
	"cmp"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"wheelroom/game/figure"
)

// manifests writes what makes the pages of each language installable (W3C Web
// Application Manifest), and the icons from the mark.
func (s *site) manifests() error {
	drawing, err := os.ReadFile(filepath.Join(s.root, "web/page/icon.svg"))
	if err != nil {
		return err
	}
	mark, err := readMark(drawing)
	if err != nil {
		return fmt.Errorf("icon.svg: %w", err)
	}
	icons := []icon{{"icon.svg", "any", "image/svg+xml", "any"}}
	for _, i := range []struct {
		name     string
		side     int
		maskable bool
	}{{"icon-192.png", 192, false}, {"icon-512.png", 512, false}, {"icon-maskable-512.png", 512, true}} {
		if err := s.write(i.name, mark.png(i.side, i.maskable)); err != nil {
			return err
		}
		purpose := "any"
		if i.maskable {
			purpose = "maskable"
		}
		icons = append(icons, icon{i.name, fmt.Sprintf("%dx%[1]d", i.side), "image/png", purpose})
	}
	for _, e := range s.editions {
		if err := s.manifest(e, icons); err != nil {
			return err
		}
	}
	return nil
}

// An icon is one of the manifest's, from the root of the site.
type icon struct {
	Src     string `json:"src"`
	Sizes   string `json:"sizes"`
	Type    string `json:"type"`
	Purpose string `json:"purpose"`
}

// manifest writes an edition's.
func (s *site) manifest(e edition, icons []icon) error {
	words := map[string]string{}
	for _, id := range []string{"page.title", "offline.short-name", "page.description"} {
		text, err := e.word(id)
		if err != nil {
			return err
		}
		words[id] = text
	}
	root := e.root("")
	own := slices.Clone(icons)
	for i := range own {
		own[i].Src = root + own[i].Src
	}
	ground := figure.Paper[figure.Ground]
	colour := fmt.Sprintf("#%02X%02X%02X", ground.R, ground.G, ground.B)
	text, err := json.MarshalIndent(map[string]any{
		"name": words["page.title"], "short_name": words["offline.short-name"], "description": words["page.description"],
		"lang": e.Tag(), "dir": "ltr", "start_url": "./", "scope": cmp.Or(root, "./"), "display": "standalone",
		"background_color": colour, "theme_color": colour, "categories": []string{"education"}, "icons": own,
	}, "", "  ")
	if err != nil {
		return err
	}
	return s.write(e.folder+"manifest.webmanifest", text)
}
