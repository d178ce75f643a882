package session

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// twoButton is a building whose landings tell a call for up from one for down.
const twoButton = `name: Two ways
floors:
  - {name: G, height_m: 0}
  - {name: "1", height_m: 3.4}
  - {name: "2", height_m: 6.8}
  - {name: "3", height_m: 10.2}
control: {scheme: two-button}
`

func TestEveryFloorHasTheButtonsOfItsScheme(t *testing.T) {
	s := open(t)
	calls := func() (list []string) {
		for _, b := range s.Buttons() {
			list = append(list, b.Call)
		}
		return list
	}
	assert.Equal(t, []string{"G", "1", "2", "3", "4", "5"}, calls())
	require.NoError(t, s.Load([]byte(twoButton)))
	assert.Equal(t, []string{"G:up", "G:car", "1:up", "1:down", "1:car", "2:up", "2:down", "2:car", "3:down", "3:car"}, calls())
}

// A button registers its own call and no other, whether pressed by name or in
// the picture.
func TestAButtonRegistersItsOwnCall(t *testing.T) {
	registered := func(s *Session) (list []string) {
		for _, b := range s.Buttons() {
			if b.Registered {
				list = append(list, b.Call)
			}
		}
		return list
	}
	for _, tt := range []struct{ call, part string }{
		{"2:up", "button-up.2"}, {"2:down", "button-down.2"}, {"1:car", "button-car.1"}, {"3:down", "button-down.3"},
	} {
		s := open(t)
		require.NoError(t, s.Load([]byte(twoButton)))
		require.NoError(t, s.Call(tt.call))
		require.NoError(t, s.Advance(0.15))
		assert.Equal(t, []string{tt.call}, registered(s))
		assert.Equal(t, 1, s.Snapshot().Calls[tt.call[:1]])

		require.NoError(t, s.Load([]byte(twoButton)))
		require.NoError(t, s.Choose(tt.part))
		require.NoError(t, s.Press())
		require.NoError(t, s.Advance(0.15))
		assert.Equal(t, []string{tt.call}, registered(s), tt.part)
	}
}

func TestACallThatNamesNoButtonIsRefused(t *testing.T) {
	s := open(t)
	assert.EqualError(t, s.Call("3:up"), "session: stage.unknown-button[floor=3 kind=up]")
	require.NoError(t, s.Load([]byte(twoButton)))
	for call, why := range map[string]string{
		"2": "session: stage.several-buttons[floor=2]", "G:down": "session: stage.unknown-button[floor=G kind=down]",
		"3:up": "session: stage.unknown-button[floor=3 kind=up]", "9:up": "session: stage.unknown-floor[floor=9]", "2:": "session: stage.several-buttons[floor=2]",
	} {
		assert.EqualError(t, s.Call(call), why, call)
	}
	assert.Empty(t, s.Machine().Inputs())
}
