package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What only the parts of the machine can find is found as well, in its place:
// here a ring whose terminals two floors want, by check and by trace alike.
func TestBuildingThatCannotBeBuilt(t *testing.T) {
	file := filepath.Join(t.TempDir(), "clash.yaml")
	require.NoError(t, os.WriteFile(file, []byte(`version: 1
name: Clash House
floors:
  - {name: G, height_m: 0}
  - {name: "1", height_m: 2.4}
  - {name: "2", height_m: 9.4}
selector: {terminals_per_floor: 1.2, live_terminals: 2}
`), 0o600))
	for _, args := range [][]string{{"check", file}, {"trace", "--building", file, "--start", "G", "--until", "idle"}} {
		end, out, errs := do(args...)
		assert.Equal(t, exitInput, end, args[0])
		assert.Empty(t, out)
		assert.Contains(t, errs, file+":7:33: terminal 1 is nearest to floor G and to floor 1", args[0])
	}
}
