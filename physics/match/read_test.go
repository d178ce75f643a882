package match

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/assets"
	"wheelroom/physics/phrase"
)

var threeFloors = []string{"G", "1", "2", "3"}

func words(t testing.TB) *phrase.Catalogue {
	t.Helper()
	c, err := phrase.ReadCatalogue(assets.Words("en")...)
	require.NoError(t, err)
	return c
}

const fine = `time_s,lamp,state
0,G,on
1.5,,depart
3.1,G,off
4,1,on
6.2,1,off
7,2,on
9.3,2,off
10.25,3,on
12,arrive,
`

func TestRead(t *testing.T) {
	for _, text := range []string{
		fine,
		strings.ReplaceAll(fine, "\n", "\r\n"),
		"\xef\xbb\xbf" + fine,
		strings.Replace(fine, ",,depart", ",G,depart", 1),
		strings.Replace(fine, ",,depart", ",depart,G", 1),
		strings.Replace(fine, ",,depart", ",depart", 1),
		strings.Replace(fine, ",,depart", ",-,depart", 1),
		strings.Replace(fine, "4,1,on", " 4 , \"1\", on ", 1),
		strings.TrimSuffix(fine, "\n"),
		strings.Replace(fine, "4,1,on", "\n\n4,1,on", 1),
	} {
		o, problems := Read([]byte(text), threeFloors)
		require.Empty(t, problems, text)
		require.Len(t, o.Edges, 7)
		assert.Equal(t, 4.0, o.Edges[2].TimeS)
		assert.Equal(t, 1, o.Edges[2].Floor)
		assert.True(t, o.Edges[2].On)
		assert.Equal(t, 1.5, o.Depart.TimeS)
		assert.Equal(t, 12.0, o.Arrive.TimeS)
		trip := o.Trip()
		assert.Equal(t, [2]int{0, 3}, [2]int{trip.From, trip.To})
		assert.True(t, trip.Up)
		assert.Equal(t, 6, trip.Edges(), "the lamp that is lit at the start shows no edge by that")
	}
	o, _ := Read([]byte(fine), threeFloors)
	assert.Equal(t, 5, o.Edges[2].Row, "rows are lines of the file")
}

func TestUnusableObservationsNameTheirRows(t *testing.T) {
	row := func(old, new string) string {
		if old == "" {
			return new
		}
		return strings.Replace(fine, old, new, 1)
	}
	c := words(t)
	for _, v := range []struct {
		name, text string
		want       []string
	}{
		{"nothing", "", []string{"row 1: the first row must be time_s,lamp,state"}},
		{"no heading", "0,G,on\n", []string{"row 1: the first row must be time_s,lamp,state"}},
		{"another heading", row("time_s", "time"), []string{"row 1: the first row must be time_s,lamp,state"}},
		{"unknown lamp", row("4,1,on\n6.2,1,off", "4,7,on\n6.2,7,off"),
			[]string{"row 5: there is no lamp “7”; the building has G, 1, 2, 3", "row 6: there is no lamp “7”; the building has G, 1, 2, 3"}},
		{"unknown floor of departure", row(",,depart", ",9,depart"), []string{"row 3: there is no lamp “9”; the building has G, 1, 2, 3"}},
		{"off before on", row("4,1,on\n", ""), []string{"row 5: lamp 1 goes out before it has come on; note it as on at the time when you began"}},
		{"on twice", row("6.2,1,off", "6.2,1,on"), []string{"row 6: lamp 1 comes on, but it has been on since row 5"}},
		{"time backwards", row("6.2,1,off", "3.9,1,off"), []string{"row 6: time runs backwards, 3.900 s after 4.000 s in row 5"}},
		{"no number", row("6.2,1,off", "six,1,off"), []string{"row 6: the time is “six”; it must be seconds from 0 to 3600"}},
		{"no time at all", row("6.2,1,off", "NaN,1,off"), []string{"row 6: the time is “NaN”; it must be seconds from 0 to 3600"}},
		{"negative", row("0,G,on", "-1,G,on"), []string{"row 2: the time is “-1”; it must be seconds from 0 to 3600"}},
		{"unknown state", row("1,off", "1,dark"), []string{"row 6: the state is “dark”; it must be on or off, or depart or arrive"}},
		{"cells", row("4,1,on", "4,1,on,now"), []string{"row 5 has 4 cells where 3 are wanted"}},
		{"one cell", row("4,1,on", "4"), []string{"row 5 has 1 cell where 3 are wanted"}},
		{"quotes", row("4,1,on", "4,\"1,on"), []string{"row 5: the quotes in it do not match"}},
		{"two departures", row("12,arrive,", "12,depart,"), []string{"row 10: depart stands in row 3 already; one trip has one"}},
		{"arrival before departure", row("12,arrive,\n", "12,depart,\n") + "13,,arrive\n",
			[]string{"row 10: depart stands in row 3 already; one trip has one"}},
		{"arrives where it departed", row("12,arrive,", "12,arrive,G"), []string{"row 10: the car arrives at floor G, where it departed"}},
		{"from nowhere", row("0,G,on\n1.5,,depart\n3.1,G,off\n", "1.5,,depart\n"), []string{"row 2: no lamp was on when the car departed; write the floor’s name beside depart"}},
		{"to nowhere", row("12,arrive,", "11,3,off\n12,arrive,"), []string{"row 11: no lamp was on when the car arrived; write the floor’s name beside arrive"}},
		{"too few edges", "time_s,lamp,state\n0,G,on\n3,G,off\n4,1,on\n",
			[]string{"there are 2 edges that show the ring, in rows 2, 3, 4; at least 4 of two lamps are needed, so watch a longer trip"}},
		{"no lamp seen whole", "time_s,lamp,state\n0,,depart\n0,G,on\n2,1,on\n3,2,on\n4,3,on\n9,3,arrive\n",
			[]string{"there are 3 edges that show the ring, in rows 3, 4, 5, 6; at least 4 of two lamps are needed, so watch a longer trip"}},
		{"several at once", "time_s,lamp,state\nx,G,on\n1,9,on\n0.5,G,blue\n",
			[]string{"row 2: the time is “x”; it must be seconds from 0 to 3600", "row 3: there is no lamp “9”; the building has G, 1, 2, 3",
				"row 4: time runs backwards, 0.500 s after 1.000 s in row 3", "row 4: the state is “blue”; it must be on or off, or depart or arrive"}},
	} {
		o, problems := Read([]byte(v.text), threeFloors)
		assert.Nil(t, o, v.name)
		var got []string
		for _, p := range problems {
			got = append(got, c.Text(p.Say))
		}
		assert.Equal(t, v.want, got, v.name)
	}
	assert.Empty(t, c.Missing())

	var long strings.Builder
	long.WriteString("time_s,lamp,state\n")
	for range mostRows + 5 {
		long.WriteString("1,G,on\n")
	}
	_, problems := Read([]byte(long.String()), threeFloors)
	assert.Equal(t, "match.too-long", problems[len(problems)-1].Say.ID)

	o := Observation{Depart: &Mark{Row: 4, TimeS: 3}, Arrive: &Mark{Row: 2, TimeS: 1}}
	assert.Equal(t, "match.arrive-first[row=2 other=4]", o.Check(threeFloors)[0].Say.String(), "as tapped in a page")
	o = Observation{Edges: []Edge{{Row: 1, TimeS: 1, On: true}, {Row: 2, TimeS: 2}, {Row: 3, TimeS: 3, Floor: 1, On: true},
		{Row: 4, TimeS: 5, Floor: 2, On: true}, {Row: 5, TimeS: 6, Floor: 3, On: true}}}
	assert.Equal(t, "match.no-whole-lamp[rows=1, 2, 3, 4, 5]", o.Check(threeFloors)[0].Say.String())
}

// Only a speed that can be looked for is taken; none is as good.
func TestMeasuredSpeeds(t *testing.T) {
	for _, c := range []struct {
		speed, error float64
		want         string
	}{
		{0, 0, ""}, {0.1, 0, ""}, {2.5, 0.1, ""}, {1, 2.5, ""},
		{0.09, 0, "match.bad-speed[least=0.1 most=2.5]"},
		{2.51, 0, "match.bad-speed[least=0.1 most=2.5]"},
		{-1, 0, "match.bad-speed[least=0.1 most=2.5]"},
		{math.NaN(), 0, "match.bad-speed[least=0.1 most=2.5]"},
		{1, -0.01, "match.bad-speed-error[most=2.5]"},
		{1, 2.6, "match.bad-speed-error[most=2.5]"},
		{1, math.NaN(), "match.bad-speed-error[most=2.5]"},
	} {
		say, ok := CheckSpeed(c.speed, c.error)
		assert.Equal(t, c.want == "", ok, c)
		if !ok {
			assert.Equal(t, c.want, say.String())
		}
	}
}
