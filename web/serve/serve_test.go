package serve

import (
	"net/http"
	"net/http/httptest"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
)

func site() fstest.MapFS {
	return fstest.MapFS{
		"index.html":      {Data: []byte("<!doctype html>")},
		"de/index.html":   {Data: []byte("<!doctype html>")},
		"stage.wasm":      {Data: []byte("plain")},
		"stage.wasm.br":   {Data: []byte("brotli")},
		"stage.wasm.gz":   {Data: []byte("gzip")},
		"fonts/a.woff2":   {Data: []byte("font")},
		"js/main.js":      {Data: []byte("export {}")},
		"secret.key":      {Data: []byte("no type, no service")},
		"empty/keep.json": {Data: []byte("{}")},
	}
}

func get(method, target, accept string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, target, nil)
	r.Header.Set("Accept-Encoding", accept)
	w := httptest.NewRecorder()
	Handler(site()).ServeHTTP(w, r)
	return w
}

func TestAnswers(t *testing.T) {
	for _, c := range []struct {
		name, target, accept string
		code                 int
		kind, encoding, body string
	}{
		{"root is the index", "/", "", 200, "text/html; charset=utf-8", "", "<!doctype html>"},
		{"brotli first", "/stage.wasm", "gzip, deflate, br", 200, "application/wasm", "br", "brotli"},
		{"gzip when that is all", "/stage.wasm", "gzip", 200, "application/wasm", "gzip", "gzip"},
		{"plain when neither", "/stage.wasm", "", 200, "application/wasm", "", "plain"},
		{"a weight of zero refuses", "/stage.wasm", "br;q=0, gzip;q=0.5", 200, "application/wasm", "gzip", "gzip"},
		{"no copy, no encoding", "/js/main.js", "br", 200, "text/javascript; charset=utf-8", "", "export {}"},
		{"copies have no name of their own", "/stage.wasm.br", "br", 404, "text/plain; charset=utf-8", "", "404 page not found\n"},
		{"no listing of a folder", "/fonts/", "", 404, "text/plain; charset=utf-8", "", "404 page not found\n"},
		{"no listing without a slash", "/fonts", "", 404, "text/plain; charset=utf-8", "", "404 page not found\n"},
		{"unknown kinds stay inside", "/secret.key", "", 404, "text/plain; charset=utf-8", "", "404 page not found\n"},
		{"no way out of the site", "/../serve.go", "", 404, "text/plain; charset=utf-8", "", "404 page not found\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := get(http.MethodGet, c.target, c.accept)
			assert.Equal(t, c.code, w.Code)
			assert.Equal(t, c.kind, w.Header().Get("Content-Type"))
			assert.Equal(t, c.encoding, w.Header().Get("Content-Encoding"))
			assert.Equal(t, c.body, w.Body.String())
			assert.Equal(t, Policy, w.Header().Get("Content-Security-Policy"))
			assert.Equal(t, "nosniff", w.Header().Get("X-Content-Type-Options"))
		})
	}
}

func TestUnchangedIsNotSentAgain(t *testing.T) {
	first := get(http.MethodGet, "/stage.wasm", "br")
	r := httptest.NewRequest(http.MethodGet, "/stage.wasm", nil)
	r.Header.Set("Accept-Encoding", "br")
	r.Header.Set("If-None-Match", first.Header().Get("ETag"))
	w := httptest.NewRecorder()
	Handler(site()).ServeHTTP(w, r)
	assert.Equal(t, http.StatusNotModified, w.Code)
	assert.Empty(t, w.Body.String())
	assert.NotEqual(t, first.Header().Get("ETag"), get(http.MethodGet, "/stage.wasm", "").Header().Get("ETag"))
}

// The way to a folder that has a page is found without its slash.
func TestAFolderIsFoundWithoutItsSlash(t *testing.T) {
	w := get(http.MethodGet, "/de?view=lecture", "")
	assert.Equal(t, http.StatusMovedPermanently, w.Code)
	assert.Equal(t, "de/?view=lecture", w.Header().Get("Location"))
	assert.Equal(t, "<!doctype html>", get(http.MethodGet, "/de/", "").Body.String())
}

func TestOnlyReading(t *testing.T) {
	w := get(http.MethodPost, "/", "")
	assert.Equal(t, http.StatusMethodNotAllowed, w.Code)
	assert.Equal(t, "GET, HEAD", w.Header().Get("Allow"))
	assert.Empty(t, get(http.MethodHead, "/", "").Body.String())
}
