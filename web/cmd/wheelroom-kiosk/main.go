// Command wheelroom-kiosk is the whole site in one file, for a screen that
// nobody watches: it serves the page on this machine's loopback, and prints the
// browser's command or keeps the browser going itself.
//
// It ends with 0 when it is stopped, 1 where it cannot do its work and 2 for
// bad usage.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"syscall"
	"time"

	"github.com/alecthomas/kong"

	"wheelroom/physics/phrase"
	"wheelroom/web"
	"wheelroom/web/kiosk"
	"wheelroom/web/languages"
	"wheelroom/web/program"
)

// The program's ends.
const (
	exitFine  = 0
	exitWork  = 1
	exitUsage = 2
)

// order is the command line.
type order struct {
	Port     int           `default:"8080" help:"${port}"`
	Language string        `default:"en" placeholder:"TAG" help:"${language}"`
	Browser  string        `placeholder:"PROGRAM" help:"${browser}"`
	Profile  string        `placeholder:"FOLDER" help:"${profile}"`
	Grace    time.Duration `default:"60s" help:"${grace}"`

	site            fs.FS
	words           func(id string, pairs ...any) string
	out, complaints io.Writer
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	os.Exit(run(ctx, web.Dist, os.Args[1:], os.Stdout, os.Stderr))
}

// run does what args say with a site until the context ends, and returns the
// program's end.
func run(ctx context.Context, site fs.FS, args []string, stdout, stderr io.Writer) (end int) {
	o := order{site: site, out: stdout, complaints: stderr}
	o.speak(program.English().Words)
	vars := kong.Vars{}
	for _, name := range []string{"port", "language", "browser", "profile", "grace"} {
		vars[name] = o.words("kiosk.help-" + name)
	}
	// Help ends the parsing early; the panic carries that past kong.
	type done struct{ code int }
	defer func() {
		switch d := recover().(type) {
		case nil:
		case done:
			end = d.code
		default:
			panic(d)
		}
	}()
	parser := kong.Must(&o, kong.Name("wheelroom-kiosk"), kong.Description(o.words("kiosk.help")), vars,
		kong.Writers(stdout, stderr), kong.Exit(func(code int) { panic(done{code}) }))
	if _, err := parser.Parse(args); err != nil {
		fmt.Fprintf(stderr, "wheelroom-kiosk: %v\nTry: wheelroom-kiosk --help\n", err)
		return exitUsage
	}
	if err := o.serve(ctx); err != nil {
		fmt.Fprintf(stderr, "wheelroom-kiosk: %v\n", err)
		return exitWork
	}
	return exitFine
}

// serve serves the site and looks after the browser until the context ends.
func (o *order) serve(ctx context.Context) error {
	if o.site == nil {
		return errors.New(o.words("kiosk.no-site"))
	}
	language, err := languages.Open(o.Language)
	if err != nil {
		return err
	}
	o.speak(language.Words)
	folder := ""
	if o.Language != languages.English {
		folder = o.Language + "/"
	}
	if o.Browser != "" {
		if _, err := exec.LookPath(o.Browser); err != nil {
			return errors.New(o.words("kiosk.no-browser", "browser", o.Browser))
		}
	}
	listener, err := net.Listen("tcp4", fmt.Sprintf("127.0.0.1:%d", o.Port))
	if errors.Is(err, syscall.EADDRINUSE) {
		return errors.New(o.words("kiosk.port-taken", "port", o.Port))
	}
	if err != nil {
		return err
	}
	address := kiosk.Address(listener.Addr().(*net.TCPAddr).Port, folder)
	fmt.Fprintln(o.out, address)

	watch := &kiosk.Watch{Grace: o.Grace}
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	server := &http.Server{Handler: kiosk.Handler(o.site, watch), ReadHeaderTimeout: 10 * time.Second, IdleTimeout: 2 * time.Minute}
	go func() { cancel(server.Serve(listener)) }()
	defer server.Close()

	ticker := time.NewTicker(time.Second)
	defer ticker.Stop()
	supervisor := kiosk.Supervisor{Watch: watch, Ticks: ticker.C, Tell: o.tell, Well: func() { o.notify(kiosk.Watchdog) }}
	if o.Browser != "" {
		supervisor.Command = kiosk.Command(o.Browser, o.profile(), address)
	} else {
		fmt.Fprintf(o.out, "%s\n\n  %s\n", o.words("kiosk.open"), kiosk.Shell(kiosk.Command("chromium", o.profile(), address)))
	}
	o.notify(kiosk.Ready)
	supervisor.Run(ctx)
	o.notify(kiosk.Stopping)
	if cause := context.Cause(ctx); !errors.Is(cause, context.Canceled) {
		return cause
	}
	return nil
}

// profile is the browser's own folder: the one asked for, or one among the
// user's settings.
func (o *order) profile() string {
	if o.Profile != "" {
		return o.Profile
	}
	settings, err := os.UserConfigDir()
	if err != nil {
		settings = os.TempDir()
	}
	return filepath.Join(settings, "wheelroom-kiosk")
}

// speak takes the words of a language.
func (o *order) speak(words *phrase.Catalogue) {
	o.words = func(id string, pairs ...any) string { return words.Text(phrase.Of(id, pairs...)) }
}

// tell says what has happened to the browser.
func (o *order) tell(what string, err error) {
	text := o.words(what)
	if err != nil {
		text += " (" + err.Error() + ")"
	}
	fmt.Fprintln(o.complaints, text)
}

// notify tells systemd; that it cannot be told is said, and nothing else.
func (o *order) notify(state string) {
	if err := kiosk.Notify(state); err != nil {
		fmt.Fprintf(o.complaints, "wheelroom-kiosk: %v\n", err)
	}
}
