package session

import (
	"bytes"
	"strconv"

	drawn "wheelroom/game/bench"
	"wheelroom/game/figure"
	"wheelroom/game/machineroom"
	"wheelroom/physics/bench"
	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/lamp"
	"wheelroom/physics/phrase"
)

// ringScreen is the bench on which the ring of the reader's building is looked
// at by itself. What is laid out there is the text of a building file, which
// the page keeps; the lift on the stage stays as it is until that is put into
// it.
var ringScreen = map[string]action{
	"form": taking(func(a Asking, _ struct{}) (any, error) { return a.ringForm(), nil }),
	"lay":  taking(func(a Asking, q RingAsk) (any, error) { return a.ringLay(q) }),
	"draw": taking(func(a Asking, q RingAsk) (any, error) { return a.ringDraw(q) }),
	"file": taking(func(a Asking, q RingAsk) (any, error) { return a.ringFile(q) }),
	"put":  taking(func(a Asking, q struct{ Text string }) (any, error) { return a.ringPut(q.Text) }),

	"match":  taking(func(a Asking, q RingSeen) (any, error) { return a.ringMatch(q) }),
	"answer": taking(func(a Asking, q RingSeen) (any, error) { return a.ringAnswer(q) }),
	"ride":   taking(func(a Asking, q RingRide) (any, error) { return a.ringRide(q) }),
}

// ringPaths are the values of a building file that make its ring.
var ringPaths = [...]string{"selector.terminals_per_floor", "selector.live_terminals", "selector.first_terminal_m",
	"selector.terminal_width", "selector.brush_width"}

const joinsPath = "selector.joins"

// A RingAsk is a building file, what is to be done to its ring, and how that
// is to be shown; each action takes of it what it needs.
type RingAsk struct {
	Text     string
	Do       string // "", set, move, clear (all that is joined by hand), use (a proposal) or fit (the ring matched last)
	Path     string // of set
	Value    string
	Terminal int // of move, and the one that is chosen; -1 for none
	Floor    string
	Index    int     // of use
	CarM     float64 // where the car, and with it the brush, stands
	Which    string  // file: sheet, csv or json
	Width    float64 // of the strip
	Beside   float64 // of the ring
	Paper    bool
}

// A RingForm is the building on the stage, and what can be set of its ring.
type RingForm struct {
	Building string         `json:"building"`
	Text     string         `json:"text"`
	Caution  string         `json:"caution"`
	Observe  string         `json:"observe"` // where from a real lift may be observed
	Fields   []RingField    `json:"fields"`
	Floors   []SummaryFloor `json:"floors"`
	TravelM  float64        `json:"travel_m"`
	FastMS   float64        `json:"fast_m_s"` // the fastest car that can be matched
}

// A RingField is one value of the ring with its limits.
type RingField struct {
	Path  string  `json:"path"`
	Unit  string  `json:"unit"`
	Whole bool    `json:"whole"`
	Least float64 `json:"least"`
	Most  float64 `json:"most"`
	Range string  `json:"range"` // the limits in words
	Why   string  `json:"why"`   // a sentence: the reason for them
}

// ringDesk is what has been laid out last, so that a brush that moves need not
// lay it out again.
type ringDesk struct {
	text string
	laid *bench.Report // nil where the text describes no ring

	matching *matching // nil before the first
}

func (a Asking) ringForm() RingForm {
	p := a.plan
	f := RingForm{Building: p.Name, Text: string(a.text), TravelM: p.TravelM(), FastMS: building.MostSpeedMS,
		Caution: a.o.Words(phrase.Of("bench.caution")), Observe: a.o.Words(phrase.Of("match.observe"))}
	for _, path := range ringPaths {
		field, _ := document.At(building.Fields(), path)
		l := field.Limit
		f.Fields = append(f.Fields, RingField{Path: path, Unit: l.Unit, Whole: field.Kind == document.Whole, Least: l.Min, Most: l.Max,
			Range: a.o.Words(phrase.Of("editor.range", "least", document.Plain(l.Min), "most", document.Plain(l.Max))),
			Why:   a.o.Words(phrase.Of("editor.because", "why", phrase.Of(l.Why)))})
	}
	for _, fl := range p.Floors {
		f.Floors = append(f.Floors, SummaryFloor{fl.Name, fl.HeightM})
	}
	return f
}

// A RingLaid is a ring laid out. Where the text describes none there are only
// the faults.
type RingLaid struct {
	Text    string            `json:"text"`
	Changed bool              `json:"changed"` // it is not the building on the stage
	Sound   bool              `json:"sound"`   // it can be put there
	Values  map[string]Cell   `json:"values"`
	Faults  []Fault           `json:"faults"`
	About   []string          `json:"about"`
	Page    *bench.Page       `json:"page"`
	Advice  *bench.AdvicePage `json:"advice"`
	RingDrawn
}

// A RingDrawn is the ring as it is and unrolled.
type RingDrawn struct {
	Ring  machineroom.Picture `json:"ring"`
	Strip machineroom.Picture `json:"strip"`
}

func (a Asking) ringLay(q RingAsk) (any, error) {
	text, err := a.ringEdit(&q)
	if err != nil {
		return nil, err
	}
	sheet, _ := a.sheet([]byte(text))
	out := RingLaid{Text: text, Changed: text != string(a.text), Sound: sheet.Sound, Values: map[string]Cell{}, Faults: []Fault{}, About: []string{}}
	for _, path := range ringPaths {
		out.Values[path] = sheet.Values[path]
	}
	for _, f := range sheet.Faults {
		if !f.Warning || a.ofRing(f.Path) {
			out.Faults = append(out.Faults, f)
		}
	}
	r := a.laid(text)
	if r == nil {
		return out, nil
	}
	page, advice := r.Page(a.sentence), bench.Propose(r.Plan).Page(a.o.Words)
	out.Page, out.Advice, out.RingDrawn = &page, &advice, a.ringPictures(r, &q)
	ms := func(s float64) phrase.Number { return phrase.Num(1000*s, 0) }
	s := &r.Plan.Selector
	for _, p := range []phrase.Phrase{
		phrase.Of("bench.sheet-ring", "count", len(r.Terminals), "pitch", phrase.Num(r.Ring.PitchM(), 3)),
		phrase.Of("bench.widths", "per-floor", document.Plain(s.TerminalsPerFloor), "live", s.LiveTerminals,
			"sum", phrase.Num(s.TerminalWidth+s.BrushWidth, 2)),
		phrase.Of("bench.speeds", "full", phrase.Num(r.FullMS, 2), "slow", phrase.Num(r.SlowMS, 2)),
		phrase.Of("bench.lamps-take", "rise-least", ms(lamp.Quick.RiseS), "rise-most", ms(lamp.Slow.RiseS),
			"fall-least", ms(lamp.Quick.FallS), "fall-most", ms(lamp.Slow.FallS)),
	} {
		out.About = append(out.About, a.sentence(p))
	}
	return out, nil
}

// ofRing reports whether a fault's path is a value of the ring.
func (a Asking) ofRing(path string) bool {
	for _, p := range ringPaths {
		if path == p {
			return true
		}
	}
	return len(path) >= len(joinsPath) && path[:len(joinsPath)] == joinsPath
}

// laid is the report on the ring of a text; nil where it describes none.
func (a Asking) laid(text string) *bench.Report {
	d := &a.desks.ring
	if d.laid != nil && d.text == text {
		return d.laid
	}
	d.text, d.laid = text, nil
	if plan, problems := building.Read("", []byte(text)); !document.Failed(problems) {
		d.laid = bench.Lay(&plan)
	}
	return d.laid
}

func (a Asking) ringDraw(q RingAsk) (any, error) {
	r := a.laid(q.Text)
	if r == nil {
		return nil, refuse("bench.no-ring-in-text")
	}
	return a.ringPictures(r, &q), nil
}

// ringPictures draws in the reader's language and theme.
func (a Asking) ringPictures(r *bench.Report, q *RingAsk) RingDrawn {
	look := drawn.Look{Words: a.o.Words, CarM: min(max(q.CarM, 0), r.Plan.TravelM()), Chosen: -1}
	if q.Terminal >= 0 && q.Terminal < len(r.Terminals) {
		look.Chosen = q.Terminal
	}
	look.Width = min(max(q.Beside, 280), 1200)
	ring := a.ringPicture(drawn.Ring(r, look), "ring-", q.Paper, phrase.Of("bench.ring-title", "building", r.Plan.Name,
		"count", len(r.Terminals), "height", phrase.Num(look.CarM, 2)))
	look.Width = min(max(q.Width, 320), 2400)
	return RingDrawn{ring, a.ringPicture(drawn.Strip(r, look), "strip-", q.Paper, phrase.Of("bench.strip-title", "building", r.Plan.Name))}
}

func (a Asking) ringPicture(f *figure.Figure, id string, paper bool, title phrase.Phrase) machineroom.Picture {
	palette := a.Palette
	if paper {
		palette = &figure.Paper
	}
	text := a.o.Words(title)
	return machineroom.Picture{Title: text, SVG: drawn.SVG(f, palette, id, text), Width: f.Width, Height: f.Height}
}

// ringEdit returns the text with what is asked done to it.
func (a Asking) ringEdit(q *RingAsk) (string, error) {
	switch q.Do {
	case "":
		return q.Text, nil
	case "set":
		if !a.ofRing(q.Path) {
			return "", refuse("editor.unwritable")
		}
		return a.edit(Edit{Text: q.Text, Do: "set", Path: q.Path, Value: q.Value})
	case "clear":
		return a.edit(Edit{Text: q.Text, Do: "clear", Path: joinsPath})
	}
	r := a.laid(q.Text)
	if r == nil {
		return "", refuse("bench.no-ring-in-text")
	}
	switch q.Do {
	case "move":
		f := -1
		if q.Floor != "" {
			if f = r.Plan.Floor(q.Floor); f < 0 {
				return "", refuse("drive.no-floor", "floor", q.Floor)
			}
		}
		if q.Terminal < 0 || q.Terminal >= len(r.Terminals) {
			return "", refuse("bench.no-terminal", "terminal", q.Terminal)
		}
		return rejoined(q.Text, bench.Move(r.Plan, q.Terminal, f).Selector.Joins)
	case "use":
		all := bench.Propose(r.Plan).Proposals
		if q.Index < 0 || q.Index >= len(all) {
			return "", refuse("bench.no-proposal")
		}
		return withRing(q.Text, &all[q.Index].Selector)
	case "fit":
		fitted, err := a.fitted()
		if err != nil {
			return "", err
		}
		return withRing(q.Text, fitted)
	}
	return "", refuse("editor.unwritable")
}

// rejoined writes the joins made by hand into a text, in place of those it has.
func rejoined(text string, joins []building.Join) (string, error) {
	t := &editing{text: []byte(text), fields: building.Fields()}
	t.unset(joinsPath)
	for i, j := range joins {
		if t.failed {
			break
		}
		floor, _ := document.At(t.fields, joinsPath+"[0].floor")
		t.do(document.Insert(t.text, t.fields, joinsPath, i,
			"{terminal: "+strconv.Itoa(j.Terminal)+", floor: "+document.Spell(floor, j.Floor)+"}"))
	}
	if t.failed {
		return "", refuse("editor.unwritable")
	}
	return string(t.text), nil
}

// withRing writes the values of another ring into a text. A value that the text
// has already stays as it is spelled.
func withRing(text string, s *building.Selector) (string, error) {
	t := &editing{text: []byte(text), fields: building.Fields()}
	is := building.Draft(t.text).Selector
	set := func(path string, is, wants float64) {
		if is != wants {
			t.set(path, figureOf(wants))
		}
	}
	set(ringPaths[0], is.TerminalsPerFloor, s.TerminalsPerFloor)
	set(ringPaths[1], float64(is.LiveTerminals), float64(s.LiveTerminals))
	if s.FirstTerminalM != nil {
		t.set(ringPaths[2], figureOf(*s.FirstTerminalM))
	}
	set(ringPaths[3], is.TerminalWidth, s.TerminalWidth)
	set(ringPaths[4], is.BrushWidth, s.BrushWidth)
	t.unset(joinsPath)
	if t.failed {
		return "", refuse("editor.unwritable")
	}
	return string(t.text), nil
}

// ringPut puts what was laid out into the building on the stage.
func (a Asking) ringPut(text string) (any, error) {
	sheet, err := a.use(text)
	if err != nil {
		return nil, err
	}
	if !sheet.Sound {
		return nil, refuse("bench.not-sound")
	}
	return sheet.Note, nil
}

// ringFile writes the ring for paper, a table or another program.
func (a Asking) ringFile(q RingAsk) (any, error) {
	r := a.laid(q.Text)
	if r == nil {
		return nil, refuse("bench.no-ring-in-text")
	}
	var text bytes.Buffer
	var err error
	switch q.Which {
	case "sheet":
		f := drawn.Sheet(r, sheetWidth, a.o.Words)
		return a.ringPicture(f, "sheet-", true, phrase.Of("bench.strip-title", "building", r.Plan.Name)).SVG, nil
	case "csv":
		err = bench.WriteCSV(&text, r)
	case "json":
		err = bench.WriteJSON(&text, r)
	default:
		return nil, refuse("stage.unknown-question", "question", "ring/file/"+q.Which)
	}
	return text.String(), err
}

// sheetWidth is that of a drawing for paper, logical units.
const sheetWidth = 1000
