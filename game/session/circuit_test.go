package session

import (
	"fmt"
	"html"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/game/figure"
	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/phrase"
)

func facts(t *testing.T, s *Session) CircuitFacts {
	t.Helper()
	f, err := ask[CircuitFacts](t, s, "circuit", "facts", struct{}{})
	require.NoError(t, err)
	return f
}

func TestEverySchemeCanBeChosen(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	for _, name := range control.Schemes() {
		_, err := ask[string](t, s, "circuit", "scheme", map[string]any{"name": name})
		require.NoError(t, err)
		f := facts(t, s)
		assert.Equal(t, name, f.Scheme)
		assert.Len(t, f.Schemes, 4)
		for _, leaf := range f.Leaves {
			assert.NotEmpty(t, leaf.Name)
		}
		for _, group := range f.Targets {
			for _, part := range group.Parts {
				b, err := ask[Because](t, s, "circuit", "why", Target{Part: part.ID, Leaf: -1})
				require.NoError(t, err)
				assert.NotContains(t, b.Sentence, "nothing to ask", part.ID)
			}
		}
		drawn, err := ask[DrawnSheet](t, s, "circuit", "sheet", map[string]any{"width": 700, "probes": []int{0, 1}})
		require.NoError(t, err)
		assert.Contains(t, drawn.SVG, "<svg")
		assert.NotContains(t, drawn.SVG, "style=")
	}
	_, err := ask[string](t, s, "circuit", "scheme", map[string]any{"name": "magic"})
	require.Error(t, err)
	assert.Equal(t, "two-button", facts(t, s).Scheme, "the old one stays")
	assert.Empty(t, words.Missing())
}

// Questions are followed from each blocker on until something outside the
// circuit answers, and none leads round in a circle for ever.
func TestWhyCanBeFollowedToItsEnd(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Call("4"))
	require.NoError(t, s.Advance(6))
	seen := map[Target]bool{}
	ends := 0
	var follow func(q Target, depth int)
	follow = func(q Target, depth int) {
		if seen[q] {
			return
		}
		seen[q] = true
		require.Less(t, depth, 40)
		b, err := ask[Because](t, s, "circuit", "why", q)
		require.NoError(t, err)
		require.NotEmpty(t, b.Sentence)
		for _, r := range append(b.Path, b.Blockers...) {
			assert.NotEmpty(t, r.Text)
			if r.Next == nil {
				ends++
				continue
			}
			follow(*r.Next, depth+1)
		}
	}
	for _, part := range []string{"relay.up", "relay.stop", "relay.door", "lamp.2"} {
		follow(Target{Part: part, Leaf: -1}, 0)
	}
	assert.Greater(t, ends, 5)
}

// Between the rails the voltmeter reads the supply, less what its own
// resistance takes; turned round, the same with the other sign.
func TestVoltmeterReadsTheSupply(t *testing.T) {
	s := open(t)
	f := facts(t, s)
	node := map[string]int{}
	for _, n := range f.Nodes {
		node[n.Name] = n.Node
	}
	read := func(a, b int) string {
		r, err := ask[Reading](t, s, "circuit", "measure", map[string]any{"probes": []int{a, b}})
		require.NoError(t, err)
		assert.Empty(t, r.Between, "nothing joins the rails by itself")
		return r.Volts
	}
	plus, minus := node["circuit.bus-plus"], node["circuit.bus-minus"]
	assert.Regexp(t, `^circuit.volts\[volts=1(09|10)\.\d\]$`, read(plus, minus))
	assert.Regexp(t, `^circuit.volts\[volts=-1(09|10)\.\d\]$`, read(minus, plus))
	assert.Equal(t, "circuit.volts[volts=0.0]", read(plus, plus))
	_, err := ask[Reading](t, s, "circuit", "measure", map[string]any{"probes": []int{plus, 9999}})
	assert.Error(t, err)
}

// A call's lamp draws 13.7 times as much while it is cold (OpenStax, University
// Physics vol. 2, Example 9.6): 3 W at 110 V are 27 mA, and 4033 ohm.
func TestCurrentsAreRead(t *testing.T) {
	s := open(t)
	leaf := -1
	for i, l := range s.own().Wiring().Leaves {
		if l.Part() == "call-lamp.3" {
			leaf = i
		}
	}
	require.Positive(t, leaf)
	lamp := s.own().Wiring().Leaves[leaf]
	both := func() (string, string) {
		b, err := ask[Because](t, s, "circuit", "why", Target{Part: "call-lamp.3", Leaf: -1})
		require.NoError(t, err)
		alone, err := ask[Because](t, s, "circuit", "why", Target{Leaf: leaf})
		require.NoError(t, err)
		assert.Equal(t, b.Reading, alone.Reading)
		r, err := ask[Reading](t, s, "circuit", "measure", map[string]any{"probes": []int{int(lamp.To), int(lamp.From)}})
		require.NoError(t, err)
		require.Len(t, r.Between, 1)
		assert.Equal(t, leaf, r.Between[0].Leaf)
		assert.Contains(t, b.Reading, r.Between[0].Text)
		return b.Reading, r.Between[0].Text
	}
	dark, _ := both()
	assert.Contains(t, dark, "volts=0.0")
	assert.Contains(t, dark, "filament-cold")
	require.NoError(t, s.Call("3"))
	require.NoError(t, s.Advance(0.05))
	_, inrush := both()
	assert.Regexp(t, `filament-cold\[current=circuit.milliamps\[amps=37\d\.\d\] ohms=294\]`, inrush)
	require.NoError(t, s.Advance(0.2))
	_, hot := both()
	assert.Regexp(t, `filament-hot\[current=circuit.milliamps\[amps=27\.\d\] ohms=4033\]`, hot)

	contact, err := ask[Because](t, s, "circuit", "why", Target{Leaf: 0})
	require.NoError(t, err)
	assert.Regexp(t, `circuit.reading\[.*volts=`, contact.Reading)
	other, err := ask[Because](t, s, "circuit", "why", Target{Part: "rim.3", Leaf: -1})
	require.NoError(t, err)
	assert.Empty(t, other.Reading, "a switch has contacts in several places")
}

func TestTrialsLeaveTheRealLiftAlone(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Call("4"))
	require.NoError(t, s.Advance(4))
	hash := s.Machine().Hash()
	f := facts(t, s)
	guards := map[string]int{}
	for i, leaf := range f.Leaves {
		if !leaf.Moves {
			continue
		}
		for _, closed := range []bool{true, false} {
			if !closed && i%7 != 0 {
				continue // any contact may be kept open; a few do for the test
			}
			tried, err := ask[Tried](t, s, "circuit", "try", Trial{Leaf: i, Closed: closed, Seconds: 0.5})
			require.NoError(t, err)
			assert.Equal(t, closed && leaf.Guard != "", tried.Refused, "%s %v", leaf.Name, closed)
			if tried.Refused {
				guards[leaf.Guard]++
				assert.True(t, strings.HasPrefix(tried.Sentence, "why.refuse-"+leaf.Guard), tried.Sentence)
				assert.Empty(t, tried.Rows)
			}
			require.Equal(t, hash, s.Machine().Hash())
		}
	}
	for _, guard := range []string{"safety", "lock", "limit", "interlock"} {
		assert.Positive(t, guards[guard], guard)
	}
	tried, err := ask[Tried](t, s, "circuit", "try", Trial{Call: "call.2", Closed: true, Seconds: 30})
	require.NoError(t, err)
	assert.NotEmpty(t, tried.Rows)
	assert.True(t, strings.HasPrefix(tried.First, "circuit.try-first"))
	assert.Equal(t, hash, s.Machine().Hash())
}

// A side that stops says why; one that goes on says nothing.
func TestATrialSaysWhySomethingStops(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	require.NoError(t, s.Load([]byte(strings.Replace(string(assets.Buildings()[0].Text), "selector:", "control: {scheme: direct}\nselector:", 1))))
	try := func(q Trial) Tried {
		tried, err := ask[Tried](t, s, "circuit", "try", q)
		require.NoError(t, err)
		require.False(t, tried.Refused)
		return tried
	}
	const shorted = `^Ends at \d+\.\d\d s\. Both directions, or both windings, were switched on at once\.`
	require.NoError(t, s.Call("2"))
	require.NoError(t, s.Advance(60))
	require.NoError(t, s.Call("5"))
	tried := try(Trial{Call: "call.1", Closed: true, Seconds: 5})
	assert.Empty(t, tried.Notes[0])
	assert.Regexp(t, shorted, tried.Notes[1])

	require.NoError(t, s.Call("1"))
	tried = try(Trial{Call: "call.5", Closed: false, Seconds: 5})
	assert.Regexp(t, shorted, tried.Notes[0])
	assert.Empty(t, tried.Notes[1])

	require.NoError(t, s.Advance(10))
	require.NotEmpty(t, s.Machine().Stopped())
	tried = try(Trial{Call: "call.3", Closed: true, Seconds: 5})
	assert.Regexp(t, shorted, tried.Notes[0], "it ended before")
	assert.Regexp(t, shorted, tried.Notes[1])

	// Both directions fed, and each throws the other out.
	_, err := ask[string](t, s, "circuit", "scheme", map[string]any{"name": "directional"})
	require.NoError(t, err)
	s.Reset()
	require.NoError(t, s.Call("2"))
	require.NoError(t, s.Advance(60))
	require.NoError(t, s.Call("5"))
	require.NoError(t, s.Call("1"))
	f := facts(t, s)
	leaf := slices.IndexFunc(f.Leaves, func(l LeafFact) bool { return l.Part == "relay.direction" && f.Lines[l.Line-1] == "down-pull" })
	require.GreaterOrEqual(t, leaf, 0)
	tried = try(Trial{Leaf: leaf, Closed: true, Seconds: 5})
	assert.Empty(t, tried.Notes[0])
	assert.Contains(t, tried.Notes[1], "A relay keeps breaking its own feed")
	assert.Empty(t, words.Missing())
}

// The step that comes to the end of the model says why, and so does every
// further one.
func TestTheStepIntoAStopExplainsIt(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Load([]byte(strings.Replace(string(assets.Buildings()[0].Text), "selector:", "control: {scheme: direct}\nselector:", 1))))
	require.NoError(t, s.Call("2"))
	require.NoError(t, s.Advance(60))
	require.NoError(t, s.Call("5"))
	require.NoError(t, s.Call("1"))
	for steps := 0; s.Machine().Stopped() == ""; steps++ {
		require.Less(t, steps, 50)
		assert.NotEqual(t, "stopped.phases-short-circuited", s.Clock().Said)
		require.NoError(t, s.Step())
	}
	assert.Equal(t, "stopped.phases-short-circuited", s.Clock().Said)
	assert.ErrorContains(t, s.Step(), "stopped.phases-short-circuited")
}

// proved lets a proof come to its end.
func proved(t *testing.T, s *Session) Proving {
	t.Helper()
	p, err := ask[Proving](t, s, "circuit", "prove", map[string]any{"do": "start"})
	require.NoError(t, err)
	require.Equal(t, "running", p.State)
	p, err = ask[Proving](t, s, "circuit", "prove", map[string]any{"do": "report", "report": errandDone(t, p.Task)})
	require.NoError(t, err)
	return p
}

func TestProofOnTheScreen(t *testing.T) {
	s := open(t)
	require.NoError(t, s.Load([]byte(strings.Replace(string(assets.Buildings()[0].Text), "selector:", "control: {scheme: direct}\nselector:", 1))))
	p := proved(t, s)
	assert.Equal(t, "refuted", p.State)
	require.NotEmpty(t, p.Scene)
	_, err := ask[Proving](t, s, "circuit", "prove", map[string]any{"do": "open"})
	require.NoError(t, err)
	require.NoError(t, s.Advance(2))
	r := s.Snapshot().Relays
	assert.EqualValues(t, 1, r["up"]&r["down"], "the case is to be seen: both directions at once")

	_, err = ask[string](t, s, "circuit", "scheme", map[string]any{"name": "directional"})
	require.NoError(t, err)
	_, err = ask[Proving](t, s, "circuit", "prove", map[string]any{"do": "open"})
	assert.Error(t, err, "the case is of another building now")
	p = proved(t, s)
	assert.Equal(t, "proved", p.State)
	_, err = ask[Proving](t, s, "circuit", "prove", map[string]any{"do": "sing"})
	assert.Error(t, err)
}

// A race is no case: none is offered, least of all what a scheme without a
// direction does not do anyhow, and none is promised.
func TestARaceIsNoScene(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	p := *s.plan
	p.Control.Scheme = "interlocked"
	require.NoError(t, s.Load(building.Write(p)))
	assert.Equal(t, "Open this case on the machine", proved(t, s).Scene, "sound, it shows what its rule does not ask")

	p.Control.RelayOperateS = 0.1 // too slow a stop relay for the advance contact
	require.NoError(t, s.Load(building.Write(p)))
	told := proved(t, s)
	assert.Equal(t, "refuted", told.State)
	assert.NotNil(t, s.desks.proof.report.Weaker)
	assert.Contains(t, strings.Join(told.Said, " "), "critical race")
	assert.Empty(t, told.Scene)
	_, err := ask[Proving](t, s, "circuit", "prove", map[string]any{"do": "open"})
	assert.Error(t, err)
	assert.NotContains(t, words.Text(phrase.Of("circuit.proof-refuted")), "case")
}

// A proof is watched, broken off, and may fail.
func TestProofIsWatched(t *testing.T) {
	s := open(t)
	do := func(step map[string]any) Proving {
		p, err := ask[Proving](t, s, "circuit", "prove", step)
		require.NoError(t, err)
		return p
	}
	assert.Equal(t, "none", do(map[string]any{"do": "done", "done": 1, "of": 2}).State, "of no proof")
	p := do(map[string]any{"do": "start"})
	assert.Equal(t, "running", p.State)
	p = do(map[string]any{"do": "done", "done": 3, "of": 7})
	assert.Equal(t, [2]int{3, 7}, [2]int{p.Done, p.Of})
	assert.Equal(t, "cancelled", do(map[string]any{"do": "cancel"}).State)
	assert.Equal(t, "cancelled", do(map[string]any{"do": "report"}).State, "too late")

	do(map[string]any{"do": "start"})
	p = do(map[string]any{"do": "failed", "reason": "no room"})
	assert.Equal(t, "failed", p.State)
	assert.Contains(t, p.Said[0], "no room")
}

func TestNetlistsOfTheMoment(t *testing.T) {
	s := open(t)
	for format, has := range map[string]string{"spice": ".op", "json": `"nodes"`} {
		text, err := ask[string](t, s, "circuit", "netlist", map[string]any{"format": format})
		require.NoError(t, err)
		assert.Contains(t, text, has)
	}
	_, err := ask[string](t, s, "circuit", "netlist", map[string]any{"format": "poem"})
	assert.Error(t, err)
}

// A diagram is taken away on paper, with its ground, in whatever theme it was
// read, and says what it is of, what the scheme cannot do, and the caution.
func TestADiagramStandsByItself(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	require.NoError(t, s.Call("3"))
	require.NoError(t, s.Advance(2.5))
	for _, scheme := range control.Schemes() {
		_, err := ask[string](t, s, "circuit", "scheme", map[string]any{"name": scheme})
		require.NoError(t, err)
		text := taken(t, s, &figure.Slate)
		assert.True(t, text == taken(t, s, &figure.Paper), "%s: the same in either theme", scheme)
		c := figure.Paper.Colour(figure.Paint{Role: figure.Ground})
		ground := regexp.MustCompile(fmt.Sprintf(`^<svg[^>]*>\s*<title[^>]*>[^<]*</title>\s*<rect width="\S+" height="\S+" fill="#%02x%02x%02x"/>`, c.R, c.G, c.B))
		assert.True(t, ground.MatchString(text), "%s: a ground under all of it", scheme)
		name := words.Text(control.Name(scheme))
		if scheme == "direct" {
			name = "direct, never to be built"
		}
		title := fmt.Sprintf("Tidemill House: the circuit, %s, at %.1f s", name, s.Clock().TimeS)
		read := readOut(text)
		for _, part := range []string{title, words.Text(control.Limits(scheme)), words.Text(phrase.Of("takeaway.caution")), "up line"} {
			assert.True(t, strings.Contains(read, part), "%s: %s", scheme, part)
		}
		assert.True(t, strings.Contains(text, ">"+title+"</title>"), title)
	}
	assert.Empty(t, words.Missing())
}

func taken(t *testing.T, s *Session, theme *figure.Palette) string {
	t.Helper()
	text, err := s.Screen(theme, "circuit", "diagram", []byte("{}"))
	require.NoError(t, err)
	return text.(string)
}

// readOut are the texts of a picture one after the other.
func readOut(svg string) string {
	var lines []string
	for _, m := range regexp.MustCompile(`<text[^>]*>([^<]*)<`).FindAllStringSubmatch(svg, -1) {
		lines = append(lines, html.UnescapeString(m[1]))
	}
	return strings.Join(lines, " ")
}

// Direct is offered as what it is wherever a scheme is chosen.
func TestDirectIsMarkedWhereItIsOffered(t *testing.T) {
	s := openWith(t, catalogue(t).Text)
	form, err := ask[CompareForm](t, s, "compare", "form", struct{}{})
	require.NoError(t, err)
	f := facts(t, s)
	require.Len(t, form.Schemes, len(f.Schemes))
	for i, offered := range f.Schemes {
		assert.Equal(t, Named{offered.ID, offered.Name}, form.Schemes[i])
		assert.Equal(t, offered.ID == "direct", strings.HasSuffix(offered.Name, "never to be built"), offered.Name)
	}
}
