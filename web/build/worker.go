package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

// worker writes the service worker that keeps the site for use without a
// network: its script, and in front of it the list of every file with the
// beginning of its content's SHA-256. The version is a hash of that list, and
// stands in every page, so a page can say what it was loaded from.
func (s *site) worker() error {
	source, err := os.ReadFile(filepath.Join(s.root, "web/page/"+workerName))
	if err != nil {
		return err
	}
	names, err := s.kept()
	if err != nil {
		return err
	}
	// The version cannot hash pages that hold it: there its place is empty.
	all := sha256.New()
	all.Write(source)
	for _, name := range names {
		text, err := os.ReadFile(filepath.Join(s.out, name))
		if err != nil {
			return err
		}
		fmt.Fprintf(all, "%s\n%s\n", name, digest(stamp(name, text, "")))
	}
	version := hex.EncodeToString(all.Sum(nil)[:8])
	files := map[string]string{}
	for _, name := range names {
		text, err := os.ReadFile(filepath.Join(s.out, name))
		if err != nil {
			return err
		}
		stamped := stamp(name, text, version)
		if !bytes.Equal(stamped, text) {
			if err := s.write(name, stamped); err != nil {
				return err
			}
		}
		files[name] = digest(stamped)
	}
	list, err := json.Marshal(files) // sorted by name
	if err != nil {
		return err
	}
	head := fmt.Sprintf("const version = %q;\nconst files = %s;\n", version, list)
	return s.write(workerName, append([]byte(head), source...))
}

// workerName is where the worker stands; browsers know it by that address, so
// it never changes.
const workerName = "sw.js"

// kept lists the files of the site that a browser may want, sorted.
func (s *site) kept() ([]string, error) {
	var names []string
	err := filepath.WalkDir(s.out, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		name, err := filepath.Rel(s.out, path)
		if err != nil {
			return err
		}
		switch filepath.Ext(name) {
		case ".br", ".gz":
			return nil
		}
		if name != workerName {
			names = append(names, filepath.ToSlash(name))
		}
		return nil
	})
	return names, err
}

// stamps are the places of the version in a page: on its root, and in the
// address of the picture's frame.
var stamps = regexp.MustCompile(`(<html [^>]*data-version="|frame/frame\.html\?v=)[0-9a-f]*"`)

// stamp puts the version into a page; other files stay as they are.
func stamp(name string, text []byte, version string) []byte {
	if !strings.HasSuffix(name, ".html") {
		return text
	}
	return stamps.ReplaceAll(text, []byte(`${1}`+version+`"`))
}

// digest is as much of a content's SHA-256 as tells two contents apart.
func digest(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:16])
}
