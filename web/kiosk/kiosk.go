// Package kiosk runs the page on a screen that nobody watches: it serves the
// site on this machine's own loopback, hears the page's heartbeat, and keeps a
// browser going that shows it.
//
// The page beats every two seconds while it is well. Who has beaten and then
// falls silent for ten is taken for hung, and its browser is ended and started
// anew. Times are read from the clock that only goes forward, so a clock that
// is set does not matter. Nothing is written to a disk here.
package kiosk

import (
	"io/fs"
	"net/http"
	"net/url"
	"path"

	"wheelroom/web/serve"
)

// Handler serves the site, and tells the watch of each heartbeat: a POST to
// "alive", beside any page, answered with 204. A heartbeat that comes from a
// page of somebody else's is refused.
func Handler(site fs.FS, watch *Watch) http.Handler {
	pages := serve.Handler(site)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method != http.MethodPost || path.Base(r.URL.Path) != "alive" {
			pages.ServeHTTP(w, r)
			return
		}
		if !own(r) {
			http.Error(w, "not from a page of this site", http.StatusForbidden)
			return
		}
		watch.Beat()
		w.WriteHeader(http.StatusNoContent)
	})
}

// own reports whether a request comes from a page that this server sent.
func own(r *http.Request) bool {
	origin := r.Header.Get("Origin")
	if origin == "" {
		return true
	}
	from, err := url.Parse(origin)
	return err == nil && from.Host == r.Host
}
