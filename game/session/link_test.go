package session

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/lift"
)

// Whatever was done, and wherever one looks, the link brings back the same
// state, also one between two points of the machine's grid.
func TestLinkBringsTheMomentBack(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 3))
	s := open(t)
	for _, b := range s.o.Buildings {
		require.NoError(t, s.Open(b.ID))
		floors := s.Building().Floors
		for round := range 6 {
			require.NoError(t, s.Call(floors[random.IntN(len(floors))].Name))
			require.NoError(t, s.Advance(random.Float64()*9))
			switch round {
			case 2:
				require.NoError(t, s.Step())
			case 3:
				require.NoError(t, s.LookAt(random.Float64()*s.Clock().EndS))
			case 4:
				require.NoError(t, s.Back())
				require.NoError(t, s.Back())
			}
			text := s.Link().String()
			other := open(t)
			require.NoError(t, other.OpenLink("#"+text), text)
			require.Equal(t, s.Machine().Hash(), other.Machine().Hash(), text)
			assert.Equal(t, s.Snapshot(), other.Snapshot())
			assert.Equal(t, s.Building(), other.Building())
			assert.False(t, other.Clock().Looking, "the moment is the end of what is brought back")
		}
	}
}

func TestLinkCarriesAWholeBuilding(t *testing.T) {
	s := open(t)
	text := strings.Replace(string(s.o.Buildings[1].Text), "name:", "name: New", 1)
	require.NoError(t, s.Load([]byte(text)))
	require.NoError(t, s.Call(s.Building().Floors[1].Name))
	require.NoError(t, s.Advance(6))
	other := open(t)
	require.NoError(t, other.OpenLink(s.Link().String()))
	assert.Equal(t, s.Machine().Hash(), other.Machine().Hash())
	assert.Equal(t, s.Building(), other.Building())
}

// The form is a promise: worksheets and slides hold such addresses.
func TestLinkIsWrittenSo(t *testing.T) {
	l := Link{TimeS: 8.25, Building: "tidemill-house", Start: "2", Inputs: []lift.Input{
		{TimeS: 0.5, Part: "button.3"},
		{TimeS: 4, Part: "button-up.G"},
		{TimeS: 5.005, Kind: lift.Override, Part: "relay.up", State: "slow", Value: 1.5},
		{TimeS: 6, Kind: lift.Switch, Part: "stop-switch", State: "open"},
	}}
	text := "moment=8.25&building=tidemill-house&start=2&do=3@0.5,G:up@4,override:relay.up:slow:1.5@5.005,switch:stop-switch:open:0@6"
	assert.Equal(t, text, l.String())
	back, err := ReadLink("#" + text)
	require.NoError(t, err)
	assert.InDelta(t, 8.25, back.TimeS, 1e-9)
	assert.Equal(t, text, back.String())
}

// What is done before any time has passed is done at 0, and is written so.
func TestACallAtOnceIsWrittenAtNought(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Call("3"))
	assert.Equal(t, "moment=0&building=tidemill-house&do=3@0", s.Link().String())
}

func TestGarbageInALinkIsRefusedInWords(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Call("4"))
	require.NoError(t, s.Advance(5))
	hash := s.Machine().Hash()
	for address, id := range map[string]string{
		"":                                                          "stage.bad-address",
		"moment=3":                                                  "stage.bad-address",
		"building=tidemill-house":                                   "time.link-moment",
		"moment=-1&building=tidemill-house":                         "time.link-moment",
		"moment=NaN&building=tidemill-house":                        "time.link-moment",
		"moment=9e9&building=tidemill-house":                        "time.link-moment",
		"moment=3&building=castle":                                  "stage.unknown-building",
		"moment=3&building=tidemill-house&plan=AAAA":                "stage.bad-address",
		"moment=3&plan=AAAA":                                        "stage.bad-address",
		"moment=3&plan=" + Pack([]byte("name: X")):                  "stage.bad-file",
		"moment=3&building=tidemill-house&do=3":                     "time.link-input",
		"moment=3&building=tidemill-house&do=3@x":                   "time.link-input",
		"moment=3&building=tidemill-house&do=fly:car:up:1@2":        "time.link-input",
		"moment=3&building=tidemill-house&do=9@1":                   "input.unknown-part",
		"moment=3&building=tidemill-house&do=override:sun:stuck:@1": "time.link-input",
		"moment=3&building=tidemill-house&start=9":                  "stage.unknown-floor",
		"moment=3&building=tidemill-house&height=x":                 "stage.bad-address",
		"moment=3&building=tidemill-house&height=-1":                "stage.bad-address",
		"moment=3&building=tidemill-house&height=NaN":               "stage.bad-address",
		"moment=3&building=tidemill-house&height=17":                "stage.unknown-height",
		"moment=3&building=tidemill-house&height=5&start=2":         "stage.bad-address",
		"moment=3&building=tidemill-house&more=1":                   "stage.bad-address",
		"moment=3&moment=4&building=tidemill-house":                 "stage.bad-address",
		"moment=3&building=%zz":                                     "stage.bad-address",
	} {
		err := s.OpenLink(address)
		require.Error(t, err, address)
		assert.Equal(t, id, Phrase(err).ID, address)
		assert.Equal(t, hash, s.Machine().Hash(), "the machine stays")
	}
}

func FuzzReadLink(f *testing.F) {
	f.Add("moment=8.25&building=tidemill-house&do=3@0.5,1@4")
	f.Add("#moment=0&events=12&plan=" + Pack([]byte("name: X\n")) + "&start=%C3%A9")
	f.Add("moment=1&building=a&height=5.8000000000000007&do=3@0")
	f.Add("moment=1&building=a&do=override:relay.up:slow:1.5@5.005,G:up@0")
	f.Add("moment=1&building=a&do=%F0%9F%9B%97@0.1")
	f.Fuzz(func(t *testing.T, text string) {
		l, err := ReadLink(text)
		if err != nil {
			if Phrase(err).ID == "stage.failed" {
				t.Fatalf("no words for %v", err)
			}
			return
		}
		again, err := ReadLink(l.String())
		if err != nil {
			t.Fatalf("%q: %v", l.String(), err)
		}
		if again.String() != l.String() || again.Events != l.Events || len(again.Inputs) != len(l.Inputs) {
			t.Fatalf("%q comes back as %q", l.String(), again.String())
		}
		for i := range l.Inputs {
			if l.Inputs[i] != again.Inputs[i] {
				t.Fatalf("%v comes back as %v", l.Inputs[i], again.Inputs[i])
			}
		}
	})
}
