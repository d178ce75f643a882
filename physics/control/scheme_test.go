package control

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/relay"
)

// landings is a plan of n floors and two ring terminals for each.
func landings(n int) (building.Plan, []string, [][]int) {
	p := building.Evenly("test", n, 3.2)
	names, terminals := make([]string, n), make([][]int, n)
	for f := range names {
		names[f] = p.Floors[f].Name
		terminals[f] = []int{3 * f, 3*f + 1}
	}
	return p, names, terminals
}

func TestEverySchemeWiresForAnyNumberOfLandings(t *testing.T) {
	for _, scheme := range Schemes() {
		for _, n := range []int{2, 3, 6, 12, 32} {
			t.Run(scheme+" "+strconv.Itoa(n), func(t *testing.T) {
				p, names, terminals := landings(n)
				d := New(scheme, names, terminals)
				require.NotNil(t, d)
				assert.Equal(t, scheme, d.Scheme)
				w, err := Wire(d, &p, Options{})
				require.NoError(t, err)
				for _, name := range Relays() {
					if name == "direction" && (scheme == "direct" || scheme == "interlocked") {
						assert.Less(t, int(w.Coil("relay."+name)), 0, "these schemes remember no direction")
						continue
					}
					assert.GreaterOrEqual(t, int(w.Coil("relay."+name)), 0, name)
				}
				for _, c := range d.Calls {
					assert.GreaterOrEqual(t, int(w.Coil(c.Relay)), 0, c.Relay)
					assert.GreaterOrEqual(t, w.Gang(c.Button), 0, c.Button)
				}
			})
		}
	}
	assert.Nil(t, New("no such", nil, nil))
}

// With every contact closed the supply bears all coils and all call lamps at
// once. Even with every filament cold, on the lowest and the highest supply
// there may be, each coil gets what pulls it in: no lamp's inrush keeps a relay
// out, let alone drops one. On 24 V the contacts' own resistance begins to
// count: with 32 landings of three calls each, all 94 lamps lit within a tenth
// of a second, a relay would wait for them to warm; with 20 none does.
func TestNoInrushKeepsARelayOut(t *testing.T) {
	for _, scheme := range Schemes() {
		for _, supply := range []struct {
			volts float64
			n     int
		}{{24, 20}, {110, 32}, {250, 32}} {
			volts := supply.volts
			p, names, terminals := landings(supply.n)
			p.Control.SupplyV = volts
			w, err := Wire(New(scheme, names, terminals), &p, Options{})
			require.NoError(t, err)
			s := relay.NewState(w.Net)
			for i := range w.Leaves {
				// the brush touches no more than two terminals
				part := w.Leaves[i].Part()
				if k := w.Leaves[i].Contact; k >= 0 && (!strings.HasPrefix(part, "terminal.") || part == "terminal.0" || part == "terminal.1") {
					s.Set(k, true)
				}
			}
			plus := w.Node(Plus)
			check := func(hot bool) {
				rest := w.Net.Rest(s)
				for c, part := range w.Coils {
					id := relay.CoilID(c)
					e := w.Net.Element(w.Net.ElementOfCoil(id))
					assert.Greater(t, (rest[e.A]-rest[e.B])/e.Ohms, w.Net.Spec(id).PickUpA, "%s %g V %s", scheme, volts, part)
				}
				for _, l := range w.Leaves {
					if _, lamp := l.Body.(Lamp); lamp {
						assert.Equal(t, hot && (!strings.HasPrefix(l.Part(), "lamp.") || l.Part() == "lamp.1"), s.Hot(l.Element), l.Part())
					}
				}
			}
			check(false)
			cold := w.Net.Rest(s)[plus]
			for left := 1.0; left > 0; {
				dt := min(left, s.Next())
				s.Advance(dt)
				left -= dt
			}
			check(true)
			assert.Greater(t, w.Net.Rest(s)[plus], 1.03*cold, "the inrush can be seen at the supply")
		}
	}
}

func TestTheSchemesOfABuildingFileAreThoseThereAre(t *testing.T) {
	assert.Equal(t, building.Schemes, Schemes())
}

func TestEverySchemeSaysWhatItCannotDo(t *testing.T) {
	for _, scheme := range Schemes() {
		assert.Equal(t, "scheme.limits-"+scheme, Limits(scheme).ID)
		assert.Equal(t, "scheme.name-"+scheme, Name(scheme).ID)
	}
	assert.Empty(t, Limits("no such").ID)
	assert.Empty(t, Name("no such").ID)
}

func TestTwoButtonsLackOneAtEitherEnd(t *testing.T) {
	_, names, terminals := landings(4)
	var got []string
	for _, c := range TwoButton(names, terminals).Calls {
		got = append(got, c.Relay+" "+c.Button)
	}
	assert.Equal(t, []string{
		"call-up.1 button-up.1", "call-car.1 button-car.1",
		"call-up.2 button-up.2", "call-down.2 button-down.2", "call-car.2 button-car.2",
		"call-up.3 button-up.3", "call-down.3 button-down.3", "call-car.3 button-car.3",
		"call-down.4 button-down.4", "call-car.4 button-car.4",
	}, got)
}

// Control relays operate in 20 to 50 ms, contactors in 30 to 80, brakes lift in
// 100 to 300 (common practice, no source). A building file may have any of
// these, and its coil then takes as long.
func TestUsualTimesCanBeHad(t *testing.T) {
	for _, c := range []struct {
		part   string
		lo, hi float64
		set    func(p *building.Plan) *float64
	}{
		{"relay.stop", 0.020, 0.050, func(p *building.Plan) *float64 { return &p.Control.RelayOperateS }},
		{"relay.up-contactor", 0.030, 0.080, func(p *building.Plan) *float64 { return &p.Control.ContactorOperateS }},
		{"relay.brake", 0.100, 0.300, func(p *building.Plan) *float64 { return &p.Brake.LiftS }},
	} {
		for _, want := range []float64{c.lo, (c.lo + c.hi) / 2, c.hi} {
			p, _, _ := landings(3)
			*c.set(&p) = want
			for _, problem := range building.Check(p) {
				assert.True(t, problem.Warning, "%v", problem.Phrase)
			}
			net := relay.New()
			top, plus := net.Node("top"), net.Node("plus")
			net.Source(plus, 0, p.Control.SupplyV, 0.001)
			feed := net.Contact("feed", plus, top, false)
			coil := net.Coil(c.part, top, 0, coilSpec(c.part, &p))
			require.NoError(t, net.Seal())
			s := relay.NewState(net)
			s.Set(feed, true)
			took := 0.0
			for !s.In(coil) {
				dt := s.Next()
				s.Advance(dt)
				took += dt
			}
			assert.InEpsilon(t, want, took, 0.01, c.part)
		}
	}
	// As shipped, contactors and brake are within, and relays are quick ones.
	p := building.Defaults()
	assert.True(t, p.Control.ContactorOperateS >= 0.030 && p.Control.ContactorOperateS <= 0.080)
	assert.True(t, p.Brake.LiftS >= 0.100 && p.Brake.LiftS <= 0.300)
	assert.Less(t, p.Control.RelayOperateS, 0.020)
}
