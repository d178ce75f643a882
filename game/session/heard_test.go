package session

import (
	"encoding/base64"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Who listens hears each noise once, while time passes; what is jumped over,
// and what nobody listened to, is silent.
func TestHear(t *testing.T) {
	s := open(t)
	trip := func() (made []Heard, slides bool) {
		require.NoError(t, s.Call("2"))
		require.NoError(t, s.Run())
		for range 25 * 20 {
			s.Tick(0.05)
			m, now := s.Hear()
			made, slides = append(made, m...), slides || now
		}
		return made, slides
	}
	made, slides := trip()
	assert.Empty(t, made, "nobody listens")
	assert.True(t, slides)

	require.NoError(t, s.Reset())
	s.Listen(true)
	made, _ = trip()
	parts := map[string]int{}
	for _, h := range made {
		parts[h.Part]++
	}
	assert.Equal(t, 6, parts["contactor"], "three come in, three drop out")
	assert.Equal(t, 2, parts["brake"])
	assert.Equal(t, 1, parts["door"], "closes")
	assert.NotZero(t, parts["relay"])
	assert.NotZero(t, parts["roller"])

	again, _ := s.Hear()
	assert.Empty(t, again, "heard once")
	require.NoError(t, s.LookAt(5))
	silent, moving := s.Hear()
	assert.Empty(t, silent)
	assert.False(t, moving, "time stands")

	require.NoError(t, s.Reset())
	require.NoError(t, s.Call("5"))
	require.NoError(t, s.Run())
	s.Tick(30)
	made, _ = s.Hear()
	assert.Len(t, made, noisesMost, "no more than can be told apart")
	s.Pause()
}

// Every noise is handed on as a file.
func TestNoises(t *testing.T) {
	all := Noises()
	assert.Len(t, all, 10)
	for name, text := range all {
		w, err := base64.StdEncoding.DecodeString(text)
		require.NoError(t, err, name)
		assert.Equal(t, "RIFF", string(w[:4]), name)
	}
}
