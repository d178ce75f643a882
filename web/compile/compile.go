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
// which makes it a sixth smaller. Only where the machine cruises and the picture
// is painted, and in what both lean on, may the compiler put a function's body
// in the place of its call, as it does elsewhere.
var Small = Fast.with("-gcflags=all=-l").inlining(
	"wheelroom/physics/drive", "wheelroom/physics/lift", "wheelroom/physics/relay",
	"wheelroom/game/figure", "wheelroom/game/paint/...",
	"github.com/hajimehoshi/ebiten/v2", "github.com/hajimehoshi/ebiten/v2/internal/affine",
	"github.com/hajimehoshi/ebiten/v2/internal/atlas", "github.com/hajimehoshi/ebiten/v2/internal/graphics",
	"github.com/hajimehoshi/ebiten/v2/internal/graphicscommand",
	"cmp", "image", "math", "math/bits", "slices", "sync", "sync/atomic", "unicode/utf8",
)

func (m Manner) with(flags ...string) Manner { return append(m[:len(m):len(m)], flags...) }

// inlining returns m with functions inlined in some packages after all.
func (m Manner) inlining(packages ...string) Manner {
	for _, p := range packages {
		m = m.with("-gcflags=" + p + "=")
	}
	return m
}

// Go returns a call of the Go tool for the browser's processor: a verb, as in
// "build", and its further arguments.
func (m Manner) Go(verb string, args ...string) *exec.Cmd {
	c := exec.Command("go", append([]string{verb}, m.with(args...)...)...)
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	return c
}

// Runner is the script of the Go distribution that runs such a program under
// Node.
func Runner() (string, error) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	return filepath.Join(strings.TrimSpace(string(root)), "lib/wasm/go_js_wasm_exec"), err
}
