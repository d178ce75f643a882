package session

import (
	"context"
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
// touches nothing of the session.
type proving struct {
	plan   building.Plan
	cancel context.CancelFunc

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

// prove begins, watches or ends a proof, or opens its case on the stage.
func (s *Session) prove(do string) (Proving, error) {
	switch do {
	case "start":
		s.startProof()
	case "cancel":
		if s.desks.proof != nil {
			s.desks.proof.cancel()
		}
	case "open":
		if err := s.openCase(); err != nil {
			return Proving{}, err
		}
	case "look":
	default:
		return Proving{}, refuse("stage.unknown-question", "question", do)
	}
	return s.provingNow(), nil
}

// startProof sets a proof going beside everything else.
func (s *Session) startProof() {
	if s.desks.proof != nil {
		s.desks.proof.cancel()
	}
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
