package lift

import (
	"math/rand"
	"slices"
	"testing"

	"wheelroom/physics/trial"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReplayEqualsRun(t *testing.T) {
	p := tidemill()
	rng := rand.New(rand.NewSource(3))
	for range trial.Runs(10) {
		m, err := New(&p, Options{Start: rng.Intn(6)})
		require.NoError(t, err)
		for range 60 {
			switch rng.Intn(4) {
			case 0:
				m.Press(rng.Intn(6))
			case 1:
				m.Step(3)
			default:
				m.Advance(rng.Float64())
			}
		}
		again := m.Replay()
		require.Equal(t, m.Hash(), again.Hash())
		require.True(t, slices.Equal(m.Events(), again.Events()))
	}
}

func TestAdvanceInAnyPiecesIsTheSame(t *testing.T) {
	p := tidemill()
	run := func(piece float64) uint64 {
		m, err := New(&p, Options{})
		require.NoError(t, err)
		m.Press(4)
		m.Press(2)
		for m.TimeS() < 30-1e-9 {
			m.Advance(min(piece, 30-m.TimeS()))
		}
		return m.Hash()
	}
	want := run(30)
	for _, piece := range []float64{1.0 / 60, 0.1, 0.0031, 7} {
		assert.Equal(t, want, run(piece), "%v s", piece)
	}
}

func TestCloneRunsOnByItself(t *testing.T) {
	r := newRig(t, tidemill(), "G")
	r.call("3", "5")
	r.Advance(6)
	c := r.Clone()
	require.Equal(t, r.Hash(), c.Hash())
	c.Press(1)
	c.Advance(20)
	assert.NotEqual(t, r.Hash(), c.Hash())
	d := r.Clone()
	r.Advance(20)
	d.Advance(20)
	assert.Equal(t, r.Hash(), d.Hash())
	assert.True(t, slices.Equal(r.Events(), d.Events()))
}

// The hash of this run is the same natively and in WebAssembly; it changes
// only with the machine itself, and then on purpose.
func TestPinnedHash(t *testing.T) {
	r := newRig(t, tidemill(), "1")
	r.call("4")
	r.Advance(5)
	r.call("G", "5")
	r.Advance(55)
	assert.Equal(t, pinnedHash, r.Hash(), "got %#x", r.Hash())
	assert.Equal(t, pinnedEvents, len(r.Events()))
}

const (
	pinnedHash   uint64 = 0xc39000aa170ec667
	pinnedEvents        = 277
)

func TestSteppingTheMachineAllocatesNothing(t *testing.T) {
	r := newRig(t, tidemill(), "G")
	r.call("5")
	r.until("stop", "-")
	r.Advance(2.5)
	assert.Zero(t, testing.AllocsPerRun(20, func() { r.Advance(GridS) }))
}

func TestLookAllocatesNothing(t *testing.T) {
	r := newRig(t, tidemill(), "G")
	var v View
	r.Look(&v)
	assert.Zero(t, testing.AllocsPerRun(20, func() { r.Look(&v) }))
}

func BenchmarkStepNothingSwitching(b *testing.B) {
	p := tidemill()
	m, err := New(&p, Options{})
	if err != nil {
		b.Fatal(err)
	}
	m.Press(5)
	m.Advance(3)
	start := m.Clone()
	b.ReportAllocs()
	for b.Loop() {
		if m.TimeS() > start.TimeS()+1 {
			b.StopTimer()
			m = start.Clone()
			b.StartTimer()
		}
		m.Advance(GridS)
	}
	b.ReportMetric(float64(b.N)*GridS/b.Elapsed().Seconds(), "x_real_time")
}
