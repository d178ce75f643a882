package fitting

import (
	"context"

	"wheelroom/physics/building"
	"wheelroom/physics/match"
)

// Search is Match for somebody who waits. Between two pieces of its work, none
// of which is long, it calls progress, which may be nil, with the fits that are
// done and those foreseen so far: lamps that contradict each other make them
// more. Once ctx has ended, Search ends with its error and no result.
func Search(ctx context.Context, p *building.Plan, o *match.Observation, progress func(done, of int)) (*match.Result, error) {
	q := newQuestion(p, o)
	q.pace = &pace{ctx: ctx, progress: progress}
	r := q.answer(p)
	if err := ctx.Err(); err != nil {
		return nil, err // what was found until then is not the answer
	}
	return r, nil
}

// A pace is how far a search has come. The zero value is one nobody waits for.
type pace struct {
	ctx      context.Context
	progress func(done, of int)
	done, of int
}

// foresee adds fits that are going to be made.
func (p *pace) foresee(n int) { p.of += n }

// step ends a fit.
func (p *pace) step() {
	p.done++
	p.turn()
}

// turn ends a piece of work.
func (p *pace) turn() {
	if p.progress != nil {
		p.progress(p.done, p.of)
	}
}

// over reports whether the search is broken off. What is returned from then on
// has to hold together only: it is thrown away.
func (p *pace) over() bool { return p.ctx != nil && p.ctx.Err() != nil }
