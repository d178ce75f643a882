package tutor

// A State is a lesson in progress as plain data: where it is and what was
// done. A tutor that is given it plays the item again to the same moment, so
// it may be kept while everything else is lost. The zero value is no lesson.
type State struct {
	Lesson  string   `json:"lesson,omitempty"`
	Item    int      `json:"item,omitempty"`   // from 1
	Beats   int      `json:"beats,omitempty"`  // played in this item
	Events  int      `json:"events,omitempty"` // of its machine; more than the beats give after a step
	Actions []Action `json:"actions,omitempty"`
	Results []Result `json:"results,omitempty"` // of the whole lesson so far
	Done    bool     `json:"done,omitempty"`
}

// An Action is one thing done in an item, after so many beats of it.
type Action struct {
	Beat int    `json:"beat"`
	Do   string `json:"do"`
	Arg  string `json:"arg,omitempty"`
}

// State returns where the lesson stands. It shares nothing with the tutor.
func (t *Tutor) State() State {
	if t.phase == Closed {
		return State{}
	}
	return State{
		Lesson: t.lesson.ID, Item: t.index + 1, Beats: t.beats, Events: len(t.run.log.Events),
		Actions: append([]Action(nil), t.actions...), Results: append([]Result(nil), t.results...),
		Done: t.phase == Done,
	}
}

// mostBeats bounds what a kept state may ask to be played: ten minutes of the
// machine, more than any item lasts.
const mostBeats = 60000

// Restore brings a kept state back by playing it. A state that this lesson
// cannot have come to, because it was written by hand or the lesson has
// changed, is refused, and the tutor stays as it was.
func (t *Tutor) Restore(s State) error {
	if s.Lesson == "" {
		return t.Do("close", "")
	}
	other := New(t.lessons, t.make, t.words)
	other.made = t.made
	if err := other.open(s.Lesson); err != nil {
		return err
	}
	if s.Item < 1 || s.Item > len(other.lesson.Items) || s.Beats < 0 || s.Beats > mostBeats {
		return refuse("lesson.state-does-not-fit")
	}
	if err := other.enter(other.lesson, s.Item-1, earlier(s.Results, s.Item)); err != nil {
		return err
	}
	for _, a := range s.Actions {
		other.playTo(min(a.Beat, s.Beats))
		if a.Do == "open" || a.Do == "close" || a.Do == "next" || other.beats != a.Beat || other.Do(a.Do, a.Arg) != nil {
			return refuse("lesson.state-does-not-fit")
		}
	}
	other.playTo(s.Beats)
	for other.Moving() && len(other.run.log.Events) < s.Events && other.run.step() {
	}
	if other.beats != s.Beats || len(other.run.log.Events) != s.Events {
		return refuse("lesson.state-does-not-fit")
	}
	if s.Done {
		if err := other.Do("next", ""); err != nil || other.phase != Done {
			return refuse("lesson.state-does-not-fit")
		}
	}
	*t = *other
	return nil
}

// earlier keeps the results of the items before this one; its own is written
// again as it is played.
func earlier(results []Result, item int) []Result {
	var kept []Result
	for _, r := range results {
		if r.Item < item {
			kept = append(kept, r)
		}
	}
	return kept
}

// playTo lets beats pass up to the given count, as far as the phase allows.
func (t *Tutor) playTo(beats int) {
	for t.beats < beats && t.Moving() {
		t.beat()
	}
}
