package session

import (
	"context"
	"errors"
	"runtime"
	"sync"
	"time"

	"wheelroom/game/timeline"
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/proof"
)

// A proving is one proof under way or done. It works on a plan of its own and
// touches nothing of the session. The page has a worker do it and brings what
// comes of it; where there are no workers it is done here.
type proving struct {
	plan   building.Plan
	cancel context.CancelFunc // nil for one that is made elsewhere

	mu       sync.Mutex
	done, of int
	report   *proof.Report
	err      error
	over     bool
}

// A Proving is a proof as a page shows it.
type Proving struct {
	State  string   `json:"state"` // none, running, proved, refuted, cancelled or failed
	Done   int      `json:"done"`
	Of     int      `json:"of"`
	Said   []string `json:"said"`
	Scene  string   `json:"scene"` // what can be opened as a scene, "" for nothing
	Stale  bool     `json:"stale"` // of another building than the one on the stage
	Scheme string   `json:"scheme"`
}

// A ProofStep is what a page wants of a proof: to "start" one here, or to
// "begin" one elsewhere of which it then tells, "done" of how much, and brings
// the "report" or why there is none, "failed"; to "cancel" it, "look" at it, or
// "open" its case.
type ProofStep struct {
	Do       string
	Done, Of int
	Report   *proof.Report
	Reason   string
}

// prove begins, watches or ends a proof, or opens its case on the stage.
func (s *Session) prove(q ProofStep) (Proving, error) {
	switch q.Do {
	case "start":
		s.startProof()
	case "begin":
		s.cancelProof()
		s.desks.proof = &proving{plan: *s.plan}
	case "done", "report", "failed":
		s.tellProof(q)
	case "cancel":
		s.cancelProof()
	case "open":
		if err := s.openCase(); err != nil {
			return Proving{}, err
		}
	case "look":
	default:
		return Proving{}, refuse("stage.unknown-question", "question", q.Do)
	}
	return s.provingNow(), nil
}

// cancelProof breaks off a proof under way.
func (s *Session) cancelProof() {
	p := s.desks.proof
	if p == nil {
		return
	}
	if p.cancel != nil {
		p.cancel()
		return
	}
	if p.mu.Lock(); !p.over {
		p.over, p.err = true, context.Canceled
	}
	p.mu.Unlock()
}

// tellProof takes in what is told of a proof made elsewhere. What is told of
// none, or after its end, is late and means nothing.
func (s *Session) tellProof(q ProofStep) {
	p := s.desks.proof
	if p == nil || p.cancel != nil || p.over {
		return
	}
	switch {
	case q.Do == "done":
		p.done, p.of = q.Done, q.Of
	case q.Report != nil:
		p.over, p.report = true, q.Report
	default:
		p.over, p.err = true, errors.New(q.Reason)
	}
}

// startProof sets a proof going beside everything else.
func (s *Session) startProof() {
	s.cancelProof()
	ctx, cancel := context.WithCancel(context.Background())
	p := &proving{plan: *s.plan, cancel: cancel}
	s.desks.proof = p
	go func() {
		report, err := proof.Prove(ctx, proof.Question{Plan: &p.plan}, p.progress)
		p.mu.Lock()
		defer p.mu.Unlock()
		p.over, p.err = true, err
		if err == nil {
			p.report = &report
		}
	}()
}

// progress notes how far the proof is. In a browser there is one thread for
// everything: asleep, it lets the page have its turn.
func (p *proving) progress(done, of int) {
	p.mu.Lock()
	p.done, p.of = done, of
	p.mu.Unlock()
	if runtime.GOOS == "js" {
		time.Sleep(time.Microsecond)
	}
}

func (s *Session) provingNow() Proving {
	p := s.desks.proof
	if p == nil {
		return Proving{State: "none", Said: []string{}}
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	now := Proving{State: "running", Done: p.done, Of: p.of, Said: []string{}, Scheme: p.plan.Control.Scheme,
		Stale: string(building.Write(p.plan)) != string(building.Write(*s.plan))}
	switch {
	case !p.over:
		return now
	case p.err != nil && context.Canceled.Error() == p.err.Error():
		now.State = "cancelled"
	case p.err != nil:
		now.State = "failed"
		now.Said = append(now.Said, s.o.Words(phrase.Of("stage.failed", "reason", p.err.Error())))
	default:
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

// scene is the case of the report that is worth seeing, nil for none.
func (p *proving) scene() *proof.Case {
	for _, c := range []*proof.Case{p.report.Wrong, p.report.Lost, p.report.Weaker} {
		if c != nil {
			return c
		}
	}
	return nil
}

// openCase puts the reader's machine where the case begins, its calls made.
func (s *Session) openCase() error {
	p := s.desks.proof
	if p == nil {
		return refuse("circuit.no-case")
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.report == nil || p.scene() == nil {
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
