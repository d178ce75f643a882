package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/alecthomas/kong"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var page = fstest.MapFS{"index.html": {Data: []byte("page")}, "stage.wasm": {Data: []byte("program")}, "stage.wasm.br": {Data: []byte("small")}}

// ended runs a command line that ends by itself.
func ended(site fs.FS, args ...string) (end int, out, complaints string) {
	var stdout, stderr bytes.Buffer
	end = run(context.Background(), site, args, &stdout, &stderr)
	return end, stdout.String(), stderr.String()
}

func TestRefusals(t *testing.T) {
	taken, err := net.Listen("tcp4", "127.0.0.1:0")
	require.NoError(t, err)
	defer taken.Close()
	port := fmt.Sprint(taken.Addr().(*net.TCPAddr).Port)
	for _, c := range []struct {
		name string
		site fs.FS
		args []string
		end  int
		says string
	}{
		{"a port that is taken", page, []string{"--port", port}, exitWork, "Port " + port + " is taken"},
		{"no site", nil, nil, exitWork, "make kiosk"},
		{"no such browser", page, []string{"--port", "0", "--browser", "no-such-browser"}, exitWork, "no-such-browser"},
		{"no such language", page, []string{"--port", "0", "--language", "xx"}, exitWork, `"xx"`},
		{"no such option", page, []string{"--fly"}, exitUsage, "--fly"},
		{"no port", page, []string{"--port", "door"}, exitUsage, "--port"},
	} {
		t.Run(c.name, func(t *testing.T) {
			end, _, complaints := ended(c.site, c.args...)
			assert.Equal(t, c.end, end)
			assert.Contains(t, complaints, c.says)
			assert.NotContains(t, complaints, "kiosk.", "it is said in words")
		})
	}
	end, help, _ := ended(page, "--help")
	assert.Equal(t, exitFine, end)
	for _, option := range []string{"--port", "--language", "--browser", "--profile", "--grace"} {
		assert.Regexp(t, regexp.MustCompile(option+`\S*\s+[A-Z]\w+`), help, "%s has words", option)
	}
}

// serving runs the command until the test ends, and returns its lines.
func serving(t *testing.T, args ...string) (lines func(string) string, stop func() int) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	read, write := io.Pipe()
	over := make(chan int, 1)
	go func() {
		over <- run(ctx, page, append([]string{"--port", "0"}, args...), write, io.Discard)
		write.Close()
	}()
	stop = func() int {
		cancel()
		go io.Copy(io.Discard, read)
		return <-over
	}
	said := ""
	return func(until string) string {
		for buffer := make([]byte, 1024); !strings.Contains(said, until); {
			n, err := read.Read(buffer)
			said += string(buffer[:n])
			require.NoError(t, err, said)
		}
		return said
	}, stop
}

func TestServes(t *testing.T) {
	lines, stop := serving(t, "--profile", "/srv/a profile")
	said := lines("kiosk=1'\n")
	found := regexp.MustCompile(`^(http://127\.0\.0\.1:\d+/)\?view=exhibit&kiosk=1\n`).FindStringSubmatch(said)
	require.NotNil(t, found, said)
	assert.Regexp(t, `\n  chromium --kiosk '--user-data-dir=/srv/a profile' .*'http://127\.0\.0\.1:\d+/\?view=exhibit&kiosk=1'\n$`, said)
	for _, c := range []struct{ path, kind, text string }{
		{"?view=exhibit&kiosk=1", "text/html; charset=utf-8", "page"}, {"stage.wasm", "application/wasm", "small"},
	} {
		q, err := http.NewRequest(http.MethodGet, found[1]+c.path, nil)
		require.NoError(t, err)
		q.Header.Set("Accept-Encoding", "br")
		answer, err := http.DefaultClient.Do(q)
		require.NoError(t, err)
		text, err := io.ReadAll(answer.Body)
		require.NoError(t, err)
		answer.Body.Close()
		assert.Equal(t, c.text, string(text))
		assert.Equal(t, c.kind, answer.Header.Get("Content-Type"))
	}
	beat, err := http.Post(found[1]+"alive", "", nil)
	require.NoError(t, err)
	assert.Equal(t, http.StatusNoContent, beat.StatusCode)
	assert.Equal(t, exitFine, stop())
	_, err = http.Get(found[1])
	assert.Error(t, err, "nothing is served any more")
}

// systemd hears that it is ready, that the page beats, and that it ends.
func TestTellsSystemd(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("systemd is Linux's")
	}
	name := filepath.Join(t.TempDir(), "socket")
	socket, err := net.ListenUnixgram("unixgram", &net.UnixAddr{Name: name, Net: "unixgram"})
	require.NoError(t, err)
	defer socket.Close()
	t.Setenv("NOTIFY_SOCKET", name)
	hears := func() string {
		got := make([]byte, 64)
		n, err := socket.Read(got)
		require.NoError(t, err)
		return string(got[:n])
	}
	lines, stop := serving(t)
	address := strings.TrimSuffix(strings.Split(lines("kiosk=1'\n"), "\n")[0], "?view=exhibit&kiosk=1")
	assert.Equal(t, "READY=1", hears())
	// A page beats again and again; a busy machine may miss one.
	told := make(chan string, 1)
	go func() { told <- hears() }()
	for heard := false; !heard; {
		beat, err := http.Post(address+"alive", "", nil)
		require.NoError(t, err)
		require.NoError(t, beat.Body.Close())
		select {
		case state := <-told:
			assert.Equal(t, "WATCHDOG=1", state)
			heard = true
		case <-time.After(100 * time.Millisecond):
		}
	}
	require.Equal(t, exitFine, stop())
	last := hears()
	for last == "WATCHDOG=1" {
		last = hears()
	}
	assert.Equal(t, "STOPPING=1", last)
}

// The program itself is what opens a window here: a browser that is no more
// than a script that says how it was called.
func TestStartsTheBrowser(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("the browser here is a shell script")
	}
	folder := t.TempDir()
	browser, called := filepath.Join(folder, "browser"), filepath.Join(folder, "called")
	require.NoError(t, os.WriteFile(browser, []byte("#!/bin/sh\nmkfifo \"$0.wait\"\nprintf '%s\\n' \"$@\" > \"$0.new\" && mv \"$0.new\" "+called+"\ncat \"$0.wait\"\n"), 0o755))
	lines, stop := serving(t, "--browser", browser, "--profile", folder+"/profile")
	address := strings.TrimSpace(lines("kiosk=1\n"))
	var text []byte
	require.Eventually(t, func() bool {
		var err error
		text, err = os.ReadFile(called)
		return err == nil
	}, 60e9, 1e6)
	args := strings.Split(strings.TrimSpace(string(text)), "\n")
	assert.Equal(t, "--kiosk", args[0])
	assert.Contains(t, args, "--user-data-dir="+folder+"/profile")
	assert.Equal(t, address, args[len(args)-1])
	assert.Equal(t, exitFine, stop(), "and the browser, which would wait for ever, is ended")
	assert.NotContains(t, lines(""), "chromium --kiosk", "there is nothing to be done by hand")
}

// The unit starts the program with options it knows, and leaves the page the
// time to come up before systemd gives up on it.
func TestUnit(t *testing.T) {
	const file = "../../kiosk/wheelroom-kiosk.service"
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	value := func(key string) string {
		found := regexp.MustCompile(`(?m)^` + key + `=(.+)$`).FindSubmatch(text)
		require.NotNil(t, found, key)
		return string(found[1])
	}
	command := strings.Fields(value("ExecStart"))
	end, _, complaints := ended(nil, command[1:]...)
	assert.Equal(t, exitWork, end, complaints)
	seconds, err := strconv.Atoi(value("WatchdogSec"))
	require.NoError(t, err)
	var o order
	_, err = kong.Must(&o, kong.Vars{"port": "", "language": "", "browser": "", "profile": "", "grace": ""}).Parse(command[1:])
	require.NoError(t, err)
	assert.Greater(t, seconds, int(2*o.Grace.Seconds()), "two tries of the browser")
	assert.Equal(t, "always", value("Restart"))
	assert.Equal(t, "notify", value("Type"))

	check, err := exec.LookPath("systemd-analyze")
	if err != nil {
		t.Log("no systemd here to look at the unit")
		return
	}
	// It looks whether the program is there, so another takes its place.
	unit := filepath.Join(t.TempDir(), "wheelroom-kiosk.service")
	require.NoError(t, os.WriteFile(unit, bytes.ReplaceAll(text, []byte(command[0]), []byte("/bin/true")), 0o600))
	out, err := exec.Command(check, "verify", unit).CombinedOutput()
	assert.NoError(t, err, string(out))
	assert.NotContains(t, string(out), filepath.Base(unit), "nothing to complain of")
}
