// Package scorm packs the finished site as a course for a college's system, in
// SCORM 1.2: one lesson or all of them as one unit that reports status, score
// and answers.
//
// A package is served by somebody else, so it carries its content policy in
// its pages; it holds no service worker, and nothing that a server would have
// to be set up for.
package scorm

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"html"
	"io"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
)

// A Course is what is packed.
type Course struct {
	ID    string // of the package, letters, digits and hyphens
	Title string
	// Lessons are those that count, by ID, in their order.
	Lessons []string
	// Pages are those that open lessons, one a language, and Start is the one
	// of them that is opened first.
	Pages []string
	Start string
	// Policy is the content policy that a server would send.
	Policy string
}

// Write packs the site in folder. It fails where the site is not whole and
// where w fails. The same site gives the same bytes.
func Write(w io.Writer, site fs.FS, c Course) error {
	files, err := names(site)
	if err != nil {
		return err
	}
	for _, name := range append([]string{c.Start}, c.Pages...) {
		if !slices.Contains(files, name) {
			return fmt.Errorf("scorm: the site has no %s", name)
		}
	}
	z := zip.NewWriter(w)
	manifest, err := manifest(c, files)
	if err != nil {
		return err
	}
	if err := add(z, "imsmanifest.xml", manifest); err != nil {
		return err
	}
	for _, name := range files {
		text, err := fs.ReadFile(site, name)
		if err != nil {
			return err
		}
		if path.Ext(name) == ".html" && path.Base(path.Dir(name)) != "screens" {
			if text, err = page(name, text, c); err != nil {
				return err
			}
		}
		if err := add(z, name, text); err != nil {
			return err
		}
	}
	return z.Close()
}

func add(z *zip.Writer, name string, text []byte) error {
	f, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate})
	if err == nil {
		_, err = f.Write(text)
	}
	return err
}

// left are files that a package has no use for.
func left(name string) bool {
	switch path.Ext(name) {
	case ".br", ".gz", ".webmanifest":
		return true
	}
	base := path.Base(name)
	return base == "sw.js" || strings.HasPrefix(base, "service-worker")
}

// names lists the files that are packed, sorted.
func names(site fs.FS) ([]string, error) {
	var list []string
	err := fs.WalkDir(site, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && !left(name) {
			list = append(list, name)
		}
		return err
	})
	return list, err
}

// alone is what a page has for standing alone, to be installed and to tell its
// versions apart. In a package it is a part of the college's system.
var alone = regexp.MustCompile(`<link rel="(manifest|apple-touch-icon)"[^>]*>\n?|\?v=[0-9a-f]*`)

// page puts the content policy into a page, and into those that open lessons
// which of them count.
func page(name string, text []byte, c Course) ([]byte, error) {
	const begin = "<meta charset=\"utf-8\">"
	if !bytes.Contains(text, []byte(begin)) {
		return nil, fmt.Errorf("scorm: %s does not begin as a page of the site", name)
	}
	policy := fmt.Sprintf("%s\n<meta http-equiv=\"Content-Security-Policy\" content=\"%s\">", begin, html.EscapeString(c.Policy))
	text = bytes.Replace(text, []byte(begin), []byte(policy), 1)
	text = alone.ReplaceAll(text, nil)
	if slices.Contains(c.Pages, name) {
		mark := fmt.Sprintf("<html data-scorm=\"%s\" ", html.EscapeString(strings.Join(c.Lessons, " ")))
		text = bytes.Replace(text, []byte("<html "), []byte(mark), 1)
	}
	return text, nil
}

// The manifest's elements; see the SCORM 1.2 content aggregation model, 2.3.
type (
	manifestXML struct {
		XMLName       xml.Name         `xml:"manifest"`
		ID            string           `xml:"identifier,attr"`
		Version       string           `xml:"version,attr"`
		Space         string           `xml:"xmlns,attr"`
		ADL           string           `xml:"xmlns:adlcp,attr"`
		Schema        string           `xml:"metadata>schema"`
		SchemaVersion string           `xml:"metadata>schemaversion"`
		Organizations organizationsXML `xml:"organizations"`
		Resource      resourceXML      `xml:"resources>resource"`
	}
	organizationsXML struct {
		Default      string          `xml:"default,attr"`
		Organization organizationXML `xml:"organization"`
	}
	organizationXML struct {
		ID    string  `xml:"identifier,attr"`
		Title string  `xml:"title"`
		Item  itemXML `xml:"item"`
	}
	itemXML struct {
		ID    string `xml:"identifier,attr"`
		Ref   string `xml:"identifierref,attr"`
		Title string `xml:"title"`
	}
	resourceXML struct {
		ID    string    `xml:"identifier,attr"`
		Type  string    `xml:"type,attr"`
		Kind  string    `xml:"adlcp:scormtype,attr"`
		Href  string    `xml:"href,attr"`
		Files []fileXML `xml:"file"`
	}
	fileXML struct {
		Href string `xml:"href,attr"`
	}
)

func manifest(c Course, files []string) ([]byte, error) {
	m := manifestXML{
		ID: c.ID, Version: "1.0", Space: "http://www.imsproject.org/xsd/imscp_rootv1p1p2", ADL: "http://www.adlnet.org/xsd/adlcp_rootv1p2",
		Schema: "ADL SCORM", SchemaVersion: "1.2",
		Organizations: organizationsXML{"all", organizationXML{"all", c.Title, itemXML{"unit", "site", c.Title}}},
		Resource:      resourceXML{ID: "site", Type: "webcontent", Kind: "sco", Href: c.Start},
	}
	for _, name := range files {
		m.Resource.Files = append(m.Resource.Files, fileXML{name})
	}
	text, err := xml.MarshalIndent(m, "", "  ")
	return append([]byte(xml.Header), text...), err
}
