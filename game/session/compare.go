package session

import (
	"math"
	"slices"
	"strings"

	"wheelroom/game/scene"
	"wheelroom/game/timeline"
	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/document"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/survey"
	"wheelroom/physics/trace"
)

// compared is the screen on which two runs stand side by side on one clock:
// two buildings, two schemes or two patterns of calls.
var compared = map[string]action{
	"form": taking(func(a Asking, _ struct{}) (any, error) { return a.compareForm(), nil }),
	"set":  taking(func(a Asking, q CompareSet) (any, error) { return a.compareSet(q) }),
	"work": taking(func(a Asking, q struct{ Seconds float64 }) (any, error) { return a.compareWork(q.Seconds) }),
	"see":  taking(func(a Asking, q CompareSee) (any, error) { return nil, a.compareSee(q) }),
	"draw": taking(func(a Asking, q CompareDraw) (any, error) { return a.compareDraw(q) }),
	"told": taking(func(a Asking, _ struct{}) (any, error) { return a.compareTold() }),
}

// A run to be compared ends when the lift has been idle for so long, and at
// the latest after so long, seconds.
const (
	compareIdleS = trace.IdleS
	compareMostS = 900.0
)

// compareDesk holds the two runs of the screen.
type compareDesk struct {
	sides [2]*compareSide
	atS   float64
}

// A compareSide is one of the two runs.
type compareSide struct {
	plan  *building.Plan
	run   *timeline.Run
	idleS float64 // since when it has been idle; less than 0 while it is busy
	done  bool

	view   lift.View
	calm   calm
	scenes map[CompareSize]*scene.Scene // looked up, never ranged over
}

// A CompareForm is what the screen offers.
type CompareForm struct {
	Buildings []Named         `json:"buildings"` // that ship; "" is the one on the stage
	Schemes   []Named         `json:"schemes"`
	Sides     [2]CompareFacts `json:"sides"` // what is set up; at first the run on the stage and the same under another scheme
}

// CompareFacts are one side as it is set up.
type CompareFacts struct {
	Building string   `json:"building"` // one that ships, "" for the one on the stage
	Scheme   string   `json:"scheme"`   // "" for the building's own
	Start    string   `json:"start"`
	Calls    string   `json:"calls"`
	Name     string   `json:"name"`   // of building and scheme
	Floors   []string `json:"floors"` // lowest first
}

// A CompareSet sets one side up.
type CompareSet struct {
	Side                           int
	Building, Scheme, Start, Calls string
	Fresh                          bool // the building is another one: calls that do not fit it are replaced
}

func (a Asking) compareForm() CompareForm {
	f := CompareForm{Buildings: []Named{{"", a.plan.Name}}, Schemes: []Named{}}
	for _, b := range a.o.Buildings {
		plan, _ := building.Read(b.ID, b.Text)
		f.Buildings = append(f.Buildings, Named{b.ID, plan.Name})
	}
	for _, name := range control.Schemes() {
		f.Schemes = append(f.Schemes, Named{name, a.o.Words(offered(name))})
	}
	calls, start := a.callsSoFar(), a.startFloor()
	if calls == "" {
		calls = sampleCalls(a.plan)
	}
	other := "interlocked"
	if a.plan.Control.Scheme == other {
		other = "directional"
	}
	f.Sides = [2]CompareFacts{{Calls: calls, Start: start}, {Calls: calls, Start: start, Scheme: other}}
	return f
}

// callsSoFar are the calls of the reader's run, as a screen writes them.
func (a Asking) callsSoFar() string {
	var calls []string
	for _, in := range a.free.End().Inputs() {
		if in.Kind == lift.Press {
			calls = append(calls, spell(in))
		}
	}
	return strings.Join(calls, ", ")
}

// sampleCalls is a pattern that tells the schemes apart: the lift is called to
// the floor below the highest, then to two floors behind it, and to the highest
// when it has just set off downwards.
func sampleCalls(p *building.Plan) string {
	n := len(p.Floors)
	call := func(f int, s float64) string { return p.Floors[f].Name + "@" + decimal(math.Round(s)) }
	if n < 4 {
		return call(n-1, 0) + ", " + call(0, 8)
	}
	arrival := p.Floors[n-2].HeightM/p.Machine.RatedSpeedMS + 3
	off := arrival + p.Door.OpenS + p.Door.DwellS + p.Door.CloseS + 3
	return call(n-2, 0) + ", " + call(n/2-1, arrival-2) + ", " + call(0, arrival-2) + ", " + call(n-1, off)
}

// compareSet sets one side up; if it cannot be, the side stays as it was.
func (a Asking) compareSet(q CompareSet) (CompareFacts, error) {
	if q.Side < 0 || q.Side > 1 {
		return CompareFacts{}, refuse("stage.bad-arguments", "question", "compare/set")
	}
	plan, err := a.comparePlan(q.Building, q.Scheme)
	if err != nil {
		return CompareFacts{}, err
	}
	start := 0
	if q.Start != "" {
		// A floor the other building lacks is the lowest here.
		start = max(plan.Floor(q.Start), 0)
	}
	m, err := lift.New(plan, lift.Options{Start: start})
	if err != nil {
		return CompareFacts{}, err
	}
	calls, err := compareCalls(plan, q.Calls)
	if err != nil && q.Fresh {
		calls, err = compareCalls(plan, sampleCalls(plan))
	}
	if err != nil {
		return CompareFacts{}, err
	}
	facts := CompareFacts{Building: q.Building, Scheme: q.Scheme, Start: plan.Floors[start].Name, Floors: []string{}}
	var spelt []string
	for _, in := range calls {
		if p := m.Do(in); p.ID != "" {
			return CompareFacts{}, Refusal{p}
		}
		spelt = append(spelt, spell(in))
	}
	facts.Calls = strings.Join(spelt, ", ")
	for i := range plan.Floors {
		facts.Floors = append(facts.Floors, plan.Floors[i].Name)
	}
	facts.Name = a.o.Words(phrase.Of("compare.run-name", "building", plan.Name, "scheme", control.Name(plan.Control.Scheme)))
	s := &compareSide{plan: plan, run: timeline.New(m), idleS: -1, scenes: map[CompareSize]*scene.Scene{}}
	m.Look(&s.view)
	s.calm.see(&s.view, false)
	a.desks.compare.sides[q.Side] = s
	return facts, nil
}

// comparePlan is a building that ships, or the one on the stage, with another
// scheme where one is named.
func (a Asking) comparePlan(id, scheme string) (*building.Plan, error) {
	text := a.text
	if id != "" {
		i := slices.IndexFunc(a.o.Buildings, func(b Building) bool { return b.ID == id })
		if i < 0 {
			return nil, refuse("stage.unknown-building", "building", cutShort(id))
		}
		text = a.o.Buildings[i].Text
	}
	if scheme != "" {
		changed, err := a.edit(Edit{Text: string(text), Do: "set", Path: "control.scheme", Value: scheme})
		if err != nil {
			return nil, err
		}
		text = []byte(changed)
	}
	plan, problems := survey.Read("", text)
	if document.Failed(problems) {
		return nil, FileError{problems}
	}
	return &plan, nil
}

// compareCalls reads a pattern of calls, parted by commas or spaces. So that
// one pattern may serve two schemes, a call without a kind is a call from the
// car where each floor has several buttons, and a kind is passed over where it
// has one.
func compareCalls(p *building.Plan, text string) ([]lift.Input, error) {
	var list []lift.Input
	for _, call := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' || r == '\n' || r == ';' }) {
		in, wrong := trace.ReadCall(p, call)
		floor, at, _ := strings.Cut(call, "@")
		switch wrong.ID {
		case "call.which-button":
			in, wrong = trace.ReadCall(p, floor+":car@"+at)
		case "call.one-button":
			floor, _, _ = strings.Cut(floor, ":")
			in, wrong = trace.ReadCall(p, floor+"@"+at)
		}
		if wrong.ID != "" {
			return nil, Refusal{wrong}
		}
		if in.TimeS > compareMostS || len(list) >= 200 {
			return nil, refuse("compare.too-much", "most", int(compareMostS), "calls", 200)
		}
		list = append(list, in)
	}
	if len(list) == 0 {
		return nil, refuse("compare.no-calls")
	}
	slices.SortStableFunc(list, func(a, b lift.Input) int {
		switch {
		case a.TimeS < b.TimeS:
			return -1
		case a.TimeS > b.TimeS:
			return 1
		}
		return 0
	})
	return list, nil
}

// both returns the two sides, once both are set up.
func (a Asking) both() (*compareDesk, error) {
	d := &a.desks.compare
	if d.sides[0] == nil || d.sides[1] == nil {
		return nil, refuse("compare.not-set")
	}
	return d, nil
}

// CompareWork is how far the runs have been worked out.
type CompareWork struct {
	Done bool    `json:"done"`
	EndS float64 `json:"endS"` // of the longer run, so far
}

// compareWork runs both lifts on by so many seconds of theirs, to the end of
// their work at most.
func (a Asking) compareWork(seconds float64) (CompareWork, error) {
	d, err := a.both()
	if err != nil {
		return CompareWork{}, err
	}
	w := CompareWork{Done: true}
	for _, s := range d.sides {
		s.work(min(max(seconds, 0), 60))
		w.Done = w.Done && s.done
		w.EndS = max(w.EndS, s.run.End().TimeS())
	}
	return w, nil
}

func (s *compareSide) work(seconds float64) {
	s.run.Return()
	end := s.run.End()
	for seconds > 0 && !s.done {
		seconds = s.run.Advance(seconds)
		now := end.TimeS()
		switch {
		case !end.Idle() || !end.AllDone():
			s.idleS = -1
		case s.idleS < 0:
			s.idleS = now
		}
		s.done = end.Stopped() != "" || now >= compareMostS || s.idleS >= 0 && now-s.idleS >= compareIdleS
	}
}

// A CompareSee is a moment of both runs, and the viewer's clock, so that
// nothing flashes while time passes.
type CompareSee struct {
	TimeS   float64
	NowS    float64 // the viewer's
	Running bool
	Pace    float64
}

// compareSee brings both runs to a moment; one that has ended stays at its
// end.
func (a Asking) compareSee(q CompareSee) error {
	d, err := a.both()
	if err != nil {
		return err
	}
	if math.IsNaN(q.TimeS) {
		return refuse("time.bad-moment")
	}
	d.atS = max(q.TimeS, 0)
	for _, s := range d.sides {
		s.to(d.atS)
		s.run.Machine().Look(&s.view)
		s.calm.clockS = q.NowS
		s.calm.see(&s.view, q.Running)
	}
	return nil
}

// to brings the run to a time: a little further by running on, else from its
// history.
func (s *compareSide) to(timeS float64) {
	now := s.run.Machine().TimeS()
	if !s.run.Looking() || timeS < now || timeS > now+1 {
		s.run.At(timeS)
		return
	}
	for left := timeS - now; left > lift.GridS/2 && s.run.Looking(); {
		left = s.run.Advance(left)
	}
}

// A CompareSize is one drawing of one side: its picture and its size.
type CompareSize struct {
	Picture       string
	Width, Height float64
}

// A CompareDraw asks for a drawing of one side at the moment both are at.
type CompareDraw struct {
	Side          int
	Picture       string
	Width, Height float64
	Moving        bool
	Pace          float64
}

func (a Asking) compareDraw(q CompareDraw) (string, error) {
	d, err := a.both()
	i := slices.IndexFunc(pictures, func(p scene.Picture) bool { return p.String() == q.Picture })
	switch {
	case err != nil:
		return "", err
	case q.Side < 0 || q.Side > 1 || i < 0:
		return "", refuse("stage.bad-arguments", "question", "compare/draw")
	}
	s := d.sides[q.Side]
	key := CompareSize{q.Picture, clampSize(q.Width, 150), clampSize(q.Height, 100)}
	sc := s.scenes[key]
	if sc == nil || !q.Moving {
		if len(s.scenes) > 8 {
			clear(s.scenes)
		}
		sc = scene.New(s.plan, s.run.End().Wiring(), scene.Options{Width: key.Width, Height: key.Height, Picture: pictures[i], Words: a.o.Words})
		s.scenes[key] = sc
	}
	sc.Pace(q.Pace)
	moving := sc.Moving(s.calm.shown(), s.run.Chart())
	if q.Moving {
		return a.draw(moving)
	}
	return a.draw(sc.Still())
}

// clampSize keeps a drawing from being too small to lay out or too large to
// draw.
func clampSize(v, least float64) float64 {
	if !(v >= least) {
		return least
	}
	return min(v, 4000)
}
