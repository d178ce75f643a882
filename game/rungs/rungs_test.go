package rungs

import (
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets/words/long"
	"wheelroom/game/figure"
	"wheelroom/game/figure/draughtsman"
	"wheelroom/game/svg"
	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/relay"
)

func machine(t testing.TB, scheme string, floors int) *lift.Machine {
	t.Helper()
	p := building.Evenly("House", floors, 3.2)
	p.Control.Scheme = scheme
	m, err := lift.New(&p, lift.Options{})
	require.NoError(t, err)
	return m
}

// words are the catalogue's, so that labels are as long as they are shown.
func words(t testing.TB) func(phrase.Phrase) string { return wordsIn(t, "en") }

func wordsIn(t testing.TB, tag string) func(phrase.Phrase) string {
	t.Helper()
	c, err := phrase.ReadCatalogue(long.Of(tag)...)
	require.NoError(t, err)
	t.Cleanup(func() { assert.Empty(t, c.Missing()) })
	return c.Text
}

func view(m *lift.Machine) *lift.View {
	var v lift.View
	m.Look(&v)
	return &v
}

// Every leaf and every node of every scheme has a place and a name, and no two
// nodes have the same.
func TestEverythingOfTheCircuitIsThere(t *testing.T) {
	for _, scheme := range control.Schemes() {
		for _, floors := range []int{2, 6, 12} {
			m := machine(t, scheme, floors)
			w := m.Wiring()
			s := New(w, Options{Width: 700, Floor: -1})
			leaves, nodes := map[int]bool{}, map[int]bool{}
			for _, spot := range s.Spots() {
				if spot.Leaf >= 0 {
					leaves[spot.Leaf] = true
				} else {
					nodes[spot.Node] = true
				}
				width, height := s.Size()
				assert.True(t, spot.X0 >= 0 && spot.Y0 >= 0 && spot.X1 <= width && spot.Y1 <= height, "%+v", spot)
			}
			assert.Len(t, leaves, len(w.Leaves), scheme)
			names := map[string]relay.Node{}
			for i := range w.Leaves {
				for _, n := range []relay.Node{w.Leaves[i].From, w.Leaves[i].To} {
					name := s.Node(n)
					assert.NotEmpty(t, name)
					assert.True(t, nodes[int(n)], name)
					other, known := names[name]
					assert.True(t, !known || other == n, "%s: two nodes are named %s", scheme, name)
					names[name] = n
				}
			}
		}
	}
}

func TestOneFloorLeavesTheOthersOut(t *testing.T) {
	w := machine(t, "directional", 6).Wiring()
	all, one := New(w, Options{Width: 700, Floor: -1}), New(w, Options{Width: 700, Floor: 2})
	for _, spot := range one.Spots() {
		if spot.Leaf >= 0 {
			f := w.Diagram.Branches[w.Leaves[spot.Leaf].Branch].Floor
			assert.True(t, f == 2 || f == -1)
		}
	}
	assert.Less(t, len(one.Spots()), len(all.Spots()))
}

// No two labels touch, at any width and in any language.
func TestLabelsKeepApart(t *testing.T) {
	for _, tag := range long.Languages() {
		say := wordsIn(t, tag)
		for _, scheme := range control.Schemes() {
			for _, width := range []float64{340, 700, 1100} {
				m := machine(t, scheme, 6)
				f := New(m.Wiring(), Options{Width: width, Floor: -1, Words: say}).Draw(view(m), Marks{Leaf: -1, Joints: true})
				assert.Empty(t, f.Clashes(0), "%s, %s at %v", tag, scheme, width)
			}
		}
	}
}

// What fits the scene's wires fits these; and a line ends in a dot where at least
// three meet, and in a ring where it goes on as one other: its conductor is not
// drawn, but what else hangs on it is known.
func TestEveryDotIsAJointOfThree(t *testing.T) {
	say := words(t)
	for _, scheme := range control.Schemes() {
		for _, floors := range []int{2, 6, 10} {
			m := machine(t, scheme, floors)
			m.Press(floors - 1)
			m.Advance(3)
			meet := map[string]int{}
			for i := range m.Wiring().Leaves {
				l := &m.Wiring().Leaves[i]
				meet[nodePart(l.From)]++
				meet[nodePart(l.To)]++
			}
			for _, width := range []float64{340, 900} {
				f := New(m.Wiring(), Options{Width: width, Floor: -1, Words: say}).Draw(view(m), Marks{Leaf: -1, Joints: true})
				w := draughtsman.Of(f, draughtsman.Except{Dot: func(part string) bool { return strings.HasPrefix(part, "node.") }})
				require.Greater(t, len(w.Dots), 10)
				for _, wrong := range w.Judge() {
					t.Errorf("%s, %d floors, %v wide: %s at %v", scheme, floors, width, wrong.What, wrong.At)
				}
				ends := 0
				for i := range f.Items {
					it := &f.Items[i]
					if !strings.HasPrefix(it.Part, "node.") {
						continue
					}
					ends++
					if dot := it.Style.Fill.Role == figure.Ink; dot != (meet[it.Part] >= 3) {
						t.Errorf("%s, %d floors: %d meet at %s, drawn as a dot: %v", scheme, floors, meet[it.Part], it.Part, dot)
					}
				}
				assert.Equal(t, 2*len(m.Wiring().Diagram.Branches), ends)
			}
		}
	}
}

// For the voltmeter every node has a mark where it can be pointed at, and every
// ring is at such a place; without it there are no rings within a line.
func TestJointsAreRingsForTheProbes(t *testing.T) {
	near := func(x, y float64) figure.Point { return figure.Point{X: math.Round(x), Y: math.Round(y)} }
	for _, scheme := range control.Schemes() {
		m := machine(t, scheme, 6)
		s := New(m.Wiring(), Options{Width: 500, Floor: -1, Words: words(t)})
		circles := func(joints bool) (rings, marks map[figure.Point]bool) {
			rings, marks = map[figure.Point]bool{}, map[figure.Point]bool{}
			f := s.Draw(view(m), Marks{Leaf: -1, Joints: joints})
			for i := range f.Items {
				it := &f.Items[i]
				if it.Shape != figure.Circle || strings.HasPrefix(it.Part, "leaf.") {
					continue
				}
				at := near(f.Of(it)[0].X, f.Of(it)[0].Y)
				marks[at] = true
				if it.Style.Fill.Role == figure.Ground && it.Part == "" {
					rings[at] = true
				}
			}
			return rings, marks
		}
		rings, _ := circles(false)
		assert.Empty(t, rings, scheme)
		rings, marks := circles(true)
		require.Greater(t, len(rings), 20, scheme)
		marked := map[int]bool{}
		spots := map[figure.Point]bool{}
		for _, spot := range s.Spots() {
			if spot.Node >= 0 {
				at := near((spot.X0+spot.X1)/2, (spot.Y0+spot.Y1)/2)
				spots[at] = true
				marked[spot.Node] = marked[spot.Node] || marks[at]
			}
		}
		for n, is := range marked {
			assert.True(t, is, "%s: %s has no mark", scheme, s.Node(relay.Node(n)))
		}
		for at := range rings {
			assert.True(t, spots[at], "%s: a ring at %v, and nothing to point at", scheme, at)
		}
	}
}

// A page says what stands around the circuit, all of it and clear of it.
func TestAPageFindsRoomForItsWords(t *testing.T) {
	for _, tag := range long.Languages() {
		say := wordsIn(t, tag)
		for _, width := range []float64{340, 900} {
			m := machine(t, "direct", 6)
			a := Around{
				Title: say(phrase.Of("circuit.diagram-title", "building", "A house with a long name", "scheme", control.Name("direct"), "time", phrase.Num(123.4, 1))),
				Lead:  say(control.Limits("direct")), Foot: say(phrase.Of("takeaway.caution")),
			}
			s := New(m.Wiring(), Options{Width: width, Floor: -1, Words: say})
			f := s.Page(view(m), a)
			assert.Empty(t, f.Clashes(0), "%s at %v", tag, width)
			above, around := map[bool]string{}, 0
			for i := range f.Items {
				it := &f.Items[i]
				b := f.Bounds(it)
				assert.True(t, b.X0 >= 0 && b.Y0 >= 0 && b.X1 <= f.Width && b.Y1 <= f.Height, "%s at %v: %+v", tag, width, it)
				if at := f.Of(it)[0]; it.Shape == figure.Text && at.X == margin && it.Align == figure.Start {
					above[at.Y < f.Height/2] += it.Text + " "
					around++
				}
			}
			assert.Equal(t, a.Title+" "+a.Lead+" ", above[true])
			assert.Equal(t, a.Foot+" ", above[false])
			assert.Len(t, f.Items, len(s.Draw(view(m), Marks{Leaf: -1}).Items)+around, "the whole circuit")
		}
	}
}

// Signs hide no name: badges stand on wires. A path has some dozens of leaves
// at the most, so its numbers have two figures.
func TestSignsKeepOffNames(t *testing.T) {
	m := machine(t, "directional", 6)
	for _, tag := range long.Languages() {
		s := New(m.Wiring(), Options{Width: 700, Floor: -1, Words: wordsIn(t, tag)})
		for from := 0; from < len(m.Wiring().Leaves); from += 60 {
			marks := Marks{Leaf: -1}
			for i := from; i < min(from+60, len(m.Wiring().Leaves)); i++ {
				marks.Path = append(marks.Path, i)
			}
			for _, clash := range s.Draw(view(m), marks).Clashes(0) {
				assert.NotEqual(t, figure.Circle, clash.Other.Shape, "%s: %v", tag, clash)
			}
		}
	}
}

// Current is drawn where it flows: what the machine carries is thick.
func TestLiveIsThick(t *testing.T) {
	m := machine(t, "directional", 4)
	s := New(m.Wiring(), Options{Width: 700, Floor: -1})
	width := func(f *figure.Figure, part string) float64 {
		most := 0.0
		for i := range f.Items {
			if f.Items[i].Part == part && f.Items[i].Shape == figure.Line {
				most = max(most, f.Items[i].Style.Width)
			}
		}
		return most
	}
	leaf := -1
	for i := range m.Wiring().Leaves {
		if l := &m.Wiring().Leaves[i]; l.Part() == "call.3" && leaf < 0 && l.Contact >= 0 {
			leaf = i
		}
	}
	require.GreaterOrEqual(t, leaf, 0)
	before := width(s.Draw(view(m), Marks{Leaf: -1}), leafPart(leaf))
	m.Press(2)
	m.Advance(0.5)
	after := width(s.Draw(view(m), Marks{Leaf: -1}), leafPart(leaf))
	assert.GreaterOrEqual(t, after, 1.9*before)
}

func TestMarksAreDrawn(t *testing.T) {
	m := machine(t, "directional", 4)
	s := New(m.Wiring(), Options{Width: 700, Floor: -1})
	plain := s.Draw(view(m), Marks{Leaf: -1})
	marked := s.Draw(view(m), Marks{Leaf: 3, Path: []int{0, 1}, Blockers: []int{5}, Probes: []int{0, -1}})
	texts := func(f *figure.Figure) string {
		var b strings.Builder
		for i := range f.Items {
			if f.Items[i].Shape == figure.Text {
				b.WriteString(f.Items[i].Text + "\n")
			}
		}
		return b.String()
	}
	assert.Contains(t, texts(marked), "circuit.probe-first")
	assert.Greater(t, len(marked.Items), len(plain.Items)+8)
}

// With WHEELROOM_LOOK=FILE the drawing is written there, to be looked at.
func TestLook(t *testing.T) {
	path := os.Getenv("WHEELROOM_LOOK")
	if path == "" {
		return
	}
	m := machine(t, "directional", 4)
	m.Press(2)
	m.Advance(3)
	s := New(m.Wiring(), Options{Width: 760, Floor: -1, Words: words(t)})
	out, err := os.Create(path)
	require.NoError(t, err)
	defer out.Close()
	require.NoError(t, svg.Write(out, s.Draw(view(m), Marks{Leaf: 30, Path: []int{0, 1, 2}, Blockers: []int{40, 41}, Probes: []int{1, 9}, Joints: true}), &figure.Paper, svg.Options{}))
}
