// Package serve hands out the finished site over HTTP: right types, compressed
// copies where the reader takes them, the content policy, and nothing that is
// not a file of the site.
package serve

import (
	"io/fs"
	"net/http"
	"net/url"
	"path"
	"strings"
	"time"
)

// Policy is the content policy of every answer: the page loads from its own
// origin only, runs WebAssembly, and holds no inline script or style.
const Policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; " +
	"img-src 'self' data:; font-src 'self'; connect-src 'self'; frame-src 'self'; " +
	"worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'"

// types are the media types of the site's files. They are written out because
// a system's own table may lack WebAssembly or spell a script wrongly.
var types = map[string]string{
	".html":        "text/html; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".json":        "application/json",
	".svg":         "image/svg+xml",
	".wasm":        "application/wasm",
	".woff2":       "font/woff2",
	".png":         "image/png",
	".webmanifest": "application/manifest+json",
	".txt":         "text/plain; charset=utf-8",
	".yaml":        "application/yaml",
}

// encodings in the order of preference.
var encodings = []struct{ name, suffix string }{{"br", ".br"}, {"gzip", ".gz"}}

// Handler serves the files of site. A folder is served as its index.html, and
// its name without the slash leads there; a folder without one does not exist. Compressed copies are never served under
// their own names.
func Handler(site fs.FS) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", Policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			h.Set("Allow", "GET, HEAD")
			http.Error(w, "method not allowed", http.StatusMethodNotAllowed)
			return
		}
		name := strings.TrimPrefix(path.Clean("/"+r.URL.Path), "/")
		if strings.HasSuffix(r.URL.Path, "/") {
			name = path.Join(name, "index.html")
		}
		if path.Ext(name) == "" && fs.ValidPath(name) {
			if _, _, ok := read(site, path.Join(name, "index.html")); ok {
				// Relative, for a site that stands in a folder of somebody's server.
				to := url.URL{Path: path.Base(name) + "/", RawQuery: r.URL.RawQuery}
				h.Set("Location", to.String())
				w.WriteHeader(http.StatusMovedPermanently)
				return
			}
		}
		kind, known := types[path.Ext(name)]
		if !known || !fs.ValidPath(name) {
			http.NotFound(w, r)
			return
		}
		h.Set("Content-Type", kind)
		h.Add("Vary", "Accept-Encoding")
		h.Set("Cache-Control", caching(name))
		for _, e := range encodings {
			if !accepts(r.Header.Get("Accept-Encoding"), e.name) {
				continue
			}
			if content, modified, ok := read(site, name+e.suffix); ok {
				h.Set("Content-Encoding", e.name)
				send(w, r, content, modified)
				return
			}
		}
		content, modified, ok := read(site, name)
		if !ok {
			h.Del("Cache-Control")
			http.NotFound(w, r)
			return
		}
		send(w, r, content, modified)
	})
}

// caching says how long a file may be kept. The names carry no version, so
// all but the fonts are asked for again each time, at the price of a 304.
func caching(name string) string {
	if path.Ext(name) == ".woff2" {
		return "public, max-age=604800"
	}
	return "no-cache"
}

// accepts reports whether an Accept-Encoding header takes a coding. A weight
// of zero refuses it.
func accepts(header, coding string) bool {
	for item := range strings.SplitSeq(header, ",") {
		name, weight, _ := strings.Cut(strings.TrimSpace(item), ";")
		if !strings.EqualFold(strings.TrimSpace(name), coding) {
			continue
		}
		q := strings.TrimPrefix(strings.ReplaceAll(weight, " ", ""), "q=")
		return strings.Trim(q, "0.") != "" || q == ""
	}
	return false
}

// read returns a file's content and time; ok is false for anything that is
// not a file.
func read(site fs.FS, name string) (content []byte, modified time.Time, ok bool) {
	info, err := fs.Stat(site, name)
	if err != nil || !info.Mode().IsRegular() {
		return nil, time.Time{}, false
	}
	content, err = fs.ReadFile(site, name)
	return content, info.ModTime(), err == nil
}
