package sound_test

import (
	"encoding/binary"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/game/sound"
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
)

// One trip from the lowest landing, and everything on it that is heard.
func TestATripIsHeard(t *testing.T) {
	plan, problems := building.Read("tidemill-house.yaml", assets.Buildings()[0].Text)
	require.Empty(t, problems)
	m, err := lift.New(&plan, lift.Options{})
	require.NoError(t, err)
	m.Do(lift.Input{Kind: lift.Press, Part: "button.2"})
	m.Advance(30)
	heard := map[sound.Noise]int{}
	for _, e := range m.Events() {
		if n, ok := sound.Of(e); ok {
			heard[n]++
		}
	}
	for _, n := range sound.All() {
		if n != sound.Slide {
			assert.NotZero(t, heard[n], "%s is never heard", n)
		}
	}
	assert.Equal(t, 1, heard[sound.BrakeLifts])
	assert.Equal(t, 1, heard[sound.BrakeSets])
	assert.Equal(t, 1, heard[sound.DoorCloses])
	assert.Equal(t, 3, heard[sound.ContactorIn], "up, fast, slow")
	assert.Equal(t, 3, heard[sound.ContactorOut])
}

// What an event sounds like follows from its part.
func TestOf(t *testing.T) {
	for _, v := range []struct {
		part, state string
		want        sound.Noise
		silent      bool
	}{
		{part: "relay.up", state: "1", want: sound.RelayIn},
		{part: "call.3", state: "0", want: sound.RelayOut},
		{part: "relay.slow", state: "0", want: sound.ContactorOut},
		{part: "relay.brake", state: "0", want: sound.BrakeSets},
		{part: "advance-up.3", state: "1", want: sound.RollerOn},
		{part: "rim.3", state: "0", want: sound.RollerOff},
		{part: "direction.3", state: "between", want: sound.RollerOn},
		{part: "door", state: "closed", want: sound.DoorCloses},
		{part: "door", state: "open", silent: true},
		{part: "lamp.3", state: "1", silent: true},
		{part: "stop", state: "3", silent: true},
	} {
		n, ok := sound.Of(lift.Event{Part: lift.Part(v.part), State: v.state})
		assert.Equal(t, !v.silent, ok, v.part)
		if ok {
			assert.Equal(t, v.want, n, "%s %s", v.part, v.state)
		}
	}
}

// A noise begins and ends in silence, is never too loud, and is short; the one
// that is played round has no jump where it meets itself.
func TestSamples(t *testing.T) {
	for _, n := range sound.All() {
		s := n.Samples()
		loudest, step := 0.0, 0.0
		for i, v := range s {
			loudest = max(loudest, math.Abs(v))
			if i > 0 {
				step = max(step, math.Abs(v-s[i-1]))
			}
		}
		assert.InDelta(t, 0.6, loudest, 0.4, n.String())
		assert.Equal(t, s, n.Samples(), "the same each time")
		if n == sound.Slide {
			assert.Len(t, s, sound.Rate)
			assert.LessOrEqual(t, math.Abs(s[0]-s[len(s)-1]), step)
			continue
		}
		assert.Less(t, len(s), sound.Rate/2)
		assert.Less(t, math.Abs(s[0]), 0.01)
		assert.Less(t, math.Abs(s[len(s)-1]), 0.01)
	}
}

// The heavier the part, the deeper its noise: zero crossings tell.
func TestHeavyPartsSoundDeep(t *testing.T) {
	pitch := func(n sound.Noise) float64 {
		s, crossings := n.Samples(), 0
		for i := 1; i < len(s); i++ {
			if s[i-1] < 0 != (s[i] < 0) {
				crossings++
			}
		}
		return float64(crossings) / float64(len(s))
	}
	for _, pair := range [][2]sound.Noise{{sound.RelayIn, sound.RollerOn}, {sound.RollerOn, sound.ContactorIn}, {sound.ContactorIn, sound.BrakeSets}} {
		assert.Greater(t, pitch(pair[0]), pitch(pair[1]), "%s, %s", pair[0], pair[1])
	}
}

// The head of the file says what follows it.
func TestWAV(t *testing.T) {
	w := sound.ContactorIn.WAV()
	assert.Equal(t, "RIFF", string(w[:4]))
	assert.Equal(t, "WAVEfmt ", string(w[8:16]))
	assert.EqualValues(t, len(w)-8, binary.LittleEndian.Uint32(w[4:]))
	assert.EqualValues(t, sound.Rate, binary.LittleEndian.Uint32(w[24:]))
	assert.EqualValues(t, len(w)-44, binary.LittleEndian.Uint32(w[40:]))
	assert.Len(t, w, 44+2*len(sound.ContactorIn.Samples()))
}
