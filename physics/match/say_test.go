package match

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	languages "wheelroom/assets/words"
	"wheelroom/physics/phrase"
)

// Another ring is named by its number of terminals only where one is known;
// where it is a set, nothing but its ends is said.
func TestOtherRingsAreSaidAsFarAsTheyAreKnown(t *testing.T) {
	for tag, want := range map[string][2]string{
		"en": {"A ring of 4.00 terminals a floor (3.90 to 4.10) fits as well, with 2 joined.",
			"A ring of 3.50 to 4.60 terminals a floor fits as well, with 2, 1 joined."},
		"de": {"Ein Ring mit 4,00 Lamellen je Stockwerk (3,90 bis 4,10) passt ebenso, mit 2 verbundenen.",
			"Ein Ring mit 3,50 bis 4,60 Lamellen je Stockwerk passt ebenso, mit 2, 1 verbundenen."},
	} {
		c, err := phrase.ReadCatalogue(languages.Of(tag)...)
		require.NoError(t, err)
		r := Result{Verdict: None, Others: []Other{
			{Unknowns: []Unknown{{Value: 4, Low: 3.9, High: 4.1, Told: true}}, Joinings: []Joining{{Live: 2}}},
			{Unknowns: []Unknown{{Value: 4, Low: 3.5, High: 4.6}}, Joinings: []Joining{{Live: 2}, {Live: 1}}},
		}}
		var said []string
		for _, s := range r.Says() {
			said = append(said, c.Text(s))
		}
		require.Len(t, said, 3)
		assert.Equal(t, want[:], said[1:])
		assert.Empty(t, c.Missing())
	}
}

// One ring is named by its number of terminals only where there is one to name.
func TestARingIsSaidAsFarAsItIsKnown(t *testing.T) {
	c := words(t)
	perFloor := Unknown{Quantity: TerminalsPerFloor, Value: 2.8, Low: 2.6, High: 3.1}
	for verdict, want := range map[Verdict][2]string{
		One: {"One ring explains the lamps, of 2.600 to 3.100 terminals a floor, 2 joined for each.",
			"One ring explains the lamps: 2.800 terminals a floor (2.600 to 3.100), 2 joined for each."},
		Several: {"More than one ring explains the lamps. The first is one of 2.600 to 3.100 terminals a floor, 2 joined for each.",
			"More than one ring explains the lamps. The first is one of 2.800 terminals a floor (2.600 to 3.100), 2 joined for each."},
	} {
		for i, told := range []bool{false, true} {
			perFloor.Told = told
			r := Result{Verdict: verdict, Live: 2, Unknowns: []Unknown{perFloor}, Joinings: []Joining{{Live: 2}}}
			assert.Equal(t, want[i], c.Text(r.Says()[0]))
		}
	}
	assert.Empty(t, c.Missing())
}
