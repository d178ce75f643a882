package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"wheelroom/game/handout"
	"wheelroom/web/compile"
	"wheelroom/web/languages"
)

// A site is one site being built: the tree it comes from and the folder it
// goes into.
type site struct {
	root, out string
	editions  []edition // English first
	bytes     int64     // uncompressed size of the stage's program
}

// builtSite is a site that has been built before.
func builtSite(root, out string) (*site, error) {
	root, err := filepath.Abs(root)
	if err != nil {
		return nil, err
	}
	s := &site{root: root, out: filepath.Join(root, out)}
	for _, tag := range languages.Tags() {
		l, err := languages.Open(tag)
		if err != nil {
			return nil, err
		}
		s.editions = append(s.editions, newEdition(l))
	}
	return s, nil
}

// newSite empties the folder that is to hold the site.
func newSite(root, out string) (*site, error) {
	s, err := builtSite(root, out)
	if err != nil {
		return nil, err
	}
	if err := os.RemoveAll(s.out); err != nil {
		return nil, err
	}
	return s, os.MkdirAll(s.out, 0o755)
}

// programs are what is built for the browser: the stage, and the one that does
// long work in a worker, which is fetched when there is some.
var programs = []struct {
	file, from string
	manner     compile.Manner
}{
	{"stage.wasm", "./web/wasm", compile.Small},
	{"errand.wasm", "./web/errand", compile.Fast},
}

// compile builds the programs for the browser and puts the compiler's own
// loader beside them; all must come from one version.
func (s *site) compile() error {
	for _, p := range programs {
		build := p.manner.Go("build", "-o", filepath.Join(s.out, p.file), p.from)
		build.Dir = s.root
		if out, err := build.CombinedOutput(); err != nil {
			return fmt.Errorf("%w\n%s", err, out)
		}
	}
	info, err := os.Stat(filepath.Join(s.out, programs[0].file))
	if err != nil {
		return err
	}
	s.bytes = info.Size()

	goroot, err := s.ask("env", "GOROOT")
	if err != nil {
		return err
	}
	return s.file("frame/wasm_exec.js", filepath.Join(goroot, "lib/wasm/wasm_exec.js"))
}

// copy takes over what the site serves as it stands in the tree.
func (s *site) copy() error {
	page := filepath.Join(s.root, "web/page")
	err := filepath.WalkDir(page, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		switch filepath.Ext(path) {
		case ".css", ".js", ".svg":
		default:
			return nil
		}
		name, err := filepath.Rel(page, path)
		if err != nil {
			return err
		}
		return s.file(name, path)
	})
	if err != nil {
		return err
	}
	if err := s.write("style/sheet.css", []byte(handout.Style)); err != nil {
		return err
	}
	for _, font := range []string{"regular.woff2", "bold.woff2"} {
		if err := s.file("fonts/"+font, filepath.Join(s.root, "assets/fonts", font)); err != nil {
			return err
		}
	}
	return nil
}

// file copies one file of the tree into the site.
func (s *site) file(name, from string) error {
	content, err := os.ReadFile(from)
	if err != nil {
		return err
	}
	return s.write(name, content)
}

// write puts one file into the site.
func (s *site) write(name string, content []byte) error {
	path := filepath.Join(s.out, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, content, 0o644)
}
