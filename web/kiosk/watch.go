package kiosk

import (
	"sync"
	"time"
)

// Silence is how long a page that has beaten may be silent, four of its beats of
// two seconds: looked for once a second, what hangs is ended within ten.
const Silence = 8 * time.Second

// A Watch tells from a page's heartbeats whether it is well. The zero value
// waits for the first beat for ever; it may be used by several at a time.
type Watch struct {
	// Grace is how long after a start the first beat may take; 0 is for ever.
	Grace time.Duration
	// Now is the clock, time.Now if it is nil.
	Now func() time.Time

	mu   sync.Mutex
	last time.Time // of the start, or of the last beat
	seen bool      // a beat since the start
}

func (w *Watch) now() time.Time {
	if w.Now == nil {
		return time.Now()
	}
	return w.Now()
}

// Start says that a page is about to be loaded.
func (w *Watch) Start() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.last, w.seen = w.now(), false
}

// Beat says that the page is well.
func (w *Watch) Beat() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.last, w.seen = w.now(), true
}

// Beating reports whether the page has beaten since the start and is not silent.
func (w *Watch) Beating() bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.seen && w.now().Sub(w.last) < Silence
}

// Silent reports whether the page has been silent for too long.
func (w *Watch) Silent() bool {
	w.mu.Lock()
	defer w.mu.Unlock()
	past := w.now().Sub(w.last)
	if w.seen {
		return past >= Silence
	}
	return w.Grace > 0 && past >= w.Grace
}
