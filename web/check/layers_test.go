// Package check holds what is checked of the house as a whole: the layers
// here, the page in the browser tests beside this file.
package check

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A listed is what the Go tool says of one package.
type listed struct {
	ImportPath string
	Imports    []string
}

const house = "wheelroom/"

// list returns every package of the house as it is built for a target.
func list(t *testing.T, target ...string) []listed {
	t.Helper()
	c := exec.Command("go", "list", "-json=ImportPath,Imports", "./...")
	c.Dir = "../.."
	c.Env = append(os.Environ(), target...)
	var complaints bytes.Buffer
	c.Stderr = &complaints
	out, err := c.Output()
	require.NoError(t, err, complaints.String())
	var all []listed
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else {
			require.NoError(t, err)
		}
		all = append(all, p)
	}
}

var targets = [][]string{nil, {"GOOS=js", "GOARCH=wasm"}}

// room is the part of the tree a package of the house belongs to, "" for
// packages by others.
func room(path string) string {
	inside, ok := strings.CutPrefix(path, house)
	if !ok {
		return ""
	}
	room, _, _ := strings.Cut(inside, "/")
	return room
}

// Dependencies run one way: web, then game, then lessons, then physics. What
// ships is handed to the inner rooms as bytes, so only web may take assets;
// the drawing knows its own type.
var below = map[string][]string{
	"physics": {"physics"},
	"lessons": {"lessons", "physics"},
	"game":    {"game", "lessons", "physics"},
	"web":     {"web", "game", "lessons", "physics", "assets"},
	"assets":  {"assets"},
}

func TestDependenciesRunOneWay(t *testing.T) {
	for _, target := range targets {
		packages := list(t, target...)
		require.Greater(t, len(packages), 15, "the list is the whole house")
		for _, p := range packages {
			allowed, known := below[room(p.ImportPath)]
			require.True(t, known, "%s is in no room of the house", p.ImportPath)
			for _, imported := range p.Imports {
				if r := room(imported); r != "" {
					assert.Contains(t, allowed, r, "%s imports %s", p.ImportPath, imported)
				}
			}
		}
	}
}

func TestOnlyTheStageTouchesTheScreen(t *testing.T) {
	may := map[string]bool{house + "game/paint": true, house + "game/stage": true, house + "web/wasm": true}
	seen := 0
	for _, target := range targets {
		for _, p := range list(t, target...) {
			for _, imported := range p.Imports {
				if imported == "syscall/js" || strings.HasPrefix(imported, "github.com/hajimehoshi/ebiten") {
					seen++
					assert.True(t, may[p.ImportPath], "%s imports %s", p.ImportPath, imported)
				}
			}
		}
	}
	assert.Positive(t, seen, "the screen is touched somewhere")
}
