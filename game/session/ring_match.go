package session

import (
	"context"
	"runtime"
	"sync"
	"time"

	"wheelroom/physics/building"
	"wheelroom/physics/match"
)

// A RingSeen is what a passenger noted of one trip, what is to be done with it,
// and how the answer is to be shown.
type RingSeen struct {
	Do           string  // of match: start, look or cancel
	Text         string  // CSV, as physics/match reads it
	SpeedMS      float64 // measured; 0: not
	SpeedErrorMS float64
	Which        string  // of answer: text, json, traces or panels
	TimeS        float64 // of panels, from the beginning of the answer's clock
	Width        float64
	Paper        bool
}

// The fastest car a teaching building may have, with room to spare, and the
// beginning of a lamp that was lit before anybody looked.
const (
	mostMeasuredMS = 10
	longAgoS       = -3600
)

// A RingMatched is how far a fit is and what it comes to: what is wrong with
// the observation's rows, or an answer.
type RingMatched struct {
	State    string      `json:"state"` // none, refused, running, done or cancelled
	Done     int         `json:"done"`
	Of       int         `json:"of"`
	Problems []RingRow   `json:"problems"`
	Answer   *RingAnswer `json:"answer"` // of one that is done
}

// A RingRow is something wrong with one row; 0 is the whole.
type RingRow struct {
	Row  int    `json:"row"`
	Text string `json:"text"`
}

// A matchKey tells one question from another.
type matchKey struct {
	building     string // its file
	text         string
	speed, error float64
}

// A matching is one fit under way or done. It works on a plan of its own and
// touches nothing of the session.
type matching struct {
	key    matchKey
	plan   building.Plan
	cancel context.CancelFunc
	asleep time.Time // when the page had its last turn

	mu       sync.Mutex
	done, of int
	result   *match.Result
	over     bool
}

// ringMatch begins, watches or breaks off a fit.
func (a Asking) ringMatch(q RingSeen) (any, error) {
	d := &a.desks.ring
	switch q.Do {
	case "start":
		problems, err := a.startMatch(&q)
		if err != nil {
			return nil, err
		}
		if len(problems) > 0 {
			out := RingMatched{State: "refused"}
			for _, p := range problems {
				out.Problems = append(out.Problems, RingRow{p.Row, a.sentence(p.Say)})
			}
			return out, nil
		}
	case "cancel":
		if d.matching != nil {
			d.matching.cancel()
		}
	case "look":
	default:
		return nil, refuse("stage.unknown-question", "question", "ring/match/"+q.Do)
	}
	out := RingMatched{State: "none", Problems: []RingRow{}}
	m := d.matching
	if m == nil {
		return out, nil
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	out.State, out.Done, out.Of = "running", m.done, m.of
	switch {
	case !m.over:
	case m.result == nil:
		out.State = "cancelled"
	default:
		out.State, out.Answer = "done", a.answerOf(m.result, &q)
	}
	return out, nil
}

// observed reads what was seen; with any problem the observation is nil.
func (a Asking) observed(q *RingSeen) (*match.Observation, []match.Problem, error) {
	for _, v := range []float64{q.SpeedMS, q.SpeedErrorMS} {
		if !(v >= 0 && v <= mostMeasuredMS) {
			return nil, nil, refuse("match.bad-speed")
		}
	}
	seen, problems := match.Read([]byte(q.Text), floorNames(a.plan))
	if seen != nil {
		seen.SpeedMS, seen.SpeedErrorMS = q.SpeedMS, q.SpeedErrorMS
	}
	return seen, problems, nil
}

func (a Asking) matchKey(q *RingSeen) matchKey {
	return matchKey{string(a.text), q.Text, q.SpeedMS, q.SpeedErrorMS}
}

// startMatch sets a fit going beside everything else.
func (a Asking) startMatch(q *RingSeen) ([]match.Problem, error) {
	seen, problems, err := a.observed(q)
	if seen == nil {
		return problems, err
	}
	d := &a.desks.ring
	if d.matching != nil {
		d.matching.cancel()
	}
	ctx, cancel := context.WithCancel(context.Background())
	m := &matching{key: a.matchKey(q), plan: *a.plan, cancel: cancel, asleep: time.Now()}
	d.matching = m
	go func() {
		r, err := match.Search(ctx, &m.plan, seen, m.progress)
		m.mu.Lock()
		defer m.mu.Unlock()
		if m.over = true; err == nil {
			m.result = r
		}
	}()
	return nil, nil
}

// turnS is how long the page waits for its turn while a fit is under way.
const turnS = 5 * time.Millisecond

// progress notes how far the fit is. In a browser there is one thread for
// everything: asleep, it lets the page have its turn.
func (m *matching) progress(done, of int) {
	m.mu.Lock()
	m.done, m.of = done, of
	m.mu.Unlock()
	if runtime.GOOS == "js" && time.Since(m.asleep) > turnS {
		time.Sleep(time.Microsecond)
		m.asleep = time.Now()
	}
}

// matched is the answer to an observation if it was the last to be fitted; nil
// where it was not.
func (d *ringDesk) matched(key matchKey) *match.Result {
	if d.matching == nil || d.matching.key != key {
		return nil
	}
	d.matching.mu.Lock()
	defer d.matching.mu.Unlock()
	return d.matching.result
}

// floorNames are the names of a plan's floors, the lowest first.
func floorNames(p *building.Plan) []string {
	var names []string
	for _, f := range p.Floors {
		names = append(names, f.Name)
	}
	return names
}
