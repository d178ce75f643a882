package session

import (
	"wheelroom/game/errand"
	"wheelroom/game/timeline"
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/proof"
)

// A proving is one proof under way or done, of the building as it was.
type proving struct {
	work
	plan   building.Plan
	report proof.Report // of one that is done
}

// A Proving is a proof as a page shows it.
type Proving struct {
	State  string       `json:"state"` // none, running, proved, refuted, cancelled or failed
	Done   int          `json:"done"`
	Of     int          `json:"of"`
	Task   *errand.Task `json:"task"` // for the worker, of one that was started just now
	Said   []string     `json:"said"`
	Scene  string       `json:"scene"` // what can be opened as a scene, "" for nothing
	Stale  bool         `json:"stale"` // of another building than the one on the stage
	Scheme string       `json:"scheme"`
}

// prove begins, watches or ends a proof, or opens its case on the stage.
func (s *Session) prove(q WorkStep) (Proving, error) {
	var task *errand.Task
	p := s.desks.proof
	switch {
	case q.Do == "open":
		if err := s.openCase(); err != nil {
			return Proving{}, err
		}
	case !q.known():
		return Proving{}, refuse("stage.unknown-question", "question", q.Do)
	case q.Do == "start":
		of := errand.ToProve(s.plan)
		task = &of
		s.desks.proof = &proving{work: work{state: underWay}, plan: *s.plan}
	case p != nil:
		if err := p.take(q, &p.report); err != nil {
			return Proving{}, err
		}
	}
	now := s.provingNow()
	now.Task = task
	return now, nil
}

func (s *Session) provingNow() Proving {
	p := s.desks.proof
	if p == nil {
		return Proving{State: "none", Said: []string{}}
	}
	now := Proving{State: p.state, Done: p.done, Of: p.of, Said: []string{}, Scheme: p.plan.Control.Scheme,
		Stale: string(building.Write(p.plan)) != string(building.Write(*s.plan))}
	switch p.state {
	case failed:
		now.Said = append(now.Said, s.o.Words(phrase.Of("stage.failed", "reason", p.reason)))
	case finished:
		now.State = "refuted"
		if p.report.Proved {
			now.State = "proved"
		}
		for _, said := range p.report.Say(&p.plan) {
			now.Said = append(now.Said, s.o.Words(said))
		}
		if c := p.scene(); c != nil {
			now.Scene = s.o.Words(phrase.Of("circuit.open-case"))
		}
	}
	return now
}

// scene is the case of the report that is worth seeing, nil for none: what
// refutes it, or, of a circuit that is proved, what its rule does not ask.
func (p *proving) scene() *proof.Case {
	if p.report.Proved {
		return p.report.Weaker
	}
	return p.report.Refuting()
}

// openCase puts the reader's machine where the case begins, its calls made.
func (s *Session) openCase() error {
	p := s.desks.proof
	if p == nil {
		return refuse("circuit.no-case")
	}
	if p.scene() == nil {
		return refuse("circuit.no-case")
	}
	if string(building.Write(p.plan)) != string(building.Write(*s.plan)) {
		return refuse("circuit.stale-case")
	}
	start, inputs := p.scene().Open(s.plan)
	m, err := lift.New(s.plan, start)
	if err != nil {
		return err
	}
	for _, in := range inputs {
		if wrong := m.Do(in); wrong.ID != "" {
			return Refusal{wrong}
		}
	}
	s.start = start
	s.free, s.aside = timeline.New(m), nil
	s.running = false
	s.say(phrase.Of("circuit.case-open"))
	s.look()
	s.touch()
	return nil
}
