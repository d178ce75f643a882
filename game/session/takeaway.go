package session

import (
	"encoding/base64"
	"math"
	"slices"
	"strings"

	"wheelroom/game/figure"
	"wheelroom/game/scene"
	"wheelroom/game/svg"
	"wheelroom/physics/bench"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/trace"
)

// takeaway is the screen from which drawings, tables and traces of the run on
// the stage are taken, at the moment that is looked at.
var takeaway = map[string]action{
	"facts":   taking(func(a Asking, _ struct{}) (any, error) { return a.takeFacts(), nil }),
	"picture": taking(func(a Asking, q TakePicture) (any, error) { return a.takePicture(q) }),
	"charts":  taking(func(a Asking, q struct{ Width float64 }) (any, error) { return a.takeCharts(q.Width) }),
	"trace":   taking(func(a Asking, q struct{ Format string }) (any, error) { return a.takeTrace(q.Format) }),
	"tables":  taking(func(a Asking, _ struct{}) (any, error) { return a.takeTables(), nil }),
}

// TakeFacts say what is taken away: they stand on every sheet.
type TakeFacts struct {
	Building string  `json:"building"`
	Scheme   string  `json:"scheme"`
	TimeS    float64 `json:"time_s"`
	EndS     float64 `json:"endS"`
	Looking  bool    `json:"looking"`
	State    string  `json:"state"` // of the car, in words
	Link     string  `json:"link"`  // what stands after the # of the address
	Stem     string  `json:"stem"`  // names of files begin so
}

func (a Asking) takeFacts() TakeFacts {
	line := a.line()
	p := line.End().Plan()
	f := TakeFacts{
		Building: p.Name, Scheme: a.o.Words(control.Name(p.Control.Scheme)),
		TimeS: line.Machine().TimeS(), EndS: line.End().TimeS(), Looking: line.Looking(),
		State: a.o.Words(a.state("car")), Stem: stem(p.Name),
	}
	if l := a.Lesson(); l != nil {
		f.Link = "lesson=" + escape(l.ID) + "&item=" + decimal(float64(l.Item))
	} else {
		f.Link = a.Link().String()
	}
	return f
}

// stem makes a name for files of a building's name.
func stem(name string) string {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9') })
	if len(words) == 0 {
		return "wheelroom"
	}
	return strings.Join(words, "-")
}

// A TakePicture asks for one picture as SVG.
type TakePicture struct {
	Picture       string // as View takes it
	Theme         string // "paper" or "slate"
	Width, Height float64
	Bare          bool // without a ground, for paper
	Regular, Bold string
	ID            string
}

// themes are the palettes pictures are taken in.
var themes = map[string]*figure.Palette{"paper": &figure.Paper, "slate": &figure.Slate}

func (a Asking) takePicture(q TakePicture) (string, error) {
	i := slices.IndexFunc(pictures, func(p scene.Picture) bool { return p.String() == q.Picture })
	palette := themes[q.Theme]
	switch {
	case i < 0:
		return "", refuse("stage.unknown-picture", "picture", cutShort(q.Picture))
	case palette == nil:
		return "", refuse("stage.unknown-theme", "theme", cutShort(q.Theme))
	}
	m := a.machine()
	sc := scene.New(m.Plan(), m.Wiring(), scene.Options{Width: clampSize(q.Width, 200), Height: clampSize(q.Height, 120), Picture: pictures[i], Words: a.o.Words})
	return write(q, palette, a.pictureTitle(phrase.Of("takeaway."+q.Picture)), sc.Still(), sc.Moving(&a.view, a.line().Chart()))
}

// pictureTitle names a picture of the moment looked at.
func (a Asking) pictureTitle(what phrase.Phrase) string {
	return a.o.Words(phrase.Of("takeaway.picture-title", "building", a.machine().Plan().Name, "picture", what, "time", phrase.Num(a.view.TimeS, 1)))
}

// write writes figures on top of one another as one SVG with its title and,
// where they are given, its own type.
func write(q TakePicture, palette *figure.Palette, title string, figures ...*figure.Figure) (string, error) {
	var whole figure.Figure
	whole.Reset(figures[0].Width, figures[0].Height)
	for _, f := range figures {
		whole.Append(f)
	}
	o := svg.Options{ID: pick(q.ID == "", "taken", q.ID), Bare: q.Bare, Title: title}
	for _, font := range []struct {
		text string
		to   *[]byte
	}{{q.Regular, &o.Regular}, {q.Bold, &o.Bold}} {
		data, err := base64.StdEncoding.DecodeString(font.text)
		if err != nil {
			return "", refuse("stage.bad-arguments", "question", "takeaway/picture")
		}
		if len(data) > 0 {
			*font.to = data
		}
	}
	var text strings.Builder
	err := svg.Write(&text, &whole, palette, o)
	return text.String(), err
}

// The run's chart on paper: rows of so many logical units, and so many rows at
// the most; of a longer run the last.
const (
	chartRow  = 215.0
	chartRows = 12
)

// takeCharts draws the chart of the whole run up to the moment looked at, in
// rows that follow each other.
func (a Asking) takeCharts(width float64) ([]string, error) {
	line := a.line()
	m := line.Machine()
	now := m.TimeS()
	o := scene.Options{Width: clampSize(width, 320), Height: chartRow, Picture: scene.Chart, Words: a.o.Words}
	span := scene.New(m.Plan(), m.Wiring(), o).Window(0)
	rows := []string{}
	last := int(math.Ceil(now/span)) - 1
	for row := max(0, last-chartRows+1); row <= max(last, 0); row++ {
		from := float64(row) * span
		view, seen := line.Seen(min(from+span, now))
		view.TimeS = now // only the last row bears the line of now
		sc := scene.New(m.Plan(), m.Wiring(), o)
		sc.Window(from)
		text, err := write(TakePicture{Bare: true, ID: "row" + decimal(float64(row))}, &figure.Paper, a.pictureTitle(phrase.Of("takeaway.chart")), sc.Still(), sc.Moving(view, seen))
		if err != nil {
			return nil, err
		}
		rows = append(rows, text)
	}
	return rows, nil
}

// takeTrace writes the run down, from its start to the moment looked at.
func (a Asking) takeTrace(format string) (string, error) {
	var text strings.Builder
	write := trace.WriteCSV
	switch format {
	case "csv":
	case "vcd":
		write = trace.WriteVCD
	default:
		return "", refuse("takeaway.unknown-format", "format", cutShort(format))
	}
	err := write(&text, a.Rows())
	return text.String(), err
}

// TakeTables are the tables that can be printed. Texts are in words, figures
// spelt.
type TakeTables struct {
	Stops     [][]string `json:"stops"`     // floor, from, to
	Calls     [][]string `json:"calls"`     // floor, registered at, answered at
	Terminals [][]string `json:"terminals"` // number, height, angle, floor
	Relays    [][]string `json:"relays"`    // name, code, operates, releases, make and break contacts, how it stands, what it does
}

// figure spells a number with so many decimals, as the language does.
func (s *Session) figure(v float64, decimals int) string {
	return spoken(s.o.Words).Number(phrase.Num(v, decimals))
}

func (a Asking) takeTables() TakeTables {
	line := a.line()
	m := line.Machine()
	now := m.TimeS()
	t := TakeTables{Stops: [][]string{}, Calls: [][]string{}, Terminals: [][]string{}, Relays: [][]string{}}
	strip := line.Strip()
	for _, s := range strip.Stops {
		if s.FromS <= now {
			t.Stops = append(t.Stops, []string{s.Floor, a.figure(s.FromS, 2), a.until(s.ToS, min(now, strip.EndS))})
		}
	}
	for _, c := range strip.Calls {
		if c.FromS <= now {
			t.Calls = append(t.Calls, []string{c.Floor, a.figure(c.FromS, 2), a.until(c.ToS, now)})
		}
	}
	for _, x := range bench.Lay(m.Plan()).Terminals {
		t.Terminals = append(t.Terminals, []string{decimal(float64(x.Index)), a.figure(x.HeightM, 3), a.figure(x.AngleDeg, 1), x.Floor})
	}
	for _, part := range m.Wiring().Coils {
		t.Relays = append(t.Relays, a.relayRow(m, part))
	}
	return t
}

// until spells when something ended, "" when it had not by now.
func (s *Session) until(endS, now float64) string {
	if endS < 0 || endS >= now {
		return ""
	}
	return s.figure(endS, 2)
}

// relayRow is one coil of the list of relays.
func (a Asking) relayRow(m *lift.Machine, part string) []string {
	operate, release := control.Times(part, m.Plan())
	makes, breaks := 0, 0
	if g := m.Wiring().Gang(part); g >= 0 {
		makes, breaks = len(m.Wiring().Gangs[g].Make), len(m.Wiring().Gangs[g].Break)
	}
	return []string{
		a.o.Words(partName(part)), scene.Code(part), a.figure(1000*operate, 0), a.figure(1000*release, 0),
		a.figure(float64(makes), 0), a.figure(float64(breaks), 0), a.o.Words(a.state(part)), a.o.Words(partPurpose(part)),
	}
}
