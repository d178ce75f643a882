// Package compile is how Go becomes a program for the browser.
package compile

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// A Manner is the Go tool's flags for one program.
type Manner []string

// Fast is for a program that is to be quick at work: the one for long errands.
var Fast = Manner{"-trimpath", "-ldflags=-s -w"}

// Small is for one that is to be quick to fetch: the stage. Calls stay calls,
// which makes it a sixth smaller, but where the machine cruises the compiler
// may put a function's body in the place of its call as it does elsewhere.
var Small = append(Fast[:len(Fast):len(Fast)], "-gcflags=all=-l",
	"-gcflags=wheelroom/physics/drive=", "-gcflags=wheelroom/physics/lift=", "-gcflags=wheelroom/physics/relay=")

// Go returns a call of the Go tool for the browser's processor: a verb, as in
// "build", and its further arguments.
func (m Manner) Go(verb string, args ...string) *exec.Cmd {
	all := append([]string{verb}, m...)
	c := exec.Command("go", append(all, args...)...)
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	return c
}

// Runner is the script of the Go distribution that runs such a program under
// Node.
func Runner() (string, error) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	return filepath.Join(strings.TrimSpace(string(root)), "lib/wasm/go_js_wasm_exec"), err
}
