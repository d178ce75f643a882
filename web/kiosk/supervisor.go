package kiosk

import (
	"context"
	"os"
	"os/exec"
	"time"
)

// What a supervisor tells as it happens, as message identities.
const (
	Started = "kiosk.started" // the browser was started
	Ended   = "kiosk.ended"   // it ended by itself
	Hung    = "kiosk.hung"    // its page was silent, and it was ended
	Failed  = "kiosk.failed"  // it could not be started
)

// A browser that lives shorter than this is started again after a pause, which
// doubles each time up to the longest.
const (
	soon         = 10 * time.Second
	shortestRest = time.Second
	longestRest  = 30 * time.Second
)

// A Supervisor keeps a browser going.
type Supervisor struct {
	// Command is the browser with its arguments; without one there is only
	// the page's heartbeat to be heard, from a browser that others keep going.
	Command []string
	// Watch hears the heartbeat.
	Watch *Watch
	// Ticks makes it look, about once a second.
	Ticks <-chan time.Time
	// Tell is called at each happening, with the error behind it if there is
	// one. It may be nil.
	Tell func(what string, err error)
	// Well is called at each tick at which the page is beating. It may be nil.
	Well func()
}

// Run keeps the browser going until the context ends, and ends it then.
func (s *Supervisor) Run(ctx context.Context) {
	for rest := shortestRest; ; {
		begun := s.Watch.now()
		what, err := s.show(ctx)
		if what == "" {
			return
		}
		ended := s.Watch.now()
		s.tell(what, err)
		if what == Hung { // and so has lived long enough
			rest = shortestRest
			continue
		}
		if ended.Sub(begun) >= soon {
			rest = shortestRest
		}
		until := ended.Add(rest)
		rest = min(2*rest, longestRest)
		for s.Watch.now().Before(until) {
			select {
			case <-ctx.Done():
				return
			case <-s.Ticks:
			}
		}
	}
}

// show starts the browser and stays until it has ended; it says how, or ""
// when the context has.
func (s *Supervisor) show(ctx context.Context) (what string, err error) {
	s.Watch.Start()
	var over chan error
	end := func() {}
	if len(s.Command) > 0 {
		browser := exec.Command(s.Command[0], s.Command[1:]...)
		browser.Stderr = os.Stderr
		group(browser)
		if err := browser.Start(); err != nil {
			return Failed, err
		}
		s.tell(Started, nil)
		over = make(chan error, 1)
		go func() { over <- browser.Wait() }()
		// What a browser leaves behind would keep its profile locked.
		end = func() { kill(browser) }
	}
	for {
		select {
		case <-ctx.Done():
			end()
			if over != nil {
				<-over
			}
			return "", nil
		case err := <-over:
			end()
			return Ended, err
		case <-s.Ticks:
			if s.Well != nil && s.Watch.Beating() {
				s.Well()
			}
			if over != nil && s.Watch.Silent() {
				end()
				<-over
				return Hung, nil
			}
		}
	}
}

func (s *Supervisor) tell(what string, err error) {
	if s.Tell != nil {
		s.Tell(what, err)
	}
}
