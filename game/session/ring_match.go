package session

import (
	"wheelroom/game/errand"
	"wheelroom/physics/building"
	"wheelroom/physics/match"
)

// A RingSeen is what a passenger noted of one trip, what is to be done with it,
// and how the answer is to be shown.
type RingSeen struct {
	WorkStep             // of match
	Text         string  // CSV, as physics/match reads it
	SpeedMS      float64 // measured; 0: not
	SpeedErrorMS float64
	Which        string  // of answer: text, json, traces or panels
	TimeS        float64 // of panels, from the beginning of the answer's clock
	Width        float64
	Paper        bool
}

// longAgoS is the beginning of a lamp that was lit before anybody looked.
const longAgoS = -3600

// A RingMatched is how far a fit is and what it comes to: what is wrong with
// the observation's rows, or an answer.
type RingMatched struct {
	State    string       `json:"state"` // none, refused, running, done, cancelled or failed
	Done     int          `json:"done"`
	Of       int          `json:"of"`
	Task     *errand.Task `json:"task"` // for the worker, of one that was started just now
	Problems []RingRow    `json:"problems"`
	Reason   string       `json:"reason"` // of one that failed
	Answer   *RingAnswer  `json:"answer"` // of one that is done
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

// A matching is one fit under way or done, of the building as it was.
type matching struct {
	work
	key    matchKey
	plan   building.Plan
	seen   *match.Observation
	result match.Result // of one that is done
}

// ringMatch begins, watches or breaks off a fit.
func (a Asking) ringMatch(q RingSeen) (any, error) {
	d := &a.desks.ring
	out := RingMatched{State: "none", Problems: []RingRow{}}
	switch m := d.matching; {
	case !q.known():
		return nil, refuse("stage.unknown-question", "question", "ring/match/"+q.Do)
	case q.Do == "start":
		problems, err := a.startMatch(&q)
		if err != nil {
			return nil, err
		}
		if len(problems) > 0 {
			d.matching = nil // what was asked before is asked no longer
			out.State = "refused"
			for _, p := range problems {
				out.Problems = append(out.Problems, RingRow{p.Row, a.sentence(p.Say)})
			}
			return out, nil
		}
		out.Task = &errand.Task{Do: errand.Match, Building: string(building.Write(*a.plan)),
			Observed: q.Text, SpeedMS: q.SpeedMS, SpeedErrorMS: q.SpeedErrorMS}
	case m != nil:
		if err := m.take(q.WorkStep, &m.result); err != nil {
			return nil, err
		}
		m.result.Bind(&m.plan, m.seen)
	}
	m := d.matching
	if m == nil {
		return out, nil
	}
	out.State, out.Done, out.Of, out.Reason = m.state, m.done, m.of, m.reason
	if m.state == finished {
		out.Answer = a.answerOf(&m.result, &q)
	}
	return out, nil
}

// observed reads what was seen; with any problem the observation is nil.
func (a Asking) observed(q *RingSeen) (*match.Observation, []match.Problem, error) {
	if say, ok := match.CheckSpeed(q.SpeedMS, q.SpeedErrorMS); !ok {
		return nil, nil, Refusal{say}
	}
	seen, problems := match.Read([]byte(q.Text), a.plan.Names())
	if seen != nil {
		seen.SpeedMS, seen.SpeedErrorMS = q.SpeedMS, q.SpeedErrorMS
	}
	return seen, problems, nil
}

func (a Asking) matchKey(q *RingSeen) matchKey {
	return matchKey{string(a.text), q.Text, q.SpeedMS, q.SpeedErrorMS}
}

// startMatch puts a fit under way.
func (a Asking) startMatch(q *RingSeen) ([]match.Problem, error) {
	seen, problems, err := a.observed(q)
	if seen == nil {
		return problems, err
	}
	a.desks.ring.matching = &matching{work: work{state: underWay}, key: a.matchKey(q), plan: *a.plan, seen: seen}
	return nil, nil
}

// matched is the answer to an observation if it was the last to be fitted; nil
// where it was not.
func (d *ringDesk) matched(key matchKey) *match.Result {
	if d.matching == nil || d.matching.key != key || d.matching.state != finished {
		return nil
	}
	return &d.matching.result
}
