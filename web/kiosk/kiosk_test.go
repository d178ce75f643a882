package kiosk_test

import (
	"net/http"
	"net/http/httptest"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"

	"wheelroom/web/kiosk"
)

// A clock stands until it is set on. It may be read by several at a time.
type clock struct{ at chan time.Time }

func newClock() clock {
	c := clock{make(chan time.Time, 1)}
	c.at <- time.Unix(0, 0)
	return c
}

func (c clock) now() time.Time {
	t := <-c.at
	c.at <- t
	return t
}

func (c clock) on(d time.Duration) { c.at <- (<-c.at).Add(d) }

// With the second between two looks it is over within ten: "machine hung,
// watchdog reload within 10 s".
func TestWatch(t *testing.T) {
	c := newClock()
	w := kiosk.Watch{Grace: time.Minute, Now: c.now}
	w.Start()
	assert.False(t, w.Silent(), "the page is coming up")
	assert.False(t, w.Beating())
	c.on(59 * time.Second)
	assert.False(t, w.Silent())
	w.Beat()
	assert.True(t, w.Beating())
	c.on(kiosk.Silence - time.Second)
	assert.False(t, w.Silent())
	assert.True(t, w.Beating())
	c.on(time.Second)
	assert.True(t, w.Silent())
	assert.LessOrEqual(t, kiosk.Silence+time.Second, 10*time.Second)
	assert.False(t, w.Beating())
	w.Beat()
	assert.False(t, w.Silent(), "it has come back")
	w.Start()
	assert.False(t, w.Beating(), "that was the browser before")
	c.on(time.Minute)
	assert.True(t, w.Silent(), "it did not come up")

	var patient kiosk.Watch
	patient.Now = c.now
	patient.Start()
	c.on(1000 * time.Hour)
	assert.False(t, patient.Silent(), "without a grace the first beat may take for ever")
}

func TestHandler(t *testing.T) {
	site := fstest.MapFS{"index.html": {Data: []byte("page")}, "de/index.html": {Data: []byte("Seite")}}
	for _, c := range []struct {
		name, method, target, origin string
		code                         int
		beats                        bool
	}{
		{"a heartbeat", http.MethodPost, "/alive", "http://127.0.0.1:8080", http.StatusNoContent, true},
		{"from a page in a folder", http.MethodPost, "/de/alive", "http://127.0.0.1:8080", http.StatusNoContent, true},
		{"by a command, which has no page", http.MethodPost, "/alive", "", http.StatusNoContent, true},
		{"of another's page", http.MethodPost, "/alive", "http://example.org", http.StatusForbidden, false},
		{"of a page in a sandbox", http.MethodPost, "/alive", "null", http.StatusForbidden, false},
		{"the page", http.MethodGet, "/?view=exhibit&kiosk=1", "", http.StatusOK, false},
		{"a look at the heartbeat", http.MethodGet, "/alive", "", http.StatusNotFound, false},
		{"something else that is sent", http.MethodPost, "/index.html", "", http.StatusMethodNotAllowed, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			var w kiosk.Watch
			w.Start()
			r := httptest.NewRequest(c.method, "http://127.0.0.1:8080"+c.target, nil)
			if c.origin != "" {
				r.Header.Set("Origin", c.origin)
			}
			answer := httptest.NewRecorder()
			kiosk.Handler(site, &w).ServeHTTP(answer, r)
			assert.Equal(t, c.code, answer.Code)
			assert.Equal(t, c.beats, w.Beating())
		})
	}
}

func TestShell(t *testing.T) {
	assert.Equal(t, `chromium --kiosk '--user-data-dir=/home/a b' 'http://127.0.0.1:8080/?view=exhibit&kiosk=1' '' 'it'\''s'`,
		kiosk.Shell([]string{"chromium", "--kiosk", "--user-data-dir=/home/a b", kiosk.Address(8080, ""), "", "it's"}))
	assert.Equal(t, "http://127.0.0.1:80/de/?view=exhibit&kiosk=1", kiosk.Address(80, "de/"))
}
