package control

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/relay"
	"wheelroom/physics/trial"
)

// byContact is the logic in which every contact follows a signal of its own,
// numbered as the network numbers contacts.
func byContact(t *testing.T, d *Diagram) *Logic {
	t.Helper()
	n := -1
	l, err := compile(d, func(Contact) (Signal, bool) {
		n++
		return Signal{Part: strconv.Itoa(n)}, false
	})
	require.NoError(t, err)
	return l
}

// TestLogicAgreesWithTheNetwork throws every contact at random and compares
// the coils that the logic feeds with those whose settled current would pull
// them in. A sneak path, by which a coil is fed through contacts meant for
// another, would be a difference; so would a feed too weak for its coil.
func TestLogicAgreesWithTheNetwork(t *testing.T) {
	for _, scheme := range Schemes() {
		t.Run(scheme, func(t *testing.T) {
			p, names, terminals := landings(5)
			d := New(scheme, names, terminals)
			w, err := Wire(d, &p, Options{})
			require.NoError(t, err)
			l := byContact(t, d)
			s := relay.NewState(w.Net)
			lanes := l.Lanes()
			rng := rand.New(rand.NewPCG(1, 2))
			fed, dead := 0, 0
			for round := range trial.Runs(400) {
				// from hardly any contact closed to nearly all of them
				share := 0.2 + 0.75*rng.Float64()
				for i := range w.Leaves {
					k := w.Leaves[i].Contact
					if k < 0 {
						continue
					}
					closed := rng.Float64() < share
					s.Set(k, closed)
					lanes.In[k] = 0
					if closed {
						lanes.In[k] = 1 << (round % 64)
					}
				}
				l.Fed(lanes)
				volts := w.Net.Rest(s)
				for c, part := range l.Coils() {
					id := w.Coil(part)
					e := w.Net.Element(w.Net.ElementOfCoil(id))
					amps := math.Abs(volts[e.A]-volts[e.B]) / e.Ohms
					spec := w.Net.Spec(id)
					if lanes.Fed[c]>>(round%64)&1 == 1 {
						fed++
						require.Greater(t, amps, spec.PickUpA, "%s is fed and must come in", part)
					} else {
						dead++
						require.Less(t, amps, spec.DropOutA, "%s is not fed and must go out", part)
					}
				}
			}
			assert.Greater(t, fed, 1000)
			assert.Greater(t, dead, 1000)
		})
	}
}

// TestLanesAreIndependent: a case gives the same in any lane, whatever stands
// in the others.
func TestLanesAreIndependent(t *testing.T) {
	_, names, terminals := landings(4)
	l, err := Compile(TwoButton(names, terminals))
	require.NoError(t, err)
	rng := rand.New(rand.NewPCG(3, 4))
	all, one := l.Lanes(), l.Lanes()
	for range 20 {
		for i := range all.In {
			all.In[i] = rng.Uint64() | rng.Uint64()
		}
		l.Fed(all)
		for lane := range 64 {
			for i := range one.In {
				one.In[i] = -(all.In[i] >> lane & 1)
			}
			l.Fed(one)
			for c := range one.Fed {
				require.Equal(t, -(all.Fed[c] >> lane & 1), one.Fed[c])
			}
		}
	}
}

func TestCompileRefusesWhatCouldFeedBack(t *testing.T) {
	for name, body := range map[string]Body{
		"a coil in the middle":  Series{Coil{"relay.a"}, Coil{"relay.b"}},
		"coils side by side":    Parallel{Coil{"relay.a"}, Coil{"relay.b"}},
		"no coil at all":        makes("button"),
		"a lamp before a coil":  Series{Lamp{"lamp"}, Coil{"relay.a"}},
		"a coil inside a group": Series{Parallel{makes("x"), Coil{"relay.a"}}, Coil{"relay.b"}},
	} {
		d := &Diagram{}
		d.add("branch", Plus, Minus, body)
		_, err := Compile(d)
		assert.ErrorContains(t, err, "branch branch", name)
	}
	d := &Diagram{}
	d.add("between", Plus, Safe, Coil{"relay.a"})
	_, err := Compile(d)
	assert.Error(t, err)
}

func BenchmarkFed(b *testing.B) {
	_, names, terminals := landings(10)
	l, err := Compile(Directional(names, terminals))
	if err != nil {
		b.Fatal(err)
	}
	lanes := l.Lanes()
	rng := rand.New(rand.NewPCG(5, 6))
	for i := range lanes.In {
		lanes.In[i] = rng.Uint64()
	}
	for b.Loop() {
		l.Fed(lanes)
	}
}
