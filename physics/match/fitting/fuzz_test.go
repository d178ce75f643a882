package fitting

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wheelroom/physics/match"
)

// Whatever bytes come, Read returns an observation that a fit can take, or
// problems that can be put into words; never both, never a panic.
func FuzzRead(f *testing.F) {
	f.Add([]byte("time_s,lamp,state\n0,G,on\n1.5,,depart\n3.1,G,off\n4,1,on\n6.2,1,off\n7,2,on\n9.3,2,off\n10.25,3,on\n12,arrive,\n"))
	f.Add([]byte("time_s,lamp,state\n0,G,on\n3,G,off\n4,1,on\n5,1,off\n4.5,2,on\n5,2,off\n6,3,on\n"))
	f.Add([]byte("time_s,lamp,state\n0,3,on\n3,3,off\n3,2,on\n5,2,off\n5,1,on\n8,1,off\n8,G,on\n"))
	f.Add([]byte("time_s,lamp,state\n0,G,on\n0,G,off\n0,1,on\n0,1,off\n0,2,on\n0,2,off\n"))
	f.Add([]byte("time_s,lamp,state\n1,\"2\n\",on\n"))
	f.Add([]byte("time_s,lamp,state\n1e3,G,on\n0x1p3,depart,\n"))
	c := words(f)
	p := shipped(f, "tidemill-house")
	floors := names(p)
	f.Fuzz(func(t *testing.T, text []byte) {
		o, problems := match.Read(text, floors)
		require.Equal(t, o == nil, len(problems) > 0)
		for _, problem := range problems {
			require.NotContains(t, c.Text(problem.Say), "⟦")
		}
		if o == nil || len(o.Edges) > 40 {
			return
		}
		r := Match(p, o)
		for _, u := range r.Unknowns {
			require.False(t, math.IsNaN(u.Low) || math.IsNaN(u.High), "%v %v", u.Quantity, u)
			require.LessOrEqual(t, u.Low, u.High)
		}
		for _, s := range r.Says() {
			require.NotContains(t, c.Text(s), "⟦")
		}
		var b strings.Builder
		require.NoError(t, match.WriteJSON(&b, r, c.Text))
	})
}
