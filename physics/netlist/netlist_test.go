package netlist

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

var update = flag.Bool("update", false, "write the netlists and tables in testdata anew; needs ngspice")

// cases are the instants whose netlists and tables are kept.
var cases = []struct {
	scheme string
	start  int
	press  []lift.Part
	atS    float64
	spoil  string // a coil broken from the start
}{
	{"direct", 1, []lift.Part{"button.3"}, 0.2, ""},
	{"interlocked", 1, []lift.Part{"button.3", "button.1"}, 1, ""},
	{"directional", 0, nil, 0, ""},
	{"directional", 0, []lift.Part{"button.3", "button.2"}, 2.5, ""},
	{"directional", 2, []lift.Part{"button.1"}, 9, "relay.fast"},
	{"two-button", 0, []lift.Part{"button-up.2", "button-down.2", "button-car.3"}, 7, ""},
	{"directional", 0, []lift.Part{"button.3"}, 0.05, ""}, // the call's lamp is still cold
}

func name(i int) string { return fmt.Sprintf("%d-%s", i+1, cases[i].scheme) }

// frozen makes the machine of a case.
func frozen(t *testing.T, i int) *lift.Machine {
	t.Helper()
	c := cases[i]
	p := building.Evenly("Three landings, one of them odd", 3, 3.2)
	p.Selector.SpanDeg = 150
	p.Control.Scheme = c.scheme
	m, err := lift.New(&p, lift.Options{Start: c.start})
	require.NoError(t, err)
	for _, part := range c.press {
		require.Empty(t, m.Do(lift.Input{Kind: lift.Press, Part: part}).ID)
	}
	if c.spoil != "" {
		require.Empty(t, m.Do(lift.Input{Kind: lift.Override, Part: lift.Part(c.spoil), State: "coil-open"}).ID)
	}
	m.RunTo(c.atS)
	return m
}

// ngspice runs a netlist as it stands and returns the table it prints, or
// skips the test where it is not installed.
func ngspice(t *testing.T, path string) []byte {
	t.Helper()
	program, err := exec.LookPath("ngspice")
	if err != nil {
		t.Skip("ngspice is not installed")
	}
	out, err := exec.Command(program, "-b", path).Output()
	require.NoError(t, err)
	return out
}

var printed = regexp.MustCompile(`(?m)^([a-z][a-z0-9_]*) = (-?\d\.\d+e[-+]\d+)$`)

func table(t *testing.T, text []byte) map[string]float64 {
	t.Helper()
	out := map[string]float64{}
	for _, m := range printed.FindAllSubmatch(text, -1) {
		v, err := strconv.ParseFloat(string(m[2]), 64)
		require.NoError(t, err)
		out[string(m[1])] = v
	}
	return out
}

// rows keeps of what ngspice prints only the table itself.
func rows(text []byte) []byte {
	return bytes.Join(printed.FindAll(text, -1), []byte("\n"))
}

func spice(t *testing.T, m *lift.Machine) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, m, Spice))
	return b.Bytes()
}

// TestAgainstNgspice compares every node with tables that ngspice computed
// from the netlists kept beside them, and where it is installed with a fresh
// run of it.
func TestAgainstNgspice(t *testing.T) {
	for i := range cases {
		t.Run(name(i), func(t *testing.T) {
			m := frozen(t, i)
			text := spice(t, m)
			cir, kept := filepath.Join("testdata", name(i)+".cir"), filepath.Join("testdata", name(i)+".txt")
			if *update {
				require.NoError(t, os.WriteFile(cir, text, 0o644))
				head := "# ngspice -b " + name(i) + ".cir\n"
				require.NoError(t, os.WriteFile(kept, slices.Concat([]byte(head), rows(ngspice(t, cir)), []byte("\n")), 0o644))
			}
			check := func(t *testing.T, out []byte) {
				want, got := table(t, out), Volts(m)
				require.Len(t, want, len(got))
				for node, v := range got {
					require.Contains(t, want, node)
					// 1 GΩ beside each coil, which only this program has
					assert.InDelta(t, want[node], v, 1e-5*math.Max(1, v), node)
				}
			}
			t.Run("kept", func(t *testing.T) {
				was, err := os.ReadFile(cir)
				require.NoError(t, err)
				assert.Equal(t, string(was), string(text))
				out, err := os.ReadFile(kept)
				require.NoError(t, err)
				check(t, out)
			})
			t.Run("live", func(t *testing.T) {
				path := filepath.Join(t.TempDir(), "frozen.cir")
				require.NoError(t, os.WriteFile(path, text, 0o644))
				check(t, ngspice(t, path))
			})
		})
	}
}

func TestJSONHasTheNodesOfTheNetlist(t *testing.T) {
	for i := range cases {
		m := frozen(t, i)
		var b bytes.Buffer
		require.NoError(t, Write(&b, m, JSON))
		var got struct{ Nodes map[string]float64 }
		require.NoError(t, json.Unmarshal(b.Bytes(), &got))
		assert.Equal(t, Volts(m), got.Nodes)
		named := map[string]bool{}
		for _, line := range strings.Split(string(spice(t, m)), "\n") {
			f := strings.Fields(line)
			if len(f) < 4 || f[0][0] != 'r' && f[0][0] != 'v' {
				continue
			}
			for _, node := range f[1:3] {
				if node != "0" {
					assert.Regexp(t, `^[a-z][a-z0-9_]*$`, node)
					named[node] = true
				}
			}
		}
		assert.Len(t, named, len(got.Nodes))
		for node := range named {
			assert.Contains(t, got.Nodes, node)
		}
	}
}

func TestFloorsAreNamedByIndex(t *testing.T) {
	p := building.Evenly("x", 2, 3.2)
	p.Floors[0].Name, p.Floors[1].Name = "-1", "Ö"
	for _, scheme := range control.Schemes() {
		p.Control.Scheme = scheme
		m, err := lift.New(&p, lift.Options{})
		require.NoError(t, err)
		assert.Contains(t, Volts(m), "row_0")
		assert.Contains(t, Volts(m), "row_1")
		for node := range Volts(m) {
			assert.Regexp(t, `^[a-z][a-z0-9_]*$`, node)
		}
		for _, b := range spice(t, m) {
			require.Less(t, b, byte(127))
		}
	}
}

func TestAnUnknownFormatIsAnError(t *testing.T) {
	assert.Error(t, Write(&bytes.Buffer{}, frozen(t, 0), "xml"))
}

// TestPowerBalances: what the supply gives is what the network turns into heat, at
// every instant kept.
func TestPowerBalances(t *testing.T) {
	for i := range cases {
		m := frozen(t, i)
		v := Volts(m)
		v["0"] = 0
		given, heat := 0.0, 0.0
		for _, line := range strings.Split(string(spice(t, m)), "\n") {
			f := strings.Fields(line)
			if len(f) != 4 || f[0][0] != 'r' {
				continue
			}
			ohms, err := strconv.ParseFloat(f[3], 64)
			require.NoError(t, err)
			d := v[f[1]] - v[f[2]]
			heat += d * d / ohms
			if f[1] == emf {
				given = v[emf] * d / ohms
			}
		}
		assert.InEpsilon(t, given, heat, 1e-5)
	}
}
