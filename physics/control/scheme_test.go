package control

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
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
