package tutor

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"wheelroom/lessons/script"
	"wheelroom/physics/phrase"
)

// Phase is where a lesson stands.
type Phase string

// The phases of an item, in the order in which they come. A worked item has
// nothing to commit to and goes from LeadIn to Committed, and from its last
// segment to Explained.
const (
	Closed    Phase = ""          // no lesson open
	LeadIn    Phase = "lead-in"   // runs up to the frozen frame
	Asked     Phase = "asked"     // frozen; an answer may be chosen, and changed
	Committed Phase = "committed" // frozen; the answer stands for good
	Running   Phase = "running"   // the asked run moves
	Paused    Phase = "paused"    // between two segments of it
	Observe   Phase = "observe"   // what happened?
	Explained Phase = "explained" // outcome, verdict and explanations are open
	Done      Phase = "done"      // the last item is over
)

// A Tutor leads through one lesson at a time. It owns the machine of the item
// and is the only one to move it: before an answer is committed the asked run
// has not been computed, so nothing can show it.
type Tutor struct {
	lessons []*script.Lesson
	make    Maker
	words   func(phrase.Phrase) string

	lesson   *script.Lesson
	index    int // item, from 0
	phase    Phase
	chosen   string // an answer in its one spelling, see script.Form
	sure     int    // how sure of it: 1 to Sure, 0 not said
	seen     string // what the learner is about to say happened
	observed string
	segment  int  // running, or the next to run
	replay   bool // the run is shown again; it has been answered
	run      *run
	told     []script.Log // the log as it stood at the end of each segment
	finished *script.Log  // the log of the whole item, once it has run to its end
	made     int          // machines made so far

	carryS  float64 // machine time owed, less than a beat
	beats   int     // played in this item, replays included
	actions []Action
	results []Result
}

// A Result is what became of one item. It is written once.
type Result struct {
	Item     int    `json:"item"`               // from 1
	Chosen   string `json:"chosen,omitempty"`   // "" when it was passed over
	Sure     int    `json:"sure,omitempty"`     // 1 guessing to Sure certain, 0 not said
	Observed string `json:"observed,omitempty"` // what the learner saw happen
	Right    bool   `json:"right,omitempty"`
}

// A Refusal is the error of an action that is not possible now.
type Refusal struct{ Phrase phrase.Phrase }

// Error spells the refusal without words, for logs.
func (r Refusal) Error() string { return "tutor: " + r.Phrase.String() }

func refuse(id string, pairs ...any) error { return Refusal{phrase.Of(id, pairs...)} }

// New returns a tutor for the lessons, with none open. words turns phrases into
// the reader's language.
func New(lessons []*script.Lesson, make Maker, words func(phrase.Phrase) string) *Tutor {
	return &Tutor{lessons: lessons, make: make, words: words}
}

// Lessons returns the lessons that can be opened.
func (t *Tutor) Lessons() []*script.Lesson { return t.lessons }

// Lesson returns the open lesson, nil when none is open.
func (t *Tutor) Lesson() *script.Lesson { return t.lesson }

// Building names the building of the open item, if it is one that ships as it
// is.
func (t *Tutor) Building() string {
	if t.lesson == nil {
		return ""
	}
	return t.item().Building
}

// Results returns what became of the items so far, since the lesson was
// opened.
func (t *Tutor) Results() []Result { return slices.Clone(t.results) }

// Phase returns where the lesson stands.
func (t *Tutor) Phase() Phase { return t.phase }

// Machine returns the machine of the open item, nil when no lesson is open. It
// may be looked at and must not be moved.
func (t *Tutor) Machine() Machine {
	if t.run == nil {
		return nil
	}
	return t.run.machine
}

// Made counts the machines made so far: when it has changed, Machine is
// another one.
func (t *Tutor) Made() int { return t.made }

// Do carries out one action. The actions and their arguments:
//
//	open ID or ID/N   a lesson, at its first item, at item N (from 1) or, N
//	                  being "review", at its first item for review
//	choose ANSWER     an answer, perhaps unfinished; may be changed until it is committed
//	sure N            how sure of it, 1 guessing to 3 certain, 0 not said
//	commit            makes the answer stand
//	continue          runs the next segment
//	see ANSWER        what the learner saw happen, perhaps unfinished; may be changed until it is handed in
//	observe ANSWER    hands in what the learner saw happen; "" for what "see" said
//	again             shows the run of the item once more
//	next              goes on; from a question it passes the item over
//	close             leaves the lesson
//
// An action that is not possible now changes nothing; its error is a Refusal.
func (t *Tutor) Do(action, arg string) error {
	switch action {
	case "open":
		return t.open(arg)
	case "close":
		*t = Tutor{lessons: t.lessons, make: t.make, words: t.words, made: t.made}
		return nil
	}
	do, ok := t.action(action)
	if !ok {
		return refuse("lesson.unknown-action", "found", action)
	}
	if t.phase == Closed {
		return refuse("lesson.not-open")
	}
	at := t.beats
	if err := do(arg); err != nil {
		return err
	}
	if action != "next" {
		t.note(Action{Beat: at, Do: action, Arg: arg})
	}
	return nil
}

// note keeps an action for a later replay. Of one mind changed again and again
// the last state is enough.
func (t *Tutor) note(a Action) {
	if k := len(t.actions) - 1; k >= 0 && t.actions[k].Do == a.Do && (a.Do == "choose" || a.Do == "sure" || a.Do == "see") {
		t.actions[k] = a
		return
	}
	t.actions = append(t.actions, a)
}

func (t *Tutor) action(name string) (func(arg string) error, bool) {
	switch name {
	case "choose":
		return t.choose, true
	case "sure":
		return t.surely, true
	case "commit":
		return t.commit, true
	case "continue":
		return t.proceed, true
	case "see":
		return t.see, true
	case "observe":
		return t.observe, true
	case "again":
		return t.again, true
	case "next":
		return t.next, true
	}
	return nil, false
}

func (t *Tutor) item() *script.Item { return &t.lesson.Items[t.index] }

// review is what stands for the number of the first item for review.
const review = "review"

func (t *Tutor) open(arg string) error {
	id, number, numbered := strings.Cut(arg, "/")
	i := slices.IndexFunc(t.lessons, func(l *script.Lesson) bool { return l.ID == id })
	if i < 0 {
		return refuse("lesson.unknown-lesson", "found", id)
	}
	lesson, n := t.lessons[i], 1
	lesson.Open()
	switch {
	case number == review && lesson.Reviewed() <= len(lesson.Items):
		n = lesson.Reviewed()
	case numbered:
		var err error
		if n, err = strconv.Atoi(number); err != nil || n < 1 || n > len(lesson.Items) {
			return refuse("lesson.unknown-item", "found", number, "items", len(lesson.Items))
		}
	}
	return t.enter(lesson, n-1, nil)
}

// enter starts an item from its first instant. If its machine cannot be made
// the tutor stays where it was.
func (t *Tutor) enter(lesson *script.Lesson, index int, results []Result) error {
	run, err := begin(&lesson.Items[index], t.make)
	if err != nil {
		return refuse("lesson.no-machine", "reason", err.Error())
	}
	*t = Tutor{lessons: t.lessons, make: t.make, words: t.words, made: t.made + 1,
		lesson: lesson, index: index, run: run, phase: LeadIn, results: results}
	t.run.stretch()
	return nil
}

func (t *Tutor) choose(answer string) error {
	if t.phase != Asked {
		return refuse("lesson.cannot-choose")
	}
	tidy, ok := t.item().Tidy(answer)
	if !ok {
		return refuse("lesson.unknown-answer", "found", shown(answer))
	}
	t.chosen = tidy
	return nil
}

// shown cuts what somebody typed to what a sentence can quote.
func shown(s string) string {
	return strings.ToValidUTF8(s[:min(len(s), 40)], "")
}

// Sure is how sure one can be at most.
const Sure = 3

func (t *Tutor) surely(how string) error {
	n, err := strconv.Atoi(how)
	switch {
	case t.phase != Asked:
		return refuse("lesson.cannot-choose")
	case err != nil || n < 0 || n > Sure:
		return refuse("lesson.unknown-answer", "found", shown(how))
	}
	t.sure = n
	return nil
}

func (t *Tutor) commit(string) error {
	switch {
	case t.phase != Asked:
		return refuse("lesson.cannot-commit")
	case t.chosen == "":
		return refuse("lesson.choose-first")
	case !t.item().Form.Whole(t.chosen):
		return refuse("lesson.answer-unfinished")
	}
	t.phase = Committed
	return nil
}

// proceed begins the next segment.
func (t *Tutor) proceed(string) error {
	if t.phase != Committed && t.phase != Paused {
		return refuse("lesson.cannot-continue")
	}
	t.phase = Running
	t.run.stretch()
	return nil
}

func (t *Tutor) see(answer string) error {
	if t.phase != Observe {
		return refuse("lesson.cannot-observe")
	}
	tidy, ok := t.item().Tidy(answer)
	if !ok {
		return refuse("lesson.unknown-answer", "found", shown(answer))
	}
	t.seen = tidy
	return nil
}

func (t *Tutor) observe(answer string) error {
	if t.phase != Observe {
		return refuse("lesson.cannot-observe")
	}
	if answer == "" {
		answer = t.seen
	}
	tidy, ok := t.item().Tidy(answer)
	switch {
	case !ok:
		return refuse("lesson.unknown-answer", "found", shown(answer))
	case !t.item().Form.Whole(tidy):
		return refuse("lesson.answer-unfinished")
	}
	t.observed = tidy
	t.explain()
	return nil
}

// explain opens the outcome and writes the result down.
func (t *Tutor) explain() {
	t.phase = Explained
	if t.item().Asks() {
		t.results = append(t.results, Result{Item: t.index + 1, Chosen: t.chosen, Sure: t.sure, Observed: t.observed, Right: t.right(t.chosen)})
	}
}

// right reports whether an answer is what the machine did in the run that has
// just ended.
func (t *Tutor) right(answer string) bool {
	return t.finished != nil && t.item().Correct(answer, t.finished)
}

// again goes back to the frozen frame of the same item. The answer and the
// result stay as they are.
func (t *Tutor) again(string) error {
	if t.phase != Explained {
		return refuse("lesson.cannot-repeat")
	}
	run, err := begin(t.item(), t.make)
	if err != nil {
		return refuse("lesson.no-machine", "reason", err.Error())
	}
	run.lead()
	t.run, t.made, t.replay = run, t.made+1, true
	t.phase, t.segment, t.told, t.carryS = Committed, 0, nil, 0
	return nil
}

func (t *Tutor) next(string) error {
	results := t.results
	switch t.phase {
	case Explained:
	case Asked:
		results = append(results, Result{Item: t.index + 1})
	default:
		return refuse("lesson.cannot-go-on")
	}
	if t.index+1 < len(t.lesson.Items) {
		return t.enter(t.lesson, t.index+1, results)
	}
	t.results, t.phase = results, Done
	return nil
}

// Moving reports whether Tick lets time pass now.
func (t *Tutor) Moving() bool { return t.phase == LeadIn || t.phase == Running }

// Tick lets dt seconds of the viewer's clock pass. The machine moves only in
// the lead-in and in a segment of a committed run, at the speed the lesson
// gives it, and stops at the end of either; time left over is dropped.
func (t *Tutor) Tick(dt float64) {
	if !t.Moving() {
		return
	}
	t.carryS += dt * t.Speed()
	for t.carryS >= beatS-1e-9 {
		t.carryS -= beatS
		if !t.beat() {
			return
		}
	}
}

// Step lets time pass to the very instant of the next event, at most to the
// end of the stretch, and reports whether there was one. From a pause it
// begins the next segment, as continue does.
func (t *Tutor) Step() bool {
	if t.phase == Committed || t.phase == Paused {
		_ = t.Do("continue", "")
	}
	if !t.Moving() {
		return false
	}
	for {
		if t.run.step() {
			if t.over() {
				t.beat()
			}
			return true
		}
		if !t.beat() {
			return false
		}
	}
}

// over reports whether the stretch that now runs has come to its end.
func (t *Tutor) over() bool {
	if t.phase == LeadIn {
		return t.run.over(t.item().Lead.Until, t.item().Lead.Speed)
	}
	s := t.item().Segments[t.segment]
	return t.run.over(s.Until, s.Speed)
}

// Speed returns how many seconds of the machine one second of the viewer's
// clock is in the present stretch.
func (t *Tutor) Speed() float64 {
	switch {
	case t.phase == LeadIn:
		return t.item().Lead.Speed
	case t.lesson != nil && t.segment < len(t.item().Segments):
		return t.item().Segments[t.segment].Speed
	}
	return 1
}

// beat lets one beat pass and reports whether the stretch goes on.
func (t *Tutor) beat() bool {
	t.run.beat()
	t.beats++
	if !t.over() {
		return true
	}
	t.carryS = 0
	if t.phase == LeadIn {
		t.run.freeze()
		t.phase = Asked
		if !t.item().Asks() {
			t.phase = Committed
		}
		return false
	}
	t.segment++
	t.run.log.Whys = t.run.whys(false)
	t.told = append(t.told, t.run.log)
	t.pause()
	return false
}

// pause ends a segment: between two it waits, after the last it asks what
// happened, once.
func (t *Tutor) pause() {
	if t.segment < len(t.item().Segments) {
		t.phase = Paused
		return
	}
	whole := t.run.log
	t.finished = &whole
	switch {
	case t.replay:
		t.phase = Explained
	case t.item().Asks():
		t.phase = Observe
	default:
		t.explain()
	}
}

// IsRefusal reports whether err is a Refusal and returns its phrase.
func IsRefusal(err error) (phrase.Phrase, bool) {
	var r Refusal
	ok := errors.As(err, &r)
	return r.Phrase, ok
}
