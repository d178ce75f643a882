package script

import (
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
)

// A Lesson is one lesson file, read and checked as far as it can be without
// running the machine.
type Lesson struct {
	ID       string // of the address, and of the file's name
	Version  int
	Title    string
	Level    Level
	Group    string // of the list of lessons: "wheel", "rim", …
	Aims     []string
	Caution  Prose  // shown beside every item of the lesson, empty for none
	Building string // one that ships, "" for a building of the lesson's own
	Terms    []Term
	Items    []Item // those of the lesson, then those for review
	Language string // of its texts where it is another than the reader's, else ""
	file     string // its name and text, to place problems in
	text     []byte

	contents Contents // of a lesson not yet read
	later    func() *Lesson
}

// Reviewed returns the number of the first item for review, counted from 1;
// one more than there are items if there is none.
func (l *Lesson) Reviewed() int {
	for i := range l.Items {
		if l.Items[i].Review {
			return i + 1
		}
	}
	return len(l.Items) + 1
}

// Level is whom a lesson is written for.
type Level string

// The levels.
const (
	Beginner Level = "beginner"
	Trainee  Level = "trainee"
	Skilled  Level = "skilled"
)

var levels = []string{string(Beginner), string(Trainee), string(Skilled)}

// groups are the parts of a course, in the order in which a list shows them;
// lessons that name none are shown last.
var groups = []string{"wheel", "rim", "circuit", "sequence", "machine", "further"}

// Groups returns the groups of lessons in their order.
func Groups() []string { return append([]string(nil), groups...) }

// A Term is a word of the trade that the lesson teaches.
type Term struct {
	Word  string
	Means string
}

// An Item is one step of a lesson: a run up to the frozen frame, what is asked
// there, and the run that answers it.
type Item struct {
	Title    string
	Review   bool   // offered again later
	Building string // one that ships, "" for one that is changed or the lesson's own
	Plan     *building.Plan
	Start    string   // floor, "" when StartM says where
	StartM   *float64 // height above the lowest landing
	Lead     Lead
	Kind     Kind
	Question Prose
	Form     Form      // how it is answered; nil for a worked item
	Options  []Option  // of choose-one and choose-several
	Answers  []Answer  // of the other kinds: explanations by kind of answer
	Inputs   []Input   // in the run that is asked about, times from the frozen frame
	Segments []Segment // of that run
	Summary  Prose     // after every explanation, whatever was answered
	Chain    []Event   // whose causes are lit in their order when it is explained
	Path     string    // in the file, as "items[1]"
}

// Lead is what happens before the frozen frame.
type Lead struct {
	Text   Prose
	Inputs []Input // times from the start of the machine
	Until  Until
	Speed  float64
}

// A Segment is a stretch of the asked run, after which it pauses.
type Segment struct {
	Until Until
	Speed float64 // machine seconds to one second of the viewer's clock
	Text  Prose   // told at its end
}

// An Input is one thing done to the machine: its time counts from the
// beginning of the part of the item it stands in.
type Input struct {
	AtS  float64
	Do   lift.Input // its own time is not used
	Name string     // as the file names what is touched
	Path string     // in the file
}

// Kind is how a question is answered.
type Kind string

// The kinds of question. A worked item asks nothing: its steps are shown, with
// the reasons.
const (
	Worked        Kind = "worked"
	ChooseOne     Kind = "choose-one"
	ChooseSeveral Kind = "choose-several"
	OrderStops    Kind = "order-stops"
	PointAtPart   Kind = "point-at-part"
	SetSwitches   Kind = "set-switches"
	ReadNumber    Kind = "read-number"
	LampOut       Kind = "lamp-out"
	FaultyPart    Kind = "faulty-part"
)

var kinds = []string{string(Worked), string(ChooseOne), string(ChooseSeveral), string(OrderStops),
	string(PointAtPart), string(SetSwitches), string(ReadNumber), string(LampOut), string(FaultyPart)}

// Asks reports whether the item wants an answer before it runs.
func (it *Item) Asks() bool { return it.Kind != Worked }

// Chooses reports whether the answer is one or several of the item's options.
func (it *Item) Chooses() bool { return it.Kind == ChooseOne || it.Kind == ChooseSeveral }

// MotionS is the longest a run may move before it pauses by itself, seconds of
// the viewer's clock (Tversky, Morrison, Bétrancourt 2002: what moves for long
// is not taken in; the figure is common practice, no source).
const MotionS = 10.0
