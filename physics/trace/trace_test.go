package trace

import (
	"bytes"
	"encoding/csv"
	"flag"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

var update = flag.Bool("update", false, "write the golden files anew")

func threeFloors(t *testing.T) *lift.Machine {
	t.Helper()
	p := building.Evenly("Three", 3, 3.2)
	p.Selector.SpanDeg = 150
	m, err := lift.New(&p, lift.Options{})
	require.NoError(t, err)
	return m
}

func record(t *testing.T, calls ...string) []Row {
	t.Helper()
	m := threeFloors(t)
	for _, c := range calls {
		in, why := ReadCall(m.Plan(), c)
		require.Empty(t, why.ID)
		require.Empty(t, m.Do(in).ID)
	}
	r := Record(m)
	require.True(t, r.RunUntilIdle())
	return r.Rows
}

func TestEverySignalStandsOnceAtTheStart(t *testing.T) {
	m := threeFloors(t)
	rows := Signals(m)
	seen := map[string]string{}
	for _, r := range rows {
		assert.Zero(t, r.TimeS)
		assert.NotContains(t, seen, r.Signal)
		seen[r.Signal] = r.Value
	}
	for _, kind := range []string{"call", "lamp", "rim", "advance-up", "advance-down", "direction"} {
		for _, f := range []string{"1", "2", "3"} {
			assert.Contains(t, seen, kind+"."+f)
		}
	}
	for _, relay := range control.Relays() {
		assert.Contains(t, seen, "relay."+relay)
	}
	assert.Equal(t, "1", seen["stop"])
	assert.Equal(t, "closed", seen["door"])
	assert.Equal(t, "0.000", seen["car.position_m"])
	assert.Equal(t, "1", seen["lamp.1"])
	assert.Equal(t, "above", seen["direction.3"])
	assert.Equal(t, "between", seen["direction.1"])
	assert.Equal(t, "1", seen["relay.level"])
	assert.Equal(t, "1", seen["relay.safety"])
}

func TestOnlyChangesFollow(t *testing.T) {
	rows := record(t, "3@0.5", "2@1")
	now := map[string]string{}
	last := 0.0
	for i, r := range rows {
		if i > 0 {
			assert.GreaterOrEqual(t, r.TimeS, last-1e-9, "row %d", i)
		}
		last = r.TimeS
		if !strings.HasPrefix(r.Signal, "car.") {
			assert.NotEqual(t, now[r.Signal], r.Value, "row %d: %v", i, r)
		}
		now[r.Signal] = r.Value
	}
	assert.Equal(t, "3", now["stop"])
	assert.Equal(t, "0", now["call.2"])
}

// A reader of the trace sees the causes before their effects: a call before
// its line, its line before the start, fast before motion.
func TestEqualTimesKeepCausalOrder(t *testing.T) {
	rows := record(t, "3@0")
	first := func(signal, value string) int {
		for i, r := range rows {
			if r.TimeS > 0 && r.Signal == signal && r.Value == value {
				return i
			}
		}
		require.FailNow(t, "no such row", "%s %s", signal, value)
		return -1
	}
	order := []int{first("call.3", "1"), first("relay.up-line", "1"), first("relay.start", "1"), first("relay.up", "1"),
		first("relay.up-contactor", "1"), first("relay.brake", "1"), first("stop", "-"), first("advance-up.3", "1"),
		first("relay.stop", "1"), first("relay.slow", "1"), first("stop", "3"), first("relay.door", "1"), first("door", "open")}
	assert.IsIncreasing(t, order)
}

func TestCSVReadsBack(t *testing.T) {
	rows := record(t, "2@0")
	var b bytes.Buffer
	require.NoError(t, WriteCSV(&b, rows))
	got, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	require.Len(t, got, len(rows)+1)
	assert.Equal(t, []string{"time_s", "signal", "value"}, got[0])
	for _, line := range got[1:] {
		_, err := strconv.ParseFloat(line[0], 64)
		require.NoError(t, err)
		_, decimals, _ := strings.Cut(line[0], ".")
		assert.Len(t, decimals, 3)
	}
}

func TestPositionIsSampledOnlyWhileItMoves(t *testing.T) {
	rows := record(t, "2@0")
	var first, end float64
	n := 0
	for _, r := range rows {
		if r.Signal == "car.position_m" && r.TimeS > 0 {
			if n == 0 {
				first = r.TimeS
			}
			n++
			end = r.TimeS
		}
	}
	assert.Greater(t, first, 0.4)
	assert.Less(t, end, 10.0)
	assert.InDelta(t, (end-first)/SampleS+1, n, 0.5, "one row every tenth of a second")
}

func TestGoldenTrace(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, WriteCSV(&b, record(t, "2@0")))
	golden(t, "testdata/one-call.csv", b.Bytes())
	b.Reset()
	require.NoError(t, WriteVCD(&b, record(t, "2@0")))
	golden(t, "testdata/one-call.vcd", b.Bytes())
}

func golden(t *testing.T, file string, got []byte) {
	t.Helper()
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(file, got, 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, string(want), string(got))
}

// IEEE 1364 asks for distinct printable identifier codes and for times that
// never go back; read here with a reader of a few lines.
func TestVCDIsWellFormed(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, WriteVCD(&b, record(t, "3@0", "2@4")))
	codes := map[string]bool{}
	last := int64(-1)
	declared := false
	for _, line := range strings.Split(strings.TrimSpace(b.String()), "\n") {
		f := strings.Fields(line)
		switch {
		case f[0] == "$var":
			require.False(t, codes[f[3]], "code %s twice", f[3])
			codes[f[3]] = true
		case f[0] == "$enddefinitions":
			declared = true
		case f[0][0] == '#':
			ms, err := strconv.ParseInt(f[0][1:], 10, 64)
			require.NoError(t, err)
			require.Greater(t, ms, last)
			last = ms
		case f[0][0] == '0' || f[0][0] == '1':
			require.True(t, declared && codes[f[0][1:]], line)
		case f[0][0] == 'r' || f[0][0] == 's':
			require.True(t, declared && codes[f[1]], line)
		}
	}
	assert.Positive(t, last)
}

func TestReadCall(t *testing.T) {
	p := building.Evenly("Three", 3, 3.2)
	for _, c := range []struct{ text, wrong string }{
		{"2@1.5", ""}, {"2", "call.form"}, {"7@1", "call.floor"}, {"2@x", "call.time"}, {"2@-1", "call.time"}, {"2@NaN", "call.time"},
	} {
		in, why := ReadCall(&p, c.text)
		assert.Equal(t, c.wrong, why.ID, c.text)
		if c.wrong == "" {
			assert.Equal(t, lift.Input{TimeS: 1.5, Kind: lift.Press, Part: "button.2"}, in)
		}
	}
}

func TestReadCallByWay(t *testing.T) {
	p := building.Evenly("Three", 3, 3.2)
	one := p
	p.Control.Scheme = "two-button"
	for _, c := range []struct {
		plan             *building.Plan
		text, part, want string
	}{
		{&p, "2:up@1", "button-up.2", ""},
		{&p, "2:down@1", "button-down.2", ""},
		{&p, "3:car@1", "button-car.3", ""},
		{&p, "2@1", "", "call.which-button"},
		{&p, "3:up@1", "", "call.no-button"},
		{&p, "1:down@1", "", "call.no-button"},
		{&p, "2:sideways@1", "", "call.no-button"},
		{&p, "2:@1", "", "call.no-button"},
		{&p, "9:up@1", "", "call.floor"},
		{&one, "2:up@1", "", "call.one-button"},
	} {
		in, why := ReadCall(c.plan, c.text)
		assert.Equal(t, c.want, why.ID, c.text)
		assert.Equal(t, lift.Part(c.part), in.Part, c.text)
	}
}

func TestSnapshotSaysWhatTheTraceSays(t *testing.T) {
	m := threeFloors(t)
	m.Press(2)
	r := Record(m)
	for i := range 200 {
		r.RunTo(float64(i+1) * 0.1)
		now := map[string]string{}
		for _, row := range Signals(m) {
			now[row.Signal] = row.Value
		}
		s := Look(m)
		for _, row := range r.Rows {
			if !strings.HasPrefix(row.Signal, "car.") {
				now["traced "+row.Signal] = row.Value
			}
		}
		for name, v := range s.Relays {
			require.Equal(t, now["traced relay."+name], strconv.Itoa(v), "%s at %.3f", name, s.TimeS)
		}
		require.Equal(t, now["traced stop"], s.Car.Stop)
		require.Equal(t, now["traced door"], s.Car.Door)
		require.Equal(t, now["traced direction.2"], s.Switches["direction.2"])
	}
}
