package proof

import (
	"context"
	"math/rand"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/trial"
)

func evenly(n int, scheme string) *building.Plan {
	p := building.Evenly("test", n, 3.2)
	p.Selector.SpanDeg = min(p.Selector.SpanDeg, 200)
	p.Control.Scheme = scheme
	return &p
}

func prove(t *testing.T, p *building.Plan) Report {
	t.Helper()
	r, err := Prove(context.Background(), Question{Plan: p}, nil)
	require.NoError(t, err)
	return r
}

// english words a report; nothing may lack words.
func english(t *testing.T, said []phrase.Phrase) string {
	t.Helper()
	files := [][]byte{[]byte("language.tag: en\nlanguage.decimal: \".\"\nlanguage.minus: \"-\"\n")}
	for _, name := range []string{"proof", "why", "lift"} {
		text, err := os.ReadFile("../../assets/words/en/" + name + ".yaml")
		require.NoError(t, err)
		files = append(files, text)
	}
	c, err := phrase.ReadCatalogue(files...)
	require.NoError(t, err)
	var lines []string
	for _, s := range said {
		lines = append(lines, c.Text(s))
	}
	require.Empty(t, c.Missing())
	return strings.Join(lines, "\n")
}

func TestSchemesAreProved(t *testing.T) {
	for _, c := range []struct {
		scheme string
		n      int
		sets   int // call sets tried; 0 where by kind
	}{
		{"interlocked", 2, 4}, {"interlocked", 8, 256},
		{"directional", 2, 4}, {"directional", 10, 1024}, {"directional", 14, 0},
		{"two-button", 2, 16}, {"two-button", 4, 1024}, {"two-button", 7, 0},
	} {
		t.Run(c.scheme+" "+strconv.Itoa(c.n), func(t *testing.T) {
			r := prove(t, evenly(c.n, c.scheme))
			assert.True(t, r.Proved, "%+v %+v %+v", r.Wrong, r.Lost, r.Race)
			assert.Equal(t, c.sets, r.Sets)
			assert.Equal(t, c.sets == 0, r.Checked > 0, "the reduction is checked where it is used")
			assert.Positive(t, r.Cases)
			assert.Positive(t, r.Served)
			assert.Positive(t, r.Corners)
			assert.Equal(t, c.scheme == "interlocked" && c.n > 2, r.Weaker != nil)
			said := english(t, r.Say(evenly(c.n, c.scheme)))
			assert.Contains(t, said, "Proved: "+c.scheme+", "+strconv.Itoa(c.n)+" floors.")
			assert.Equal(t, c.sets == 0, strings.Contains(said, "They were tried by kind"))
			assert.Equal(t, c.sets > 0, strings.Contains(said, "For what must never happen"), "which is by kind there as well")
		})
	}
}

func TestDirectIsRefutedByItsSmallestCase(t *testing.T) {
	p := evenly(4, "direct")
	r := prove(t, p)
	require.False(t, r.Proved)
	require.NotNil(t, r.Wrong)
	assert.True(t, r.Wrong.Both)
	assert.Len(t, r.Wrong.Calls, 2, "one call above and one below are enough, and needed")
	said := english(t, r.Say(p))
	assert.Contains(t, said, "Refuted: direct, 4 floors.")
	assert.Contains(t, said, "The smallest case: the car stands ready at floor 2; calls: 1, 3; both directions, or both windings, are switched on together.")

	// Opened on the running machine it comes to the same.
	o, ins := r.Wrong.Open(p)
	m, err := lift.New(p, o)
	require.NoError(t, err)
	for _, in := range ins {
		require.Empty(t, m.Do(in).ID)
	}
	m.Advance(10)
	assert.Equal(t, "stopped.phases-short-circuited", m.Stopped())
}

func TestWhatInterlockedDoesNotDoCanBeSeen(t *testing.T) {
	p := evenly(4, "interlocked")
	r := prove(t, p)
	require.NotNil(t, r.Weaker)
	assert.Contains(t, english(t, r.Say(p)), "the car stands ready at floor 2, having come down; calls: 1, 3; it turns back up")
	o, ins := r.Weaker.Open(p)
	m, err := lift.New(p, o)
	require.NoError(t, err)
	for _, in := range ins {
		require.Empty(t, m.Do(in).ID)
	}
	m.Advance(90)
	assert.Equal(t, []string{"2", "3", "1"}, stops(m), "up again with a call still below")
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

// TestTheRuleForesaysTheRun: the order of stops that the rule gives is the one
// the running machine keeps.
func TestTheRuleForesaysTheRun(t *testing.T) {
	rng := rand.New(rand.NewSource(6))
	for _, scheme := range []string{"interlocked", "directional", "two-button"} {
		for range trial.Runs(6) {
			p := evenly(5, scheme)
			start := rng.Intn(5)
			m, err := lift.New(p, lift.Options{Start: start})
			require.NoError(t, err)
			g, err := newGround(p, nil)
			require.NoError(t, err)
			s := rested{floor: start}
			for i, c := range g.b.d.Calls {
				if c.Floor != start && rng.Intn(3) == 0 {
					s.calls.add(i)
					require.Empty(t, m.Do(lift.Input{Kind: lift.Press, Part: lift.Part(c.Button)}).ID)
				}
			}
			r := newRound(g.b, rules[scheme])
			var want []string
			asked := s.calls.size()
			for at := s.floor; ; {
				next, goes := r.next(s)
				if !goes {
					break
				}
				if s = next; s.floor != at {
					want = append(want, p.Floors[s.floor].Name)
				}
				at = s.floor
			}
			m.Advance(30 * float64(asked+1))
			assert.Equal(t, want, stops(m), "%s from %d", scheme, start)
		}
	}
}

func TestKindsThatAreNotEnoughAreFound(t *testing.T) {
	p := evenly(4, "two-button")
	m, err := lift.New(p, lift.Options{})
	require.NoError(t, err)
	// Floor 3's up call does not reach its row: which floor calls now matters.
	var d *control.Diagram
	for k := 0; ; k++ {
		s, said := spoiled(m.Wiring().Diagram, k, false)
		require.NotEmpty(t, said)
		if said == "call-up.3 in row.3" {
			d = s
			break
		}
	}
	g, err := newGround(p, d)
	require.NoError(t, err)
	j := &judge{b: g.b, rule: rules["two-button"], classes: &classes{}}
	require.NoError(t, (&prover{ctx: context.Background()}).judge(j, g, true))
	assert.True(t, j.classes.split)
	assert.NotNil(t, j.worst)
	assert.Len(t, j.worst.Calls, 1)
}

// Every combination of kinds above, here and below that the full list has is
// also in the short one.
func TestByKindCoversEveryClass(t *testing.T) {
	for _, c := range []struct {
		scheme string
		n      int
	}{{"directional", 5}, {"two-button", 4}} {
		g, err := newGround(evenly(c.n, c.scheme), nil)
		require.NoError(t, err)
		type class struct {
			kinds [2]int // above and below
			here  mask
		}
		of := func(p *place, m mask) class {
			var k class
			for i, c := range g.b.d.Calls {
				switch {
				case !m.has(i):
				case slices.Contains(p.here(), c.Floor):
					k.here.add(i)
				case p.Stand[c.Floor] == lift.Above:
					k.kinds[0] |= 1 << c.Kind
				default:
					k.kinds[1] |= 1 << c.Kind
				}
			}
			return k
		}
		for _, p := range g.places {
			have := map[class]bool{}
			for _, m := range byKind(g.b.d, p) {
				have[of(p, m)] = true
			}
			for set := range uint64(1) << len(g.b.d.Calls) {
				k := of(p, mask{set})
				require.True(t, have[k], "%s, %d at %.2f m: %+v", c.scheme, set, p.FromM, k)
			}
		}
	}
}

// On each side of every place each kind is called at its nearest floor and at
// its farthest without all others, and in the run of places each call alone
// that can be at an end; and the sets of one side are eight at the most, so that
// those of both fill one chunk.
func TestByKindReachesBothEnds(t *testing.T) {
	for _, scheme := range []string{"directional", "two-button"} {
		g, err := newGround(evenly(8, scheme), nil)
		require.NoError(t, err)
		alone := map[control.Call]int{}
		for _, p := range g.places {
			for _, side := range []lift.Stand{lift.Above, lift.Below} {
				var calls []int
				for i, c := range g.b.d.Calls {
					if p.Stand[c.Floor] == side {
						calls = append(calls, i)
					}
				}
				called := map[control.Call]int{}
				sets := few(g.b.d, calls, p.index%2 == 0)
				assert.LessOrEqual(t, len(sets), 8)
				for _, m := range sets {
					for i, c := range g.b.d.Calls {
						if m.has(i) && (m.size() < len(calls) || len(calls) == 1) {
							called[c]++
						}
						if m.has(i) && m.size() == 1 {
							alone[c]++
						}
					}
				}
				ends := map[control.CallKind][2]int{}
				for _, i := range calls {
					k := g.b.d.Calls[i].Kind
					if _, ok := ends[k]; !ok {
						ends[k] = [2]int{i, i}
					}
					ends[k] = [2]int{ends[k][0], i}
				}
				for k, end := range ends {
					for _, i := range end {
						assert.Positive(t, called[g.b.d.Calls[i]], "%s: %v at %.2f m", scheme, k, p.FromM)
					}
				}
			}
		}
		for _, c := range g.b.d.Calls {
			assert.Positive(t, alone[c], "%s: %+v", scheme, c)
		}
	}
}

func TestEverySetIsThereOnce(t *testing.T) {
	for n := range 9 {
		seen := map[mask]bool{}
		for _, c := range everySet(n) {
			for w := c.valid; w != 0; w &= w - 1 {
				m := c.mask(lowest(w))
				assert.False(t, seen[m])
				seen[m] = true
			}
		}
		assert.Len(t, seen, 1<<n)
	}
}

func TestAProofCanBeWatchedAndCancelled(t *testing.T) {
	p := evenly(4, "directional")
	last, of := 0, 0
	_, err := Prove(context.Background(), Question{Plan: p}, func(d, o int) {
		assert.GreaterOrEqual(t, d, last)
		last, of = d, o
	})
	require.NoError(t, err)
	assert.Equal(t, of, last, "it comes to its end")

	ctx, cancel := context.WithCancel(context.Background())
	calls := 0
	_, err = Prove(ctx, Question{Plan: p}, func(int, int) {
		if calls++; calls == 3 {
			cancel()
		}
	})
	assert.ErrorIs(t, err, context.Canceled)
	assert.Equal(t, 3, calls)
}

func TestAnUnknownSchemeIsAnError(t *testing.T) {
	_, err := Prove(context.Background(), Question{Plan: evenly(3, "directional"), Scheme: "none"}, nil)
	assert.Error(t, err)
}

func BenchmarkProveTenFloors(b *testing.B) {
	p := evenly(10, "directional")
	for b.Loop() {
		if r, err := Prove(context.Background(), Question{Plan: p}, nil); err != nil || !r.Proved {
			b.Fatal(err, r)
		}
	}
}
