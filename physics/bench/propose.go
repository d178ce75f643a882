package bench

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/lamp"
	"wheelroom/physics/phrase"
)

// A Proposal is a ring in which a dark interval parts every two lamps.
type Proposal struct {
	Selector building.Selector // the plan's, with the changed values
	Says     []phrase.Phrase   // what is to be changed, and what comes of it
	DarkM    float64           // the shortest dark interval
}

// An Advice is the answer to whether the plan's ring can part all lamps: the
// argument, and the rings that do.
type Advice struct {
	Possible  bool            // with the plan's number of terminals
	Argument  []phrase.Phrase // why not, or where to put them
	Proposals []Proposal      // the nearest to the plan first
}

// What a ring needs so that it can be built, not only drawn.
const (
	leastPhase   = 0.04 // pitches by which the terminals may be out: common practice, no source
	usualSum     = 1.15 // of the default widths
	mostPerFloor = 8    // of a building file
)

// Propose looks for rings that give a dark interval at every boundary, long
// enough to be seen at full speed: with the plan's terminals at another phase,
// with more terminals, with fewer of them joined. It tries all phases of each,
// so where there is none with the plan's number of terminals, that is shown.
//
// Joins made by hand are left out of account, and out of the proposals.
func Propose(p *building.Plan) Advice {
	s := &p.Selector
	var a Advice
	l := newLayout(p, s.TerminalsPerFloor, s.LiveTerminals)
	phases, ok := l.allParted()
	a.Possible = ok
	if ok {
		if now := Lay(p); now.allSeen() {
			a.Argument = []phrase.Phrase{phrase.Of("bench.already", now.gives()...)}
			return a
		}
		a.Argument = []phrase.Phrase{phrase.Of("bench.possible", "per-floor", document.Plain(s.TerminalsPerFloor),
			"first", metres(l.firstM(phases.middle())))}
		a.add(p, s.TerminalsPerFloor, s.LiveTerminals)
	} else {
		a.Argument = l.shown(p, s.TerminalsPerFloor)
	}
	// More terminals, in hundredths and in whole ones, which divide more easily.
	for _, step := range []float64{100, 1} {
		if step > 1 && ok {
			continue // the plan's own number does
		}
		for n := math.Floor(s.TerminalsPerFloor*step) + 1; n <= mostPerFloor*step; n++ {
			if a.add(p, n/step, s.LiveTerminals) {
				break
			}
		}
	}
	for live := s.LiveTerminals - 1; live > 0; live-- {
		if a.add(p, s.TerminalsPerFloor, live) {
			break
		}
	}
	if len(a.Proposals) == 0 {
		a.Argument = append(a.Argument, phrase.Of("bench.nothing", "most", mostPerFloor, "live", s.LiveTerminals))
	}
	return a
}

// add proposes the ring of so many terminals at its best phase, if it has one
// and has not been proposed; it reports whether there is such a ring.
func (a *Advice) add(p *building.Plan, perFloor float64, live int) bool {
	l := newLayout(p, perFloor, live)
	phases, ok := l.allParted()
	if !ok || phases.width() < leastPhase {
		return false
	}
	q := *p
	s := &q.Selector
	s.TerminalsPerFloor, s.LiveTerminals, s.Joins = perFloor, live, nil
	first := math.Round(1000*l.firstM(phases.middle())) / 1000
	s.FirstTerminalM = &first
	widen := s.TerminalWidth+s.BrushWidth <= 1 || !darkSeen(l, s, p.Machine.RatedSpeedMS)
	if widen {
		s.TerminalWidth = min(s.TerminalWidth, usualSum-0.05)
		s.BrushWidth = math.Round(1000*(usualSum-s.TerminalWidth)) / 1000
	}
	r := Lay(&q)
	if !r.allSeen() {
		return false
	}
	for _, found := range r.Problems {
		if found.Grave {
			return false
		}
	}
	for _, other := range a.Proposals {
		if other.Selector.TerminalsPerFloor == perFloor && other.Selector.LiveTerminals == live {
			return true
		}
	}

	which := phrase.Of("bench.propose-terminals", "per-floor", document.Plain(perFloor), "first", phrase.Num(first, 3))
	switch {
	case live != p.Selector.LiveTerminals:
		which = phrase.Of("bench.propose-live", "count", live, "first", phrase.Num(first, 3))
	case perFloor == p.Selector.TerminalsPerFloor:
		which = phrase.Of("bench.propose-phase", "per-floor", document.Plain(perFloor), "first", phrase.Num(first, 3))
	}
	says := []phrase.Phrase{which}
	if widen {
		says = append(says, phrase.Of("bench.propose-widths", "terminal", phrase.Num(s.TerminalWidth, 2), "brush", phrase.Num(s.BrushWidth, 2)))
	}
	says = append(says, phrase.Of("bench.propose-gives", r.gives()...))
	a.Proposals = append(a.Proposals, Proposal{Selector: *s, Says: says, DarkM: r.shortest()})
	return true
}

// darkSeen reports whether one blank terminal gives a dark interval that is
// seen at full speed.
func darkSeen(l layout, s *building.Selector, fullMS float64) bool {
	return lamp.Sees((2-s.TerminalWidth-s.BrushWidth)*l.pitchM/fullMS) == lamp.Seen
}

// allSeen reports whether every floor has a lamp that is lit at its landing
// without blinking, and every boundary a dark interval that is seen.
func (r *Report) allSeen() bool {
	for f := range r.Plan.Floors {
		if len(r.Ring.Lit(f)) != 1 || !r.Ring.Feeds(f, r.Plan.Floors[f].HeightM) {
			return false
		}
	}
	for _, b := range r.Boundaries {
		if b.DarkM == 0 || b.Sight != lamp.Seen {
			return false
		}
	}
	return true
}

func (r *Report) shortest() float64 {
	least := math.Inf(1)
	for _, b := range r.Boundaries {
		least = min(least, b.DarkM)
	}
	return least
}

func (r *Report) gives() []any {
	return []any{"dark", phrase.Num(r.shortest(), 3), "seconds", phrase.Num(r.shortest()/r.FullMS, 2)}
}

// shown argues that whatever the phase some boundary has no blank terminal: by
// a storey that is too low by itself, or by counting pitches over a run of
// storeys, or else phase by phase.
func (l layout) shown(p *building.Plan, perFloor float64) []phrase.Phrase {
	out := []phrase.Phrase{phrase.Of("bench.shown", "per-floor", document.Plain(math.Round(1000*perFloor)/1000))}
	n := len(l.places)
	for run := 1; run < n; run++ {
		for f := 0; f+run < n; f++ {
			pitches := l.places[f+run] - l.places[f]
			// Terminals are whole, so the ring gives a run at most its pitches
			// rounded up.
			gives, need := int(math.Ceil(pitches-2*tie)), run*(l.live+1)
			if gives >= need {
				continue
			}
			slots := []any{"below", p.Floors[f].Name, "above", p.Floors[f+run].Name, "pitches", phrase.Num(pitches, 2),
				"live", l.live, "need", need}
			if run == 1 {
				return append(out, phrase.Of("bench.shown-storey",
					append(slots, "storey", phrase.Num(p.Floors[f+1].HeightM-p.Floors[f].HeightM, 3))...))
			}
			return append(out, phrase.Of("bench.shown-travel",
				append(slots, "count", run, "each", l.live+1, "gives", gives)...))
		}
	}
	return append(append(out, l.phaseByPhase(p)...), phrase.Of("bench.shown-no-other"))
}

// metres shows a height in millimetres, without a minus before nothing.
func metres(v float64) phrase.Number { return phrase.Num(math.Round(1000*v)/1000+0, 3) }

// phaseByPhase names, for every phase, a boundary without a blank terminal,
// each boundary for as long as it serves.
func (l layout) phaseByPhase(p *building.Plan) []phrase.Phrase {
	var out []phrase.Phrase
	all := l.stretches()
	for i := 0; i < len(all); {
		best, until := 0, i
		for f := range len(l.places) - 1 {
			k := i
			for k < len(all) && !l.parted(f, all[k].middle()) {
				k++
			}
			if k > until {
				best, until = f, k
			}
		}
		if until == i {
			panic("bench: a phase that parts every boundary was said not to be there")
		}
		out = append(out, phrase.Of("bench.shown-phase", "below", p.Floors[best].Name, "above", p.Floors[best+1].Name,
			"from", metres(l.firstM(all[until-1].b)), "to", metres(l.firstM(all[i].a))))
		i = until
	}
	return out
}
