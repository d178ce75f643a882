package why

import (
	"math"
	"math/rand"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/relay"
	"wheelroom/physics/trial"
)

func machine(t *testing.T, scheme string, n, start int) *lift.Machine {
	t.Helper()
	p := building.Evenly("test", n, 3.2)
	p.Selector.SpanDeg = min(p.Selector.SpanDeg, 200)
	p.Control.Scheme = scheme
	m, err := lift.New(&p, lift.Options{Start: start})
	require.NoError(t, err)
	return m
}

// english is the shipped wording.
func english(t *testing.T) *phrase.Catalogue {
	t.Helper()
	text, err := os.ReadFile("../../assets/words/en/why.yaml")
	require.NoError(t, err)
	head := []byte("language.tag: en\nlanguage.decimal: \".\"\nlanguage.minus: \"-\"\n")
	c, err := phrase.ReadCatalogue(head, text)
	require.NoError(t, err)
	return c
}

// until runs to the first event from now on with that part and state.
func until(t *testing.T, m *lift.Machine, part lift.Part, state string) {
	t.Helper()
	from := len(m.Events())
	for end := m.TimeS() + 60; m.TimeS() < end; {
		m.Step(1)
		for _, e := range m.Events()[from:] {
			if e.Part == part && e.State == state {
				return
			}
		}
		from = len(m.Events())
	}
	require.FailNow(t, "it did not happen", "%s %s", part, state)
}

func TestSentences(t *testing.T) {
	words := english(t)
	say := func(m *lift.Machine, part lift.Part) string { return words.Text(Of(m, Part(part)).Sentence) }

	m := machine(t, "directional", 5, 2)
	assert.Equal(t, "The circuit of the relay of the up line is open: no call is above.", say(m, "relay.up-line"))
	assert.Equal(t, "The circuit of call 5 is open: the button of floor 5 is not pressed.", say(m, "call.5"))
	assert.Equal(t, "The circuit of the start relay is open: no call is above, and no call is below.", say(m, "relay.start"))
	assert.Equal(t, "The circuit of the safety relay is closed: every contact on its way is closed, as it should be when the lift is ready.", say(m, "relay.safety"))

	m.Press(4)
	m.Press(0)
	m.Advance(0.1)
	assert.Equal(t, "The circuit of the relay of the up line is closed: call 5 is above.", say(m, "relay.up-line"))
	assert.Equal(t, "Coming in, the start relay: call 5 is above.", say(m, "relay.start"))
	until(t, m, "stop", "-")
	m.Advance(0.2)
	assert.Contains(t, say(m, "relay.direction"), "call 5 is above", "which is why it does not turn")
	until(t, m, "relay.direction", "1")
	until(t, m, "stop", "-")
	m.Press(4)
	m.Advance(0.3)
	assert.Equal(t, "The circuit of the direction relay is closed: it holds itself as long as call 1 is still below.", say(m, "relay.direction"))
	m.Advance(3)
	up := words.Text(Of(m, Part("relay.up")).Sentence)
	assert.Contains(t, up, "the direction relay is in because call 1 is still below")
	assert.Equal(t, "The circuit of the stop relay is open: the advance switch of floor 1 for down is not made.", say(m, "relay.stop"))
	assert.Equal(t, "The circuit of the door relay is open: the down relay is in because it holds itself through its own contact since it was pulled in, and the down contactor is in, and 2 things more.", say(m, "relay.door"))
	assert.Equal(t, "As it stands, the car is not in the zone of floor 1.", say(m, "rim.1"))
	assert.Equal(t, "Thrown to call above: floor 5 lies above the car.", say(m, "direction.5"))
	assert.Empty(t, words.Missing())
}

func TestAContactIsExplainedByItsPart(t *testing.T) {
	words := english(t)
	m := machine(t, "directional", 5, 2)
	m.Press(4)
	until(t, m, "stop", "-")
	w := m.Wiring()
	for i := range w.Leaves {
		c, ok := w.Leaves[i].Body.(control.Contact)
		if ok && c.Part == "relay.up" && w.Diagram.Branches[w.Leaves[i].Branch].Name == "down" {
			a := Of(m, Contact(i))
			assert.False(t, a.On)
			assert.Equal(t, Part("relay.up"), a.Next)
			assert.Equal(t, "Open, the break contact of the up relay in the circuit of the down relay: the up relay is in because it holds itself through its own contact since it was pulled in.",
				words.Text(a.Sentence))
		}
	}
	assert.Equal(t, "why.unknown", Of(m, Contact(100000)).Sentence.ID)
	assert.Equal(t, "why.unknown", Of(m, Part("relay.none")).Sentence.ID)
}

// frozen is the network of a machine's instant with contacts to be moved.
type frozen struct {
	m *lift.Machine
	s *relay.State
}

func freeze(m *lift.Machine) frozen {
	f := frozen{m, relay.NewState(m.Wiring().Net)}
	f.thaw()
	return f
}

// thaw puts all contacts back to where the machine has them.
func (f frozen) thaw() {
	var v lift.View
	f.m.Look(&v)
	for i, l := range f.m.Wiring().Leaves {
		if l.Contact >= 0 {
			f.s.Set(l.Contact, v.Contacts[i])
		}
	}
}

func (f frozen) set(leaf int, closed bool) { f.s.Set(f.m.Wiring().Leaves[leaf].Contact, closed) }

// on tells whether a load's settled current would pull it in, or light it.
func (f frozen) on(leaf int) bool {
	w := f.m.Wiring()
	l := w.Leaves[leaf]
	v := w.Net.Rest(f.s)
	volts := math.Abs(v[l.From] - v[l.To])
	if l.Coil >= 0 {
		return volts/f.s.Ohms(l.Element) > w.Net.Spec(l.Coil).PickUpA
	}
	return volts > f.m.Plan().Control.SupplyV/2
}

// TestEveryExplanationHoldsInTheNetwork follows random runs of every scheme
// and holds each answer about each coil and lamp against the network itself.
func TestEveryExplanationHoldsInTheNetwork(t *testing.T) {
	words := english(t)
	rng := rand.New(rand.NewSource(1))
	on, off := 0, 0
	for _, scheme := range control.Schemes() {
		for range trial.Runs(1) {
			n := 4
			m := machine(t, scheme, n, rng.Intn(n))
			calls := m.Wiring().Diagram.Calls
			for range 12 {
				m.Do(lift.Input{TimeS: rng.Float64() * 50, Kind: lift.Press, Part: lift.Part(calls[rng.Intn(len(calls))].Button)})
			}
			for range 40 {
				if rng.Intn(2) == 0 {
					m.Step(2)
				} else {
					m.Advance(3 * rng.Float64())
				}
				f := freeze(m)
				for i, l := range m.Wiring().Leaves {
					if l.Contact >= 0 || rng.Intn(3) > 0 {
						continue
					}
					a := Of(m, Part(lift.Part(l.Part())))
					require.Equal(t, f.on(i), a.On, "%s at %.3f s", l.Part(), m.TimeS())
					require.NotContains(t, words.Text(a.Sentence), "⟦")
					if a.On {
						on++
						holdsOn(t, f, i, a)
					} else {
						off++
						holdsOff(t, f, i, a)
					}
				}
			}
		}
	}
	assert.Greater(t, on, 300)
	assert.Greater(t, off, 1000)
	assert.Empty(t, words.Missing())
}

// holdsOn: the path runs unbroken from the live rail, and breaking any of it
// that is not bypassed lets the load go.
func holdsOn(t *testing.T, f frozen, load int, a Answer) {
	t.Helper()
	w := f.m.Wiring()
	require.Empty(t, a.Blockers)
	require.Equal(t, load, a.Path[len(a.Path)-1].Leaf)
	at := w.Node(control.Plus)
	for _, s := range a.Path[:len(a.Path)-1] {
		l := w.Leaves[s.Leaf]
		require.True(t, l.From == at || l.To == at, "the path is unbroken")
		at = l.From + l.To - at
		require.NotEmpty(t, s.Say.ID)
		f.set(s.Leaf, false)
		require.Equal(t, s.Bypassed, f.on(load), "%s with leaf %d broken", l.Part(), s.Leaf)
		f.thaw()
	}
	require.Equal(t, w.Leaves[load].From, at)
}

// holdsOff: closing every blocker brings the load on, and leaving out any one
// of them does not; any of a blocker's alternatives does as well.
func holdsOff(t *testing.T, f frozen, load int, a Answer) {
	t.Helper()
	require.Empty(t, a.Path)
	require.NotEmpty(t, a.Blockers)
	for skip := -1; skip < len(a.Blockers); skip++ {
		for i, b := range a.Blockers {
			require.NotEmpty(t, b.Say.ID)
			if i != skip {
				f.set(b.Leaf, true)
			}
		}
		require.Equal(t, skip < 0, f.on(load), "without blocker %d of %d", skip, len(a.Blockers))
		if skip >= 0 {
			for _, or := range a.Blockers[skip].Or {
				f.set(or, true)
				require.True(t, f.on(load), "%d instead of %d", or, a.Blockers[skip].Leaf)
				f.set(or, false)
			}
		}
		f.thaw()
	}
}

// TestAskingOnEnds: following every answer leads to something from outside,
// or round to a part asked about before, and never to nothing.
func TestAskingOnEnds(t *testing.T) {
	for _, scheme := range control.Schemes() {
		m := machine(t, scheme, 5, 2)
		m.Press(4)
		if scheme != "direct" {
			m.Press(0)
		}
		until(t, m, "stop", "-")
		ends := map[End]int{}
		seen := map[lift.Part]bool{}
		queue := []Target{}
		for _, part := range m.Wiring().Coils {
			queue = append(queue, Part(lift.Part(part)))
		}
		for len(queue) > 0 {
			target := queue[0]
			queue = queue[1:]
			if seen[target.Part] {
				continue
			}
			seen[target.Part] = true
			a := Of(m, target)
			require.NotEqual(t, "why.unknown", a.Sentence.ID, "%v", target)
			ask := func(next Target, end End, last bool) {
				if ends[end]++; end == Open && !last {
					require.NotEmpty(t, next.Part)
					queue = append(queue, next)
				}
			}
			for i, s := range a.Path {
				ask(s.Next, s.End, i == len(a.Path)-1)
			}
			for _, b := range a.Blockers {
				ask(b.Next, b.End, false)
			}
		}
		for _, end := range []End{Input, Position, Memory} {
			assert.Positive(t, ends[end], "%s: %v", scheme, end)
		}
		assert.Zero(t, ends[Fault])
	}
}

func TestAFaultIsNamedWhereItStands(t *testing.T) {
	words := english(t)
	m := machine(t, "directional", 5, 0)
	w := m.Wiring()
	leaf := -1
	for i := range w.Leaves {
		if c, ok := w.Leaves[i].Body.(control.Contact); ok && c.Part == "relay.start" && !c.Breaks && w.Diagram.Branches[w.Leaves[i].Branch].Name == "up-pull" {
			leaf = i
		}
	}
	require.Empty(t, m.Do(lift.Input{Kind: lift.Override, Part: lift.ContactPart(leaf), State: "open"}).ID)
	m.Press(3)
	m.Advance(3)
	a := Of(m, Part("relay.up"))
	require.Len(t, a.Blockers, 1)
	assert.Equal(t, leaf, a.Blockers[0].Leaf)
	assert.Equal(t, Fault, a.Blockers[0].End)
	assert.Contains(t, words.Text(a.Sentence), "is open although it should be closed")

	m = machine(t, "directional", 5, 0)
	require.Empty(t, m.Do(lift.Input{Kind: lift.Override, Part: "relay.start", State: "coil-open"}).ID)
	m.Press(3)
	m.Advance(3)
	a = Of(m, Part("relay.start"))
	assert.True(t, a.On)
	assert.Equal(t, Fault, a.End)
	assert.Equal(t, "why.fed-but-out", a.Sentence.ID)
}

func TestWithTheIsolatorOpenNothingIsOn(t *testing.T) {
	words := english(t)
	m := machine(t, "directional", 5, 0)
	m.Press(3)
	m.Advance(0.1)
	require.Empty(t, m.Do(lift.Input{TimeS: m.TimeS(), Kind: lift.Isolate, Part: "isolator", State: "open"}).ID)
	m.Advance(1)
	for _, part := range m.Wiring().Coils {
		a := Of(m, Part(lift.Part(part)))
		assert.False(t, a.On, part)
		assert.Equal(t, -1, a.Blockers[0].Leaf)
		assert.Contains(t, words.Text(a.Sentence), "the main isolator is open")
	}
}

// leafOf finds a contact by part, sort and branch.
func leafOf(t *testing.T, m *lift.Machine, part string, breaks bool, branch string) int {
	t.Helper()
	w := m.Wiring()
	for i := range w.Leaves {
		c, ok := w.Leaves[i].Body.(control.Contact)
		if ok && c.Part == part && c.Breaks == breaks && w.Diagram.Branches[w.Leaves[i].Branch].Name == branch {
			return i
		}
	}
	require.FailNow(t, "no such contact", "%s in %s", part, branch)
	return -1
}

func TestWhatIfRunsBesideTheRealOne(t *testing.T) {
	m := machine(t, "directional", 5, 2)
	m.Press(4)
	until(t, m, "stop", "-")
	hash := m.Hash()

	copied, said := WhatIf(m, Change{Call: "call.4", Closed: true})
	require.NotNil(t, copied)
	assert.Equal(t, "why.if-called", said.ID)
	copied.Advance(60)
	assert.Equal(t, "4 5", strings.Join(stops(copied), " "))

	copied, said = WhatIf(m, Change{Call: "call.5"})
	require.NotNil(t, copied)
	assert.Equal(t, "why.if-not-called", said.ID)
	copied.Advance(60)
	assert.Equal(t, "4", strings.Join(stops(copied), " "), "with the line dead it stops at the next floor ahead")

	leaf := leafOf(t, m, "relay.up-line", false, "start")
	copied, said = WhatIf(m, Change{Leaf: leaf})
	require.NotNil(t, copied)
	assert.Equal(t, "why.if-open", said.ID)

	hold := leafOf(t, m, "relay.up", false, "up-hold")
	copied, _ = WhatIf(m, Change{Leaf: hold})
	copied.Advance(30)
	assert.Contains(t, partsOut(copied), lift.Part("relay.up"), "its holding contact broken, it lets go at once")

	assert.Equal(t, hash, m.Hash(), "the real one is untouched")
	m.Advance(60)
	assert.Equal(t, []string{"5"}, stops(m))
}

func stops(m *lift.Machine) []string {
	var out []string
	for _, e := range m.Events() {
		if e.Part == "stop" && e.State != "-" {
			out = append(out, e.State)
		}
	}
	return out
}

func partsOut(m *lift.Machine) []lift.Part {
	var out []lift.Part
	for _, e := range m.Events() {
		if e.State == "0" {
			out = append(out, e.Part)
		}
	}
	return out
}

// TestGuardsAreNeverBridged goes through every contact of every scheme.
func TestGuardsAreNeverBridged(t *testing.T) {
	for _, scheme := range control.Schemes() {
		m := machine(t, scheme, 4, 1)
		refused := map[string]int{}
		for i := range m.Wiring().Leaves {
			l := &m.Wiring().Leaves[i]
			if l.Contact < 0 {
				continue
			}
			branch := m.Wiring().Diagram.Branches[l.Branch].Name
			copied, said := WhatIf(m, Change{Leaf: i, Closed: true})
			guarded := branch == "safety-line"
			for _, part := range []string{"lock", "car-door", "landing-door", "stop-limit-top", "stop-limit-bottom", "slow-down-top", "slow-down-bottom", "stop-switch"} {
				guarded = guarded || l.Part() == part
			}
			if guarded {
				assert.Nil(t, copied, "%s in %s", l.Part(), branch)
			}
			if copied == nil {
				refused[said.ID]++
			}
			copied, _ = WhatIf(m, Change{Leaf: i})
			assert.NotNil(t, copied, "opening is always allowed")
		}
		for _, g := range []string{"safety", "lock", "limit", "interlock"} {
			assert.Positive(t, refused["why.refuse-"+g], "%s %s", scheme, g)
		}
		for _, pair := range [][2]string{{"relay.up", "down"}, {"relay.up-contactor", "down-contactor"}, {"relay.fast", "slow"}, {"relay.start", "up-hold"}, {"relay.start", "down-hold"}} {
			if scheme == "direct" && (pair[0] == "relay.up" || pair[0] == "relay.up-contactor") {
				continue // it has none
			}
			copied, said := WhatIf(m, Change{Leaf: leafOf(t, m, pair[0], true, pair[1]), Closed: true})
			assert.Nil(t, copied)
			assert.Equal(t, "why.refuse-interlock", said.ID)
		}
	}
}
