package session

import (
	"math"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/trace"
)

// A Link is a moment of a run as an address holds it: after the #, names and
// values as in a query.
//
//	moment=8.25                  seconds from the start of the run
//	events=137                   how many events had happened, where the moment is one of them
//	building=tidemill-house      a building that ships, or
//	plan=…                       the text of a building file, as Pack writes it
//	start=2                      floor at which the car began, the lowest if none
//	height=5.8                   instead of start: metres above the lowest floor
//	do=3@0.5,1@4                 what was done, and when
//
// A call is written FLOOR@SECONDS, or with the button's kind FLOOR:up@SECONDS.
// Anything else done is KIND:PART:STATE:VALUE@SECONDS. Moments and times are
// taken to the machine's step, so what a Link holds comes back exactly.
type Link struct {
	TimeS    float64
	Events   int
	Building string
	Text     []byte // of a building file, when none that ships is named
	Start    string
	HeightM  *float64
	Inputs   []lift.Input
}

// A link is refused where it asks for more than this; a page would be kept
// waiting by a run that long.
const (
	linkMostS      = 7200.0
	linkMostInputs = 4000
)

// letters are what the kind of a button is written in.
const letters = "abcdefghijklmnopqrstuvwxyz"

// inputKinds are the kinds of input by the words that links use.
var inputKinds = []string{lift.Press: "press", lift.Override: "override", lift.Switch: "switch", lift.Load: "load",
	lift.Isolate: "isolate", lift.EaseBrake: "ease", lift.Wind: "wind"}

// String writes the link, without the #.
func (l Link) String() string {
	var b strings.Builder
	b.WriteString("moment=" + decimal(l.TimeS))
	if l.Events > 0 {
		b.WriteString("&events=" + strconv.Itoa(l.Events))
	}
	if l.Building != "" {
		b.WriteString("&building=" + escape(l.Building))
	} else {
		b.WriteString("&plan=" + Pack(l.Text))
	}
	if l.Start != "" {
		b.WriteString("&start=" + escape(l.Start))
	}
	if l.HeightM != nil {
		b.WriteString("&height=" + strconv.FormatFloat(*l.HeightM, 'f', -1, 64))
	}
	for i, in := range l.Inputs {
		b.WriteString(pick(i == 0, "&do=", ","))
		b.WriteString(escape(spell(in)))
	}
	return b.String()
}

// spell writes one thing done.
func spell(in lift.Input) string {
	at := "@" + decimal(in.TimeS)
	if kind, floor, ok := strings.Cut(string(in.Part), "."); ok && in.Kind == lift.Press {
		if way, byWay := strings.CutPrefix(kind, "button-"); byWay {
			return floor + ":" + way + at
		}
		return floor + at
	}
	return strings.Join([]string{inputKinds[in.Kind], string(in.Part), in.State, strconv.FormatFloat(in.Value, 'g', -1, 64)}, ":") + at
}

// decimal spells seconds on the machine's grid.
func decimal(s float64) string {
	if s == 0 {
		return "0" // also of a zero below nothing
	}
	text := strconv.FormatFloat(s, 'f', 3, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// An address may hold these as they are, and is easier to read for it.
var readable = strings.NewReplacer("%3A", ":", "%2C", ",", "%40", "@")

func escape(text string) string { return readable.Replace(url.QueryEscape(text)) }

// ReadLink reads what String writes, with or without the #. The error says
// what is wrong with it.
func ReadLink(address string) (Link, error) {
	damaged := refuse("stage.bad-address")
	values, err := url.ParseQuery(strings.TrimPrefix(address, "#"))
	if err != nil {
		return Link{}, damaged
	}
	for name, list := range values {
		if len(list) != 1 || !slices.Contains([]string{"moment", "events", "building", "plan", "start", "height", "do"}, name) {
			return Link{}, damaged
		}
	}
	l := Link{Building: values.Get("building"), Start: values.Get("start")}
	if values.Has("building") == values.Has("plan") || values.Has("building") && l.Building == "" {
		return Link{}, damaged
	}
	if values.Has("plan") {
		if l.Text, err = Unpack(values.Get("plan")); err != nil {
			return Link{}, err
		}
	}
	moment := values.Get("moment")
	t, ok := seconds(moment)
	if !ok {
		return Link{}, refuse("time.link-moment", "found", cutShort(moment), "most", phrase.Num(linkMostS, 0))
	}
	l.TimeS = math.Floor(t/lift.GridS+1e-6) * lift.GridS
	if values.Has("events") {
		if l.Events, err = strconv.Atoi(values.Get("events")); err != nil || l.Events < 0 {
			return Link{}, damaged
		}
	}
	if values.Has("height") {
		h, err := strconv.ParseFloat(values.Get("height"), 64)
		if err != nil || !(h >= 0) || math.IsInf(h, 1) || l.Start != "" {
			return Link{}, damaged
		}
		h += 0 // -0 becomes 0
		l.HeightM = &h
	}
	if values.Get("do") == "" {
		return l, nil
	}
	for _, text := range strings.Split(values.Get("do"), ",") {
		in, ok := readInput(text)
		if !ok || len(l.Inputs) == linkMostInputs {
			return Link{}, refuse("time.link-input", "found", cutShort(text))
		}
		l.Inputs = append(l.Inputs, in)
	}
	return l, nil
}

// readInput reads one thing done.
func readInput(text string) (in lift.Input, ok bool) {
	k := strings.LastIndexByte(text, '@')
	if k < 0 {
		return in, false
	}
	what := text[:k]
	t, ok := seconds(text[k+1:])
	if !ok {
		return in, false
	}
	in.TimeS = math.Ceil(t/lift.GridS-1e-6) * lift.GridS
	parts := strings.Split(what, ":")
	switch len(parts) {
	case 1:
		in.Part = lift.Part("button." + parts[0])
	case 2:
		in.Part = lift.Part("button-" + parts[1] + "." + parts[0])
		ok = parts[1] != "" && strings.Trim(parts[1], letters) == ""
	case 4:
		kind := slices.Index(inputKinds, parts[0])
		value, err := strconv.ParseFloat(parts[3], 64)
		if kind < 0 || err != nil || math.IsNaN(value) || math.IsInf(value, 0) {
			return in, false
		}
		in.Kind, in.Part, in.State, in.Value = lift.InputKind(kind), lift.Part(parts[1]), parts[2], value+0
		return in, parts[1] != "" && in.Kind != lift.Press
	default:
		return in, false
	}
	return in, ok && parts[0] != ""
}

// seconds reads a time of a link.
func seconds(text string) (float64, bool) {
	t, err := strconv.ParseFloat(text, 64)
	return max(t, 0), err == nil && t >= 0 && t <= linkMostS // -0 becomes 0
}

// cutShort keeps a message about a long text readable.
func cutShort(text string) string {
	if r := []rune(text); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return text
}

// Link returns the moment of the reader's run that is looked at. What was done
// after it is left out; what was done at that very instant belongs to it.
func (s *Session) Link() Link {
	m := s.free.Machine()
	l := Link{TimeS: math.Floor(m.TimeS()/lift.GridS+1e-6) * lift.GridS, Building: s.id, Start: s.startFloor(), HeightM: s.start.HeightM}
	if s.id == "" {
		l.Text = s.text
	}
	for _, in := range m.Inputs() {
		if in.TimeS <= m.TimeS() || !s.free.Looking() {
			l.Inputs = append(l.Inputs, in)
		}
	}
	if len(m.Events()) > s.free.EventsBy(l.TimeS) {
		l.Events = len(m.Events())
	}
	return l
}

// OpenLink brings the moment of a link on the stage and closes any lesson. If
// that cannot be done the session stays as it was.
func (s *Session) OpenLink(address string) error {
	l, err := ReadLink(address)
	if err != nil {
		return err
	}
	text := l.Text
	if l.Building != "" {
		i := slices.IndexFunc(s.o.Buildings, func(b Building) bool { return b.ID == l.Building })
		if i < 0 {
			return refuse("stage.unknown-building", "building", cutShort(l.Building))
		}
		text = s.o.Buildings[i].Text
	}
	return s.Restore(Record{Building: l.Building, Text: string(text), Start: l.Start, HeightM: l.HeightM, Inputs: l.Inputs, TimeS: l.TimeS, Events: l.Events, Speed: s.speed})
}

// Rows writes down the reader's run, or the lesson's, from its start to the
// moment looked at: every signal once and then each change.
func (s *Session) Rows() []trace.Row {
	m := s.machine()
	r := trace.Record(s.line().Start())
	r.RunTo(m.TimeS())
	return r.Rows
}
