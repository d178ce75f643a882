package session

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/bench"
)

// seenAtTidemill is a trip from one end to the other at 1 m/s past the ring of
// the building file: a lamp is lit for 2.58 m about the middle of its two
// terminals (by hand: one pitch of 1.2 m and 1.15 pitches of widths).
const seenAtTidemill = `time_s,lamp,state
0,G,on
0,,depart
1.29,G,off
2.31,1,on
4.89,1,off
5.91,2,on
8.49,2,off
9.51,3,on
11.91,4,on
12.09,3,off
14.49,4,off
15.51,5,on
16.8,,arrive
`

// matchedAs lets a fit come to its end.
func matchedAs(t *testing.T, s *Session, text string, more map[string]any) RingMatched {
	t.Helper()
	q := map[string]any{"do": "start", "text": text, "width": 700}
	for k, v := range more {
		q[k] = v
	}
	m, err := ask[RingMatched](t, s, "ring", "match", q)
	require.NoError(t, err)
	if m.State != "running" {
		return m
	}
	q["do"], q["report"] = "report", errandDone(t, m.Task)
	m, err = ask[RingMatched](t, s, "ring", "match", q)
	require.NoError(t, err)
	return m
}

func TestRingIsMatched(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	m := matchedAs(t, s, seenAtTidemill, nil)
	require.Empty(t, m.Problems)
	assert.Equal(t, "done", m.State)
	assert.Equal(t, m.Of, m.Done)
	r := m.Answer
	require.NotNil(t, r)
	assert.Equal(t, "one", r.Verdict)
	assert.True(t, r.Try)
	assert.Contains(t, r.Says[0], "2.80")
	assert.Len(t, r.Edges, 11)
	assert.Equal(t, 4, r.Edges[1].Row, "rows are lines of the file")
	require.Len(t, r.Seen, 6)
	require.Len(t, r.Fitted, 6)
	// The clock begins with the drawing; what lies between two instants stays.
	assert.InDelta(t, 2.58, r.Seen[1][1]-r.Seen[1][0], 1e-9)
	assert.InDelta(t, r.Seen[1][0], r.Clock.Keys[3].AtS, 1e-9)
	assert.Equal(t, "lamp 1 comes on", r.Clock.Keys[3].Name)
	require.Len(t, r.Traces.Frames, 1)
	assert.Less(t, r.Traces.Frames[0].X0, r.Traces.Frames[0].X1)

	// The fitted ring on the bench is the building's own again.
	laid := laying(t, s, string(s.text), map[string]any{"do": "fit"})
	require.NotNil(t, laid.Page)
	assert.InDelta(t, 1.2, laid.Page.PitchM, 0.01)

	for which, want := range map[string]string{"text": "2.80", "json": `"verdict": "one"`, "traces": "<svg", "panels": "<svg"} {
		text, err := ask[string](t, s, "ring", "answer", map[string]any{"text": seenAtTidemill, "which": which, "timeS": 3})
		require.NoError(t, err)
		assert.Contains(t, text, want)
	}
	assert.Empty(t, words.Missing())
}

// Without departure, arrival or a speed there is no one ring, so none to lay
// out; a lamp out of step is named.
func TestRingMatchedInPart(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	free := strings.NewReplacer("0,,depart\n", "", "16.8,,arrive\n", "").Replace(seenAtTidemill)
	r := matchedAs(t, s, free, nil).Answer
	assert.Equal(t, "set", r.Verdict)
	assert.False(t, r.Try)
	_, err := ask[any](t, s, "ring", "lay", ringAsk(string(s.text), map[string]any{"do": "fit"}))
	assert.Equal(t, "bench.no-fit", Phrase(err).ID)
	assert.Equal(t, "one", matchedAs(t, s, free, map[string]any{"speedMS": 1, "speedErrorMS": 0.02}).Answer.Verdict)

	odd := strings.NewReplacer("5.91,2,on", "7.41,2,on", "8.49,2,off", "9.4,2,off").Replace(seenAtTidemill)
	r = matchedAs(t, s, odd, nil).Answer
	require.NotEmpty(t, r.Odd)
	assert.Contains(t, r.Odd[0], "floor 2")
	assert.Empty(t, words.Missing())
}

func TestRingMatchNamesRows(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	m := matchedAs(t, s, "time_s,lamp,state\n1,G,off\n2,9,on\n", nil)
	require.Len(t, m.Problems, 1)
	assert.Equal(t, 3, m.Problems[0].Row)
	assert.Contains(t, m.Problems[0].Text, "there is no lamp “9”")
	assert.Equal(t, "refused", m.State)
	assert.Nil(t, m.Answer)
	look, err := ask[RingMatched](t, s, "ring", "match", map[string]any{"do": "look"})
	require.NoError(t, err)
	assert.Equal(t, "none", look.State)
	for said, q := range map[string]map[string]any{
		"match.bad-speed[least=0.1 most=2.5]": {"speedMS": 3},
		"match.bad-speed-error[most=2.5]":     {"speedMS": 1, "speedErrorMS": 99},
	} {
		q["text"], q["do"] = seenAtTidemill, "start"
		_, err := ask[any](t, s, "ring", "match", q)
		assert.Equal(t, said, Phrase(err).String())
		words.Text(Phrase(err))
	}
	form, err := ask[RingForm](t, s, "ring", "form", struct{}{})
	require.NoError(t, err)
	assert.Equal(t, 2.5, form.FastMS, "what the page's field takes at most")
	assert.Empty(t, words.Missing())
}

// A fit is watched, broken off, fails, and is gone on without; files are of a
// finished one.
func TestRingMatchIsBrokenOff(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	match := func(step map[string]any) RingMatched {
		step["text"] = seenAtTidemill
		m, err := ask[RingMatched](t, s, "ring", "match", step)
		require.NoError(t, err)
		m.Task = nil
		return m
	}
	do := func(what string) RingMatched { return match(map[string]any{"do": what}) }
	for _, what := range []string{"look", "cancel", "done", "report", "failed"} {
		assert.Equal(t, "none", do(what).State)
	}
	assert.Equal(t, "running", do("start").State)
	m := match(map[string]any{"do": "done", "done": 1, "of": 3})
	assert.Equal(t, RingMatched{State: "running", Done: 1, Of: 3, Problems: []RingRow{}}, m)
	_, err := ask[any](t, s, "ring", "answer", map[string]any{"text": seenAtTidemill, "which": "text"})
	assert.Equal(t, "bench.no-answer", Phrase(err).ID)
	assert.Equal(t, "cancelled", do("cancel").State)
	_, err = ask[any](t, s, "ring", "match", map[string]any{"do": "sing"})
	assert.Equal(t, "stage.unknown-question", Phrase(err).ID)
	do("start")
	assert.Equal(t, RingMatched{State: "failed", Reason: "no room", Problems: []RingRow{}}, match(map[string]any{"do": "failed", "reason": "no room"}))

	require.Equal(t, "done", matchedAs(t, s, seenAtTidemill, nil).State)
	// With another building on the stage its ring is not to be laid out.
	require.NoError(t, s.Load([]byte(strings.Replace(string(s.text), "terminals_per_floor: 2.8", "terminals_per_floor: 3", 1))))
	_, err = ask[any](t, s, "ring", "lay", ringAsk(string(s.text), map[string]any{"do": "fit"}))
	assert.Equal(t, "bench.no-fit", Phrase(err).ID)
	assert.Empty(t, words.Missing())
}

// What the panel shows on the page is what the bench says of the same ride.
func TestRingRide(t *testing.T) {
	words := catalogue(t)
	s := openWith(t, words.Text)
	q := map[string]any{"text": string(s.text), "from": "G", "to": "5", "lamp": "quick"}
	ride, err := ask[RingRidden](t, s, "ring", "ride", q)
	require.NoError(t, err)
	report := bench.Lay(s.plan)
	want, ok := bench.Take(s.plan, report.Ring, 0, 5)
	require.True(t, ok)
	assert.InDelta(t, want.ArriveS, ride.ArriveS, 1e-6)
	assert.InDelta(t, 0.040, ride.RiseS, 1e-9)
	assert.Len(t, ride.Lamps, 6)
	assert.Contains(t, ride.Says, "floor 5")
	for id, change := range map[string][2]string{"drive.no-floor": {"to", "9"}, "drive.no-way": {"to", "G"}, "bench.no-lamp": {"lamp", "arc"}} {
		bad := map[string]any{"text": q["text"], "from": "G", "to": "5", "lamp": "quick"}
		bad[change[0]] = change[1]
		_, err := ask[any](t, s, "ring", "ride", bad)
		assert.Equal(t, id, Phrase(err).ID)
	}
	assert.Empty(t, words.Missing())
}
