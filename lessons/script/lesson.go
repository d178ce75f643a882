package script

import "wheelroom/physics/building"

// A Lesson is one lesson file, read and checked as far as it can be without
// running the machine.
type Lesson struct {
	ID       string // of the address, and of the file's name
	Version  int
	Title    string
	Level    Level
	Aims     []string
	Caution  Prose // shown beside every item of the lesson, empty for none
	Building string
	Plan     *building.Plan // scheme and building as the lesson wants them
	Terms    []Term
	Items    []Item
	file     string // its name and text, to place problems in
	text     []byte
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

// A Term is a word of the trade that the lesson teaches.
type Term struct {
	Word  string
	Means string
}

// An Item is one step of a lesson: a run up to the frozen frame, what is asked
// there, and the run that answers it.
type Item struct {
	Title    string
	Start    string // floor
	Lead     Lead
	Kind     Kind
	Question Prose
	Options  []Option
	Calls    []Call // in the run that is asked about, times from the frozen frame
	Segments []Segment
	Summary  Prose  // after every explanation, whatever was answered
	Path     string // in the file, as "items[1]"
}

// Lead is what happens before the frozen frame.
type Lead struct {
	Text  Prose
	Calls []Call // times from the start of the machine
	Until Until
	Speed float64
}

// A Call is a landing button pressed by somebody.
type Call struct {
	Floor string
	AtS   float64
}

// A Segment is a stretch of the asked run, after which it pauses.
type Segment struct {
	Until Until
	Speed float64 // machine seconds to one second of the viewer's clock
	Text  Prose   // told at its end
}

// An Option is one answer offered. Whether it is right is for the machine to
// say.
type Option struct {
	ID      string // "a", "b", … in the order of the file
	Text    Prose
	Claim   Claim
	Because Prose // why it is right or wrong
}

// Kind is how a question is answered.
type Kind string

// The kinds of question. A worked item asks nothing: its steps are shown, with
// the reasons. Of the others this version reads choose-one.
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

// kinds are those that can be read and answered.
var kinds = []string{string(Worked), string(ChooseOne)}

// Asks reports whether the item wants an answer before it runs.
func (it *Item) Asks() bool { return it.Kind != Worked }

// Option returns the option with that identity, or nil.
func (it *Item) Option(id string) *Option {
	for i := range it.Options {
		if it.Options[i].ID == id {
			return &it.Options[i]
		}
	}
	return nil
}

// Right returns the options whose claims hold in the finished run.
func (it *Item) Right(l *Log) []*Option {
	var right []*Option
	for i := range it.Options {
		if it.Options[i].Claim.Holds(l) {
			right = append(right, &it.Options[i])
		}
	}
	return right
}

// MotionS is the longest a run may move before it pauses by itself, seconds of
// the viewer's clock (Tversky, Morrison, Bétrancourt 2002: what moves for long
// is not taken in; the figure is common practice, no source).
const MotionS = 10.0
