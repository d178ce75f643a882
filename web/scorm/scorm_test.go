package scorm_test

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"io"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/web/scorm"
)

const head = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<link rel=\"manifest\" href=\"app.webmanifest\">\n<iframe src=\"frame/frame.html?v=12ab\"></iframe></head></html>\n"

func site() fstest.MapFS {
	file := func(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }
	return fstest.MapFS{
		"index.html": file(head), "de/index.html": file(head), "de/screens/one.html": file("<p>eins</p>"), "frame/frame.html": file(head), "screens/one.html": file("<p>one</p>"),
		"stage.wasm": file("wasm"), "stage.wasm.br": file("br"), "stage.wasm.gz": file("gz"),
		"sw.js": file("self"), "app.webmanifest": file("{}"),
	}
}

func pack(t *testing.T) map[string]string {
	t.Helper()
	var out bytes.Buffer
	c := scorm.Course{ID: "two-calls", Title: `Calls & "more"`, Lessons: []string{"two-calls", "one-call"},
		Pages: []string{"index.html", "de/index.html"}, Start: "de/index.html", Policy: "default-src 'none'"}
	require.NoError(t, scorm.Write(&out, site(), c))
	var again bytes.Buffer
	require.NoError(t, scorm.Write(&again, site(), c))
	assert.Equal(t, out.Bytes(), again.Bytes(), "the same site gives the same bytes")
	z, err := zip.NewReader(bytes.NewReader(out.Bytes()), int64(out.Len()))
	require.NoError(t, err)
	all := map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		all[f.Name] = string(text)
	}
	return all
}

func TestPackageHoldsWhatItNeeds(t *testing.T) {
	all := pack(t)
	for _, name := range []string{"imsmanifest.xml", "index.html", "frame/frame.html", "screens/one.html", "stage.wasm"} {
		assert.Contains(t, all, name)
	}
	for _, name := range []string{"stage.wasm.br", "stage.wasm.gz", "sw.js", "app.webmanifest"} {
		assert.NotContains(t, all, name)
	}
	for _, name := range []string{"index.html", "de/index.html"} {
		assert.Contains(t, all[name], `<html data-scorm="two-calls one-call" lang="en">`, name)
	}
	for _, name := range []string{"index.html", "frame/frame.html"} {
		assert.NotContains(t, all[name], "webmanifest", "a package is not installed by itself")
		assert.Contains(t, all[name], `src="frame/frame.html"`)
		assert.Contains(t, all[name], `<meta http-equiv="Content-Security-Policy" content="default-src &#39;none&#39;">`, name)
	}
	assert.NotContains(t, all["frame/frame.html"], "data-scorm")
}

// Element and attribute names are those of the SCORM 1.2 content aggregation
// model, 2.3; values from memory.
func TestManifest(t *testing.T) {
	text := pack(t)["imsmanifest.xml"]
	var m struct {
		Schema  string `xml:"metadata>schema"`
		Version string `xml:"metadata>schemaversion"`
		All     struct {
			Default string `xml:"default,attr"`
			Item    struct {
				Ref   string `xml:"identifierref,attr"`
				Title string `xml:"title"`
			} `xml:"organization>item"`
		} `xml:"organizations"`
		Resource struct {
			ID    string `xml:"identifier,attr"`
			Kind  string `xml:"scormtype,attr"`
			Href  string `xml:"href,attr"`
			Files []struct {
				Href string `xml:"href,attr"`
			} `xml:"file"`
		} `xml:"resources>resource"`
	}
	require.NoError(t, xml.Unmarshal([]byte(text), &m))
	assert.Equal(t, "ADL SCORM", m.Schema)
	assert.Equal(t, "1.2", m.Version)
	assert.Equal(t, "all", m.All.Default)
	assert.Equal(t, `Calls & "more"`, m.All.Item.Title)
	assert.Equal(t, m.Resource.ID, m.All.Item.Ref)
	assert.Equal(t, "sco", m.Resource.Kind)
	assert.Equal(t, "de/index.html", m.Resource.Href)
	assert.Len(t, m.Resource.Files, 6)
}

func TestSiteMustBeWhole(t *testing.T) {
	c := scorm.Course{Pages: []string{"index.html", "de/index.html"}, Start: "index.html"}
	for _, name := range c.Pages {
		s := site()
		require.NoError(t, scorm.Write(io.Discard, s, c))
		delete(s, name)
		assert.ErrorContains(t, scorm.Write(io.Discard, s, c), name)
	}
}
