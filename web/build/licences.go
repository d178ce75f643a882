package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// known says how a module of the program is named to the reader.
var known = map[string]part{
	"github.com/hajimehoshi/ebiten/v2":  {Name: "Ebitengine", Use: "about.use-ebitengine", Licence: "Apache License 2.0"},
	"github.com/ebitengine/hideconsole": {Name: "hideconsole", Use: "about.use-hideconsole", Licence: "Apache License 2.0"},
	"github.com/goccy/go-yaml":          {Name: "go-yaml", Use: "about.use-go-yaml", Licence: "MIT License"},
	"gonum.org/v1/gonum":                {Name: "Gonum", Use: "about.use-gonum", Licence: "BSD 3-Clause License"},
	"golang.org/x/image":                {Name: "golang.org/x/image", Use: "about.use-image", Licence: "BSD 3-Clause License"},
	"golang.org/x/text":                 {Name: "golang.org/x/text", Use: "about.use-text", Licence: "BSD 3-Clause License"},
	"golang.org/x/sys":                  {Name: "golang.org/x/sys", Use: "about.use-sys", Licence: "BSD 3-Clause License"},
	"golang.org/x/sync":                 {Name: "golang.org/x/sync", Use: "about.use-sync", Licence: "BSD 3-Clause License"},
	"github.com/yuin/goldmark":          {Name: "goldmark", Use: "about.use-goldmark", Licence: "MIT License"},
}

// licences lists everything by other people that the site carries. The
// modules are read from the programs themselves, so that none is forgotten: one
// that is not known stops the build.
func (s *site) licences() ([]part, error) {
	list := []part{{Name: "Go", Use: "about.use-go", Licence: "BSD 3-Clause License"}}
	goroot, err := s.ask("env", "GOROOT")
	if err != nil {
		return nil, err
	}
	if list[0].Text, err = licence(goroot); err != nil {
		// Some packagers keep the licence elsewhere; x/image carries the same text.
		image, err := s.ask("list", "-m", "-f", "{{.Dir}}", "golang.org/x/image")
		if err != nil {
			return nil, err
		}
		if list[0].Text, err = licence(image); err != nil {
			return nil, err
		}
	}
	ask := []string{"list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Dir}}{{end}}{{end}}"}
	for _, p := range programs {
		ask = append(ask, p.from)
	}
	out, err := s.ask(ask...)
	if err != nil {
		return nil, err
	}
	lines := strings.Fields(out)
	var modules [][2]string
	for i := 0; i+1 < len(lines); i += 2 {
		modules = append(modules, [2]string{lines[i], lines[i+1]})
	}
	slices.SortFunc(modules, func(a, b [2]string) int { return strings.Compare(a[0], b[0]) })
	for _, m := range slices.Compact(modules) {
		p, ok := known[m[0]]
		if !ok {
			return nil, fmt.Errorf("module %s ships without a line on the About page", m[0])
		}
		if p.Text, err = licence(m[1]); err != nil {
			return nil, err
		}
		list = append(list, p)
	}
	font, err := os.ReadFile(filepath.Join(s.root, "assets/fonts/OFL.txt"))
	if err != nil {
		return nil, err
	}
	return append(list, part{Name: "Atkinson Hyperlegible Next", Use: "about.use-font", Licence: "SIL Open Font License 1.1", Text: string(font)}), nil
}

// licence reads the licence in a module's folder.
func licence(folder string) (string, error) {
	for _, name := range []string{"LICENSE", "LICENSE.txt", "LICENSE.md", "LICENCE", "COPYING"} {
		text, err := os.ReadFile(filepath.Join(folder, name))
		if err == nil {
			return string(text), nil
		}
	}
	return "", fmt.Errorf("no licence in %s", folder)
}

// ask runs the Go tool for the program's target and returns what it says.
func (s *site) ask(args ...string) (string, error) {
	c := exec.Command("go", args...)
	c.Dir = s.root
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	out, err := c.Output()
	if err != nil {
		return "", fmt.Errorf("go %s: %w", strings.Join(args, " "), err)
	}
	return strings.TrimSpace(string(out)), nil
}
