package session

import (
	"strings"

	"wheelroom/game/figure"
	"wheelroom/game/rungs"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/netlist"
	"wheelroom/physics/phrase"
	"wheelroom/physics/relay"
	"wheelroom/physics/why"
)

// circuit is the screen on which the reader's circuit is read, measured,
// asked, tried and proved, as it stands at the moment the machine is looked
// at.
var circuit = map[string]action{
	"facts":   taking(func(a Asking, _ struct{}) (any, error) { return a.circuitFacts(), nil }),
	"sheet":   taking(func(a Asking, q SheetOf) (any, error) { return a.circuitSheet(q) }),
	"scheme":  taking(func(a Asking, q struct{ Name string }) (any, error) { return a.setScheme(q.Name) }),
	"why":     taking(func(a Asking, q Target) (any, error) { return a.why(q), nil }),
	"measure": taking(func(a Asking, q struct{ Probes [2]int }) (any, error) { return a.measure(q.Probes) }),
	"try":     taking(func(a Asking, q Trial) (any, error) { return a.try(q) }),
	"prove":   taking(func(a Asking, q WorkStep) (any, error) { return a.prove(q) }),
	"netlist": taking(func(a Asking, q struct{ Format string }) (any, error) { return a.netlist(q.Format) }),
	"diagram": taking(func(a Asking, _ struct{}) (any, error) { return a.diagram() }),
}

// Named is one of several things to choose from.
type Named struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// CircuitFacts are what the screen lays its choices out from. They change
// with the building only.
type CircuitFacts struct {
	Key     string        `json:"key"` // another building, another key
	Scheme  string        `json:"scheme"`
	Schemes []SchemeFact  `json:"schemes"`
	Floors  []string      `json:"floors"` // lowest first
	Targets []TargetGroup `json:"targets"`
	Leaves  []LeafFact    `json:"leaves"` // by their number
	Nodes   []NodeFact    `json:"nodes"`
	Calls   []Named       `json:"calls"`
	Lines   []string      `json:"lines"` // names of the diagram's lines
}

// A SchemeFact is one scheme there is.
type SchemeFact struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	Limits string `json:"limits"` // what it cannot do
}

// A TargetGroup is things of one kind that can be asked about.
type TargetGroup struct {
	Kind  string  `json:"kind"` // relay, call, lamp or switch
	Parts []Named `json:"parts"`
}

// A LeafFact is one contact, coil or lamp of the diagram.
type LeafFact struct {
	Name  string `json:"name"`
	Line  int    `json:"line"`  // of the diagram, from 1
	Part  string `json:"part"`  // whose it is
	Moves bool   `json:"moves"` // a contact, which may be kept open
	Guard string `json:"guard"` // what it guards against: safety, lock, limit, interlock or nothing
}

// A NodeFact is one conductor or joint.
type NodeFact struct {
	Node int    `json:"node"`
	Name string `json:"name"`
}

// own is the reader's machine at the moment looked at.
func (s *Session) own() *lift.Machine { return s.free.Machine() }

// offered is the name of a scheme where it can be chosen or taken away.
func offered(scheme string) phrase.Phrase {
	name := control.Name(scheme)
	if scheme == "direct" {
		return phrase.Of("circuit.scheme-never", "name", name)
	}
	return name
}

// rungsOf lays the reader's circuit out.
func (s *Session) rungsOf(width float64, floor int) *rungs.Sheet {
	return rungs.New(s.own().Wiring(), rungs.Options{Width: width, Floor: floor, Words: s.o.Words})
}

func (s *Session) circuitFacts() CircuitFacts {
	m := s.own()
	w, d := m.Wiring(), m.Wiring().Diagram
	f := CircuitFacts{Key: string(s.text), Scheme: d.Scheme, Floors: d.Floors}
	for _, name := range control.Schemes() {
		f.Schemes = append(f.Schemes, SchemeFact{name, s.o.Words(offered(name)), s.o.Words(control.Limits(name))})
	}
	sheet := s.rungsOf(700, -1)
	seen := map[relay.Node]bool{}
	for i := range w.Leaves {
		l := &w.Leaves[i]
		f.Leaves = append(f.Leaves, LeafFact{Name: sheet.Label(i), Line: sheet.Line(i), Part: l.Part(), Moves: l.Contact >= 0, Guard: w.Guard(i).String()})
		for _, n := range []relay.Node{l.From, l.To} {
			if !seen[n] {
				seen[n] = true
				f.Nodes = append(f.Nodes, NodeFact{int(n), sheet.Node(n)})
			}
		}
	}
	for _, b := range d.Branches {
		f.Lines = append(f.Lines, b.Name)
	}
	for _, c := range d.Calls {
		f.Calls = append(f.Calls, Named{c.Relay, s.capital(why.Name(lift.Part(c.Relay)))})
	}
	f.Targets = s.targets(m)
	return f
}

// targets groups what can be asked about: coils, lamps, and switches that no
// coil moves.
func (s *Session) targets(m *lift.Machine) []TargetGroup {
	groups := []TargetGroup{{Kind: "relay"}, {Kind: "call"}, {Kind: "lamp"}, {Kind: "switch"}}
	listed := map[string]bool{}
	w := m.Wiring()
	for i := range w.Leaves {
		l := &w.Leaves[i]
		part := l.Part()
		if listed[part] {
			continue
		}
		kind := 3
		switch l.Body.(type) {
		case control.Coil:
			if kind = 0; strings.HasPrefix(part, "call") {
				kind = 1
			}
		case control.Lamp:
			kind = 2
		default:
			if w.Coil(part) >= 0 || strings.HasPrefix(part, "terminal.") {
				continue // asked about as a coil; a terminal is where the brush is
			}
		}
		listed[part] = true
		groups[kind].Parts = append(groups[kind].Parts, Named{part, s.capital(why.Name(lift.Part(part)))})
	}
	return groups
}

// capital begins a name with a capital letter.
func (s *Session) capital(p phrase.Phrase) string {
	text := s.o.Words(p)
	if text == "" {
		return ""
	}
	r := []rune(text)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// A Target is what is asked about: a part, or a leaf where there is none.
type Target struct {
	Part string `json:"part"`
	Leaf int    `json:"leaf"`
}

// A SheetOf is the drawing of the circuit that a page wants.
type SheetOf struct {
	Width  float64
	Floor  string // only this floor's lines and those of none; "" for all
	Target *Target
	Probes [2]int // nodes; -1 for one that is put away
	Joints bool   // those that only a probe has use for are shown
	Lit    int    // so many steps of the current's way, the first ones; 0 for all
}

// A DrawnSheet is a drawing and the places in it.
type DrawnSheet struct {
	SVG    string       `json:"svg"`
	Width  float64      `json:"width"`
	Height float64      `json:"height"`
	Spots  []rungs.Spot `json:"spots"`
}

func (a Asking) circuitSheet(q SheetOf) (DrawnSheet, error) {
	m := a.own()
	floor := -1
	if q.Floor != "" {
		if floor = m.Plan().Floor(q.Floor); floor < 0 {
			return DrawnSheet{}, refuse("stage.unknown-floor", "floor", q.Floor)
		}
	}
	sheet := a.rungsOf(q.Width, floor)
	marks := rungs.Marks{Leaf: -1, Probes: q.Probes[:], Joints: q.Joints}
	if q.Target != nil {
		answer := why.Of(m, q.Target.why())
		for _, step := range answer.Path {
			marks.Path = append(marks.Path, step.Leaf)
		}
		if q.Lit > 0 {
			marks.Path = marks.Path[:min(q.Lit, len(marks.Path))]
		}
		for _, b := range answer.Blockers {
			marks.Blockers = append(marks.Blockers, b.Leaf)
		}
		if q.Target.Part == "" {
			marks.Leaf = q.Target.Leaf
		}
	}
	var v lift.View
	m.Look(&v)
	text, err := a.draw(sheet.Draw(&v, marks))
	width, height := sheet.Size()
	return DrawnSheet{text, width, height, sheet.Spots()}, err
}

func (t Target) why() why.Target {
	if t.Part != "" {
		return why.Part(lift.Part(t.Part))
	}
	return why.Contact(t.Leaf)
}

// diagram writes the whole circuit for a file of its own, to be read where
// nothing else of the page is: on paper whatever the reader's theme.
func (a Asking) diagram() (string, error) {
	var v lift.View
	m := a.own()
	m.Look(&v)
	scheme := m.Plan().Control.Scheme
	title := phrase.Of("circuit.diagram-title", "building", m.Plan().Name, "scheme", offered(scheme), "time", phrase.Num(v.TimeS, 1))
	page := a.rungsOf(900, -1).Page(&v, rungs.Around{
		Title: a.o.Words(title), Lead: a.o.Words(control.Limits(scheme)), Foot: a.o.Words(phrase.Of("takeaway.caution"))})
	return write(TakePicture{ID: "circuit"}, &figure.Paper, a.o.Words(title), page)
}

// A Because is what there is to say of a target.
type Because struct {
	Sentence string   `json:"sentence"`
	Reading  string   `json:"reading"` // what an instrument would show at it; "" for a part with neither coil nor lamp
	On       bool     `json:"on"`
	Path     []Reason `json:"path"`
	Blockers []Reason `json:"blockers"`
	Next     *Target  `json:"next"` // of a contact: what moves it
	End      string   `json:"end"`
}

// A Reason is one contact of a path, or one that blocks it.
type Reason struct {
	Leaf     int     `json:"leaf"`
	Text     string  `json:"text"`
	Next     *Target `json:"next"` // to be asked about next, nil where there is nothing
	End      string  `json:"end"`  // in words why there is nothing
	Bypassed bool    `json:"bypassed"`
	Or       []int   `json:"or"` // leaves any one of which would do as well
}

func (s *Session) why(q Target) Because {
	answer := why.Of(s.own(), q.why())
	b := Because{Sentence: s.o.Words(answer.Sentence), Reading: s.readingOf(q), On: answer.On, Path: []Reason{}, Blockers: []Reason{}}
	b.Next, b.End = s.follow(answer.Next, answer.End)
	for _, step := range answer.Path {
		r := Reason{Leaf: step.Leaf, Text: s.capital(step.Say), Bypassed: step.Bypassed}
		r.Next, r.End = s.follow(step.Next, step.End)
		b.Path = append(b.Path, r)
	}
	for _, block := range answer.Blockers {
		r := Reason{Leaf: block.Leaf, Text: s.capital(block.Say), Or: block.Or}
		r.Next, r.End = s.follow(block.Next, block.End)
		b.Blockers = append(b.Blockers, r)
	}
	return b
}

// follow is what may be asked next, or in words why there is nothing.
func (s *Session) follow(next why.Target, end why.End) (*Target, string) {
	if end != why.Open {
		return nil, s.o.Words(phrase.Of("circuit.end-" + end.String()))
	}
	if next.Part == "" {
		return nil, ""
	}
	return &Target{Part: string(next.Part), Leaf: -1}, ""
}

// setScheme changes the scheme of the reader's building, as the editor does.
func (s *Session) setScheme(name string) (string, error) {
	text, err := s.edit(Edit{Text: string(s.text), Do: "set", Path: "control.scheme", Value: name})
	if err != nil {
		return "", err
	}
	sheet, err := s.use(text)
	if err != nil {
		return "", err
	}
	for _, f := range sheet.Faults {
		if !f.Warning {
			return "", Refusal{phrase.Of("circuit.scheme-refused", "reason", f.Text)}
		}
	}
	return sheet.Note, nil
}

// netlist writes the circuit as it stands for other programs.
func (s *Session) netlist(format string) (string, error) {
	var b strings.Builder
	err := netlist.Write(&b, s.own(), format)
	return b.String(), err
}
