package session

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"wheelroom/physics/phrase"
)

// runs is how many random cases there are: a few, or as many times more as
// WHEELROOM_RUNS says, up to a thousand.
func runs(few int) int {
	if n, err := strconv.Atoi(os.Getenv("WHEELROOM_RUNS")); err == nil && n > 0 {
		return min(few*n, 1000)
	}
	return few
}

// The table of the machine's state is written from the snapshot, the words
// about a part from what is seen of it: in any run, at any moment, the two say
// the same of every signal.
func TestTheStateTableSaysWhatIsSeen(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 41))
	s := open(t)
	buildings := [][]byte{[]byte(twoButton)}
	for _, b := range s.o.Buildings {
		buildings = append(buildings, b.Text)
	}
	seen := map[string]bool{}
	for run := range runs(60) {
		require.NoError(t, s.Load(buildings[run%len(buildings)]))
		for range 4 {
			buttons := s.Buttons()
			require.NoError(t, s.Call(buttons[rng.IntN(len(buttons))].Call))
			if rng.IntN(3) == 0 {
				require.NoError(t, s.Step())
			} else {
				require.NoError(t, s.Advance(rng.Float64()*7))
			}
			for part, want := range table(s) {
				require.Equal(t, want.String(), s.state(part).String(), "run %d at %.3f s: %s", run, s.Clock().TimeS, part)
				seen[fmt.Sprint(want.ID)] = true
			}
		}
	}
	// A comparison that never saw a thing change would prove nothing.
	for _, id := range []string{"state.registered", "state.registered-not", "state.lit", "state.made", "state.made-not", "state.direction-between", "state.in", "state.in-not", "state.whole-not", "state.car-here", "state.rests", "state.travels"} {
		require.True(t, seen[id], id)
	}
}

// table is what the snapshot says of each part, in the words a part has.
func table(s *Session) map[string]phrase.Phrase {
	now := s.Snapshot()
	out := map[string]phrase.Phrase{}
	for floor, on := range now.Calls {
		out["call."+floor] = yes(on == 1, "state.registered")
	}
	for floor, on := range now.Lamps {
		out["lamp."+floor] = yes(on == 1, "state.lit")
	}
	for signal, value := range now.Switches {
		if stand, isStand := value.(string); isStand {
			out[signal] = phrase.Of("state.direction-" + stand)
		} else {
			out[signal] = yes(value == 1, "state.made")
		}
	}
	for name, on := range now.Relays {
		out["relay."+name] = yes(on == 1, relayWords(name))
	}
	if now.Car.Stop != "-" {
		out["landing."+now.Car.Stop] = phrase.Of("state.car-here")
		out["car"] = phrase.Of("state.rests", "height", phrase.Num(s.view.CarM, 2))
	} else if now.Car.SpeedMS != 0 {
		out["car"] = phrase.Of("state.travels", "way", yes(now.Car.SpeedMS > 0, "state.up"), "height", phrase.Num(s.view.CarM, 2), "speed", phrase.Num(abs(s.view.SpeedMS), 2))
	}
	return out
}

func abs(v float64) float64 { return max(v, -v) }
