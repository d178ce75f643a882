package lift

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestHistoryRestoresAnyMomentExactly(t *testing.T) {
	p := tidemill()
	rng := rand.New(rand.NewSource(4))
	m, err := New(&p, Options{Start: 2})
	require.NoError(t, err)
	h := NewHistory(m)
	afterEvent := map[int]uint64{}
	for range 400 {
		if rng.Intn(20) == 0 {
			m.Press(rng.Intn(6))
		}
		if h.Step(0.5) {
			afterEvent[len(m.Events())-1] = m.Hash()
		}
	}
	require.NotEmpty(t, afterEvent)
	for i, want := range afterEvent {
		assert.Equal(t, want, h.AtEvent(i).Hash(), "event %d", i)
	}
	end := m.Hash()
	assert.Equal(t, end, h.End().Hash(), "looking back changes nothing")
}

func TestHistoryAtATimeIsWhereTheRunWas(t *testing.T) {
	p := tidemill()
	m, err := New(&p, Options{})
	require.NoError(t, err)
	h := NewHistory(m)
	m.Press(3)
	h.Advance(7.5)
	want := m.Hash()
	h.Advance(30)
	assert.Equal(t, want, h.AtTime(7.5).Hash())
	assert.Equal(t, h.frames[0].Hash(), h.AtTime(-1).Hash())
	assert.InDelta(t, 37.5, h.AtTime(1e6).TimeS(), GridS)
}

func TestRewindForgetsWhatCameAfter(t *testing.T) {
	p := tidemill()
	m, err := New(&p, Options{})
	require.NoError(t, err)
	h := NewHistory(m)
	m.Press(5)
	h.Advance(3)
	require.Empty(t, h.Do(Input{TimeS: 8, Kind: Press, Part: "button.1"}).ID)
	h.Advance(20)
	h.Rewind(h.AtTime(4))
	assert.InDelta(t, 4, h.End().TimeS(), GridS)
	h.Advance(40)
	assert.Equal(t, []string{"5"}, stopsOf(h.End().Events()))
}

func TestHistoryOfALongRunStaysSmall(t *testing.T) {
	p := tidemill()
	m, err := New(&p, Options{})
	require.NoError(t, err)
	h := NewHistory(m)
	for i := range 40 {
		m.Press(i % 6)
		h.Advance(30)
	}
	assert.Less(t, len(h.frames), framesMost)
	assert.InDelta(t, 600, h.AtTime(600).TimeS(), GridS)
}

// A branch and the run it came from go on by themselves, whatever either does.
func TestBranchLeavesTheRunItCameFrom(t *testing.T) {
	p := tidemill()
	m, err := New(&p, Options{})
	require.NoError(t, err)
	h := NewHistory(m)
	m.Press(5)
	h.Advance(20)
	end, at9 := h.End().Hash(), h.AtTime(9).Hash()

	b := h.Branch(h.AtTime(4))
	b.End().Press(1)
	b.Advance(300) // long enough for frames to be let go
	require.Contains(t, stopsOf(b.End().Events()), "1")
	assert.Equal(t, end, h.End().Hash())
	assert.Equal(t, at9, h.AtTime(9).Hash())

	before := b.AtTime(3).Hash()
	h.Advance(60)
	assert.Equal(t, before, b.AtTime(3).Hash(), "what both have is the same")
	assert.Equal(t, before, h.AtTime(3).Hash())
}

func TestRecallRemembersARunOfSomebodyElse(t *testing.T) {
	p := tidemill()
	m, err := New(&p, Options{Start: 1})
	require.NoError(t, err)
	m.Press(4)
	m.Advance(6)
	at6 := m.Hash()
	for m.Step(0.1) && len(m.Events()) < 60 {
	}
	h := Recall(m)
	assert.Same(t, m, h.End())
	assert.Equal(t, at6, h.AtTime(6).Hash())
	m.RunTo(math.Ceil(m.TimeS()))
	h.Keep()
	then, at := m.TimeS(), m.Hash()
	m.Advance(5)
	h.Keep()
	assert.Equal(t, at, h.AtTime(then).Hash())
	assert.Equal(t, m.Hash(), h.AtTime(m.TimeS()).Hash())
	path := h.Path()
	assert.Zero(t, path[0].TimeS)
	assert.Equal(t, m.TimeS(), path[len(path)-1].TimeS)
}
