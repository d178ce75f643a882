//go:build unix

package kiosk_test

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/web/kiosk"
)

// The test's own program is the browser, when it is told to be one: it writes
// down its process, beats once if it can, and hangs or ends.
func TestMain(m *testing.M) {
	kind := os.Getenv("BROWSER_KIND")
	if kind == "" {
		os.Exit(m.Run())
	}
	address := os.Args[len(os.Args)-1]
	if kind == "helper" {
		kind, address = "hang", os.Getenv("BROWSER_ADDRESS")
	} else if kind == "tree" { // hangs in a process that it has started, as a wrapper does
		helper := exec.Command(os.Args[0])
		helper.Env = append(os.Environ(), "BROWSER_KIND=helper", "BROWSER_ADDRESS="+address)
		if helper.Run() != nil {
			os.Exit(3)
		}
	}
	pid := []byte(strconv.Itoa(os.Getpid()) + "\n")
	log, err := os.OpenFile(os.Getenv("BROWSER_LOG"), os.O_APPEND|os.O_WRONLY|os.O_CREATE, 0o600)
	if err != nil {
		panic(err)
	}
	log.Write(pid)
	if kind != "mute" {
		answer, err := http.Post(address+"/alive", "", nil)
		if err != nil || answer.StatusCode != http.StatusNoContent {
			os.Exit(2)
		}
	}
	if kind == "ends" {
		os.Exit(0)
	}
	select {}
}

// A run is a supervisor at work on a browser of some kind.
type run struct {
	t      *testing.T
	clock  clock
	watch  *kiosk.Watch
	ticks  chan time.Time
	told   chan string
	well   int
	stop   context.CancelFunc
	over   chan struct{}
	beaten chan struct{}
	log    string
}

func supervise(t *testing.T, kind string) *run {
	t.Helper()
	r := &run{t: t, clock: newClock(), ticks: make(chan time.Time), told: make(chan string, 16), over: make(chan struct{}), beaten: make(chan struct{}, 16), log: filepath.Join(t.TempDir(), "log")}
	r.watch = &kiosk.Watch{Grace: time.Minute, Now: r.clock.now}
	pages := kiosk.Handler(fstest.MapFS{}, r.watch)
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, q *http.Request) {
		pages.ServeHTTP(w, q)
		r.beaten <- struct{}{}
	}))
	t.Cleanup(server.Close)
	t.Setenv("BROWSER_KIND", kind)
	t.Setenv("BROWSER_LOG", r.log)
	self, err := os.Executable()
	require.NoError(t, err)
	s := kiosk.Supervisor{Command: []string{self, server.URL}, Watch: r.watch, Ticks: r.ticks, Tell: func(what string, _ error) { r.told <- what }, Well: func() { r.well++ }}
	if kind == "missing" {
		s.Command = []string{r.log + "/none"}
	}
	ctx, cancel := context.WithCancel(context.Background())
	r.stop = cancel
	go func() {
		s.Run(ctx)
		close(r.over)
	}()
	t.Cleanup(func() { cancel(); <-r.over })
	return r
}

// tells waits for the next happening.
func (r *run) tells(want string) {
	r.t.Helper()
	assert.Equal(r.t, want, <-r.told)
}

// after lets time pass and has the supervisor look.
func (r *run) after(d time.Duration) {
	r.clock.on(d)
	r.ticks <- time.Time{}
}

// lives reports whether a process is there. One that was ended stays on the
// list until its parent has seen it, so its state is asked for.
func lives(t *testing.T, pid string) bool {
	n, err := strconv.Atoi(pid)
	require.NoError(t, err)
	if syscall.Kill(n, 0) != nil {
		return false
	}
	stat, err := os.ReadFile("/proc/" + pid + "/stat")
	return err != nil || !strings.Contains(string(stat), ") Z ")
}

// gone waits for a process that was ended to be gone.
func gone(t *testing.T, pid string) {
	t.Helper()
	assert.Eventually(t, func() bool { return !lives(t, pid) }, time.Minute, time.Millisecond)
}

func (r *run) processes() []string {
	text, err := os.ReadFile(r.log)
	require.NoError(r.t, err)
	return strings.Fields(string(text))
}

func TestHungPageIsStartedAnew(t *testing.T) {
	for _, kind := range []string{"hang", "tree"} {
		t.Run(kind, func(t *testing.T) {
			r := supervise(t, kind)
			r.tells(kiosk.Started)
			<-r.beaten
			first := r.processes()
			require.Len(t, first, 1)
			r.after(kiosk.Silence - time.Second)
			r.after(0)
			assert.True(t, lives(t, first[0]), "not yet")
			r.after(time.Second)
			r.tells(kiosk.Hung)
			r.tells(kiosk.Started)
			<-r.beaten
			both := r.processes()
			require.Len(t, both, 2)
			gone(t, both[0])
			assert.True(t, lives(t, both[1]))
			r.stop()
			<-r.over
			gone(t, both[1])
			assert.Equal(t, 2, r.well, "systemd hears of it at the ticks at which the page was beating")
		})
	}
}

func TestPageThatNeverComesUp(t *testing.T) {
	r := supervise(t, "mute")
	r.tells(kiosk.Started)
	r.after(59 * time.Second)
	r.after(time.Second)
	r.tells(kiosk.Hung)
	r.tells(kiosk.Started)
	assert.Zero(t, r.well)
}

// One that ends at once is started again after a pause that doubles.
func TestBrowserThatEnds(t *testing.T) {
	for _, c := range []struct{ kind, what string }{{"ends", kiosk.Ended}, {"missing", kiosk.Failed}} {
		t.Run(c.kind, func(t *testing.T) {
			r := supervise(t, c.kind)
			for _, pause := range []time.Duration{1, 2, 4, 8, 16, 30, 30} {
				if c.kind != "missing" {
					r.tells(kiosk.Started)
				}
				r.tells(c.what)
				r.after(pause*time.Second - time.Millisecond)
				assert.Empty(t, r.told, "not before %d s", pause)
				r.after(time.Millisecond)
			}
		})
	}
}
