package relay

import (
	"bytes"
	"flag"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the tables in testdata anew; needs ngspice")

// ngspice solves a netlist and returns what it prints, or skips the test
// where ngspice is not installed.
func ngspice(t *testing.T, path string) []byte {
	t.Helper()
	program, err := exec.LookPath("ngspice")
	if err != nil {
		t.Skip("ngspice is not installed")
	}
	out, err := exec.Command(program, "-b", path).Output()
	// ngspice -b calls it an error when a netlist has no .print line
	if _, exit := err.(*exec.ExitError); err != nil && !exit {
		require.NoError(t, err)
	}
	return out
}

var (
	measured = regexp.MustCompile(`(?m)^(\w+)\s+=\s+(\S+)`)
	nodeVolt = regexp.MustCompile(`(?m)^\t?([a-z][a-z0-9_]*)\s+(-?\d\.\d+e[-+]\d+)\s*$`)
)

func table(t *testing.T, text []byte, row *regexp.Regexp) map[string]float64 {
	t.Helper()
	out := map[string]float64{}
	for _, m := range row.FindAllSubmatch(text, -1) {
		v, err := strconv.ParseFloat(string(m[2]), 64)
		require.NoError(t, err)
		out[string(m[1])] = v
	}
	return out
}

// The circuit of testdata/relay.cir.
func twoCoils(t *testing.T) map[string]float64 {
	c := New()
	plus, top, tied := c.Node("plus"), c.Node("top"), c.Node("tied")
	c.Source(plus, 0, 24, 0.5)
	feed := c.Contact("feed", plus, top, false)
	spec := relay24
	spec.Suppression, spec.SuppressorOhm = DiodeResistorAcross, 1300
	one := c.Coil("one", top, 0, spec)
	c.Lamp("lamp", top, tied, cold240)
	spec.OhmR, spec.HenryL, spec.PickUpA = 900, 2, 1
	two := c.Coil("two", tied, 0, spec)
	s := seal(t, c)

	got := map[string]float64{}
	now := 0.0
	to := func(at float64) {
		for now < at {
			dt := math.Min(at-now, s.Next())
			s.Advance(dt)
			now += dt
			for _, k := range s.Moved() {
				if k == one && s.In(one) {
					got["operate_s"] = now
				} else if k == one {
					got["release_s"] = now
				}
			}
		}
	}
	read := func(at float64, label string) {
		to(at)
		got["one_"+label], got["two_"+label] = s.CoilA(one), s.CoilA(two)
	}
	to(0.001)
	s.Set(feed, true)
	read(0.003, "3ms")
	read(0.0409, "41ms")
	to(0.041)
	s.Set(feed, false)
	read(0.042, "42ms")
	read(0.045, "45ms")
	to(0.060)
	return got
}

func TestTransientAgainstNgspice(t *testing.T) {
	got := twoCoils(t)
	check := func(t *testing.T, want map[string]float64) {
		require.Len(t, want, len(got))
		for name, v := range want {
			// ngspice steps a microsecond and solves to 1e-3 by default
			assert.InEpsilon(t, v, got[name], 2e-3, name)
		}
	}
	t.Run("kept", func(t *testing.T) {
		text, err := os.ReadFile("testdata/relay.txt")
		require.NoError(t, err)
		check(t, table(t, text, measured))
	})
	t.Run("live", func(t *testing.T) {
		check(t, table(t, ngspice(t, "testdata/relay.cir"), measured))
	})
}

// panel is a ladder of three floors with every kind of element, frozen while
// the first relays are in.
func panel(t *testing.T) *State {
	c := newLadderOf(3)
	k := c.c.Coil("broken", c.c.Node("feed_broken"), 0, relay24)
	c.c.Contact("feed", 1, c.c.Node("feed_broken"), true)
	c.c.Diode("valve", c.c.Node("d_0"), c.c.Node("down"))
	require.NoError(t, c.c.Seal())
	s := NewState(c.c)
	s.Force(k, OpenCircuit)
	s.Set(c.button[0], true)
	s.Set(c.button[2], true)
	run(s, 0.1)
	return s
}

func TestWriteSpice(t *testing.T) {
	s := panel(t)
	var text bytes.Buffer
	require.NoError(t, WriteSpice(&text, s))
	if *update {
		require.NoError(t, os.WriteFile("testdata/panel.cir", text.Bytes(), 0o644))
		head := "# ngspice -b panel.cir\n"
		require.NoError(t, os.WriteFile("testdata/panel.txt", append([]byte(head), ngspice(t, "testdata/panel.cir")...), 0o644))
	}
	kept, err := os.ReadFile("testdata/panel.cir")
	require.NoError(t, err)
	assert.Equal(t, string(kept), text.String())

	rest := s.c.Rest(s)
	check := func(t *testing.T, out []byte) {
		want := table(t, out, nodeVolt)
		for n := 1; n < s.c.Nodes(); n++ {
			name := s.c.NodeName(Node(n))
			require.Contains(t, want, name)
			assert.InDelta(t, want[name], rest[n], 1e-4, name)
		}
	}
	t.Run("kept", func(t *testing.T) {
		out, err := os.ReadFile("testdata/panel.txt")
		require.NoError(t, err)
		check(t, out)
	})
	t.Run("live", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "panel.cir")
		require.NoError(t, os.WriteFile(path, text.Bytes(), 0o644))
		check(t, ngspice(t, path))
	})
}
