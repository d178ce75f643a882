package session

import (
	"bytes"
	"strconv"

	"wheelroom/game/figure"
	"wheelroom/game/machineroom"
	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/study"
	"wheelroom/physics/survey"
)

// driveScreen is the screen that measures the drive of the building on the
// stage. Its trips are made by machines of their own; the lift on the stage is
// only looked at. What takes long is asked for piece by piece.
var driveScreen = map[string]action{
	"form":     taking(func(a Asking, _ struct{}) (any, error) { return a.driveForm(), nil }),
	"trip":     taking(func(a Asking, q DriveAsk) (any, error) { return a.driveTrip(q) }),
	"loads":    taking(func(a Asking, q DriveAsk) (any, error) { return a.driveLoads(q) }),
	"wheels":   taking(func(a Asking, q DriveAsk) (any, error) { return a.driveWheels(q) }),
	"cures":    taking(func(a Asking, q DriveAsk) (any, error) { return a.driveCures(q) }),
	"compare":  taking(func(a Asking, q DriveAsk) (any, error) { return a.driveCompare(q) }),
	"sequence": taking(func(a Asking, q DriveAsk) (any, error) { return a.driveSequence(q) }),
	"table":    taking(func(a Asking, q DriveAsk) (any, error) { return a.driveTable(q) }),
}

// The most a question may ask for; a building file has the same limits.
const (
	mostLoadKG       = 6250
	mostHandwheelKGM = 6
)

// A DriveAsk is the trip and the machine a question is about; each action
// takes of it what it needs.
type DriveAsk struct {
	From, To  string  // floors
	LoadKG    float64 // in the car
	Handwheel float64 // kg·m²
	Fit       bool    // advance and vanes made for the handwheel instead of the file's
	Light     float64 // of a comparison, kg·m²; either may be the lighter one
	Heavy     float64
	Part      int    // of what is asked for piece by piece: the piece, from 0; past the last only draws
	Which     string // sequence or table
	Width     float64
	Beside    float64 // width of a picture beside a larger one; 0: the same
	Paper     bool    // drawn for paper whatever the theme
}

// A DriveForm is what the screen may ask for, and what it asks for first.
type DriveForm struct {
	Building      string         `json:"building"`
	Fresh         bool           `json:"fresh"` // another building than the one looked at before
	Caution       string         `json:"caution"`
	Floors        []SummaryFloor `json:"floors"`
	From          string         `json:"from"`
	To            string         `json:"to"`
	LoadKG        float64        `json:"loadKG"`
	RatedKG       float64        `json:"ratedKG"`
	MostKG        float64        `json:"mostKG"` // of the slider
	Handwheel     float64        `json:"handwheel"`
	MostHandwheel float64        `json:"mostHandwheel"`
	Light         float64        `json:"light"`
	Heavy         float64        `json:"heavy"`
	Loads         int            `json:"loads"` // pieces of the sweep
	Wheels        int            `json:"wheels"`
}

// driveDesk is what has been measured for the last question, so that another
// width or theme, or the next piece, need not measure it again.
type driveDesk struct {
	seen    *control.Wiring // of the building the fields were last filled for
	wiring  *control.Wiring // of the building it was measured on
	asked   driveKey
	plan    building.Plan // with the handwheel asked for
	fit     study.Fitting
	run     *study.Run
	sweep   study.Sweep
	tried   []study.Weighed // one too heavy for the motor is left out
	weighed int             // of study.Handwheels
	pair    study.Comparison
	paired  pairKey
}

// driveKey and pairKey tell one question from another.
type driveKey struct {
	from, to          int
	loadKG, handwheel float64
	fit               bool
}

type pairKey struct {
	wiring       *control.Wiring
	from, to     int
	loadKG       float64
	light, heavy float64
	fit          bool
}

func (a Asking) driveForm() DriveForm {
	p := a.machine().Plan()
	last := len(p.Floors) - 1
	f := DriveForm{
		Building: p.Name, Fresh: a.desks.drive.seen != a.machine().Wiring(), Caution: a.o.Words(phrase.Of("drive.caution")),
		From: p.Floors[max(0, last-3)].Name, To: p.Floors[max(1, last-1)].Name,
		LoadKG: p.Lift.LoadKG, RatedKG: p.Lift.RatedLoadKG, MostKG: 1.25 * p.Lift.RatedLoadKG,
		Handwheel: p.Machine.HandwheelKGM2, MostHandwheel: mostHandwheelKGM, Light: 0.3, Heavy: max(p.Machine.HandwheelKGM2, 1.2),
		Loads: len(study.Shares), Wheels: len(study.Handwheels),
	}
	for _, fl := range p.Floors {
		f.Floors = append(f.Floors, SummaryFloor{fl.Name, fl.HeightM})
	}
	a.desks.drive.seen = a.machine().Wiring()
	return f
}

// room words and draws in the reader's language and theme.
func (a Asking) room(id string, q *DriveAsk) *machineroom.Room {
	r := &machineroom.Room{Words: spoken(a.o.Words), Palette: a.Palette, Width: min(max(q.Width, 320), 2400), ID: id}
	if q.Beside > 0 {
		r.Beside = min(max(q.Beside, 320), 2400)
	}
	if q.Paper {
		r.Palette = &figure.Paper
	}
	return r
}

// spoken is a language that is known by its words alone.
type spoken func(phrase.Phrase) string

// Text words a phrase.
func (s spoken) Text(p phrase.Phrase) string { return s(p) }

// Number spells a number.
func (s spoken) Number(n phrase.Number) string { return s(phrase.Of("drive.bare", "value", n)) }

// trip reads the trip of a question.
func (q *DriveAsk) trip(p *building.Plan) (study.Trip, error) {
	t := study.Trip{From: p.Floor(q.From), To: p.Floor(q.To), LoadKG: q.LoadKG}
	switch {
	case t.From < 0:
		return t, refuse("drive.no-floor", "floor", q.From)
	case t.To < 0:
		return t, refuse("drive.no-floor", "floor", q.To)
	case t.From == t.To:
		return t, refuse("drive.no-way", "floor", q.From)
	case !(q.LoadKG >= 0 && q.LoadKG <= mostLoadKG):
		return t, refuse("drive.bad-load", "most", mostLoadKG)
	}
	for _, j := range []float64{q.Handwheel, q.Light, q.Heavy} {
		if !(j >= 0 && j <= mostHandwheelKGM) {
			return t, refuse("drive.bad-handwheel", "most", mostHandwheelKGM)
		}
	}
	return t, nil
}

// desk returns what has been measured for the question; nothing has where it
// is another one than the last.
func (a Asking) driveDesk(q *DriveAsk) (*driveDesk, study.Trip, error) {
	base := a.machine().Plan()
	t, err := q.trip(base)
	if err != nil {
		return nil, t, err
	}
	d := &a.desks.drive
	key := driveKey{t.From, t.To, t.LoadKG, q.Handwheel, q.Fit}
	if w := a.machine().Wiring(); d.wiring != w || d.asked != key {
		*d = driveDesk{seen: d.seen, wiring: w, asked: key, pair: d.pair, paired: d.paired}
		d.plan, d.fit = study.With(base, study.Choice{HandwheelKGM2: q.Handwheel, Fit: q.Fit})
	}
	return d, t, nil
}

// A DriveTrip is one trip, with the starts and stops that can be shown link by
// link.
type DriveTrip struct {
	machineroom.TripScreen
	Sequences []SequenceName `json:"sequences"`
}

// A SequenceName is one start or stop.
type SequenceName struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

func (a Asking) driveTrip(q DriveAsk) (any, error) {
	d, err := a.ridden(&q)
	if err != nil {
		return nil, err
	}
	return DriveTrip{a.room("trip-", &q).Trip(d.run, d.fit, study.HeatW), a.sequences(d)}, nil
}

// ridden is the desk with its trip made.
func (a Asking) ridden(q *DriveAsk) (*driveDesk, error) {
	d, t, err := a.driveDesk(q)
	if err == nil && d.run == nil {
		d.run, err = study.Ride(&d.plan, t)
	}
	return d, err
}

// A Progress is a piece of what is asked for piece by piece.
type Progress[T any] struct {
	Done   int  `json:"done"`
	Of     int  `json:"of"`
	Screen T    `json:"screen"` // as far as it has come
	Whole  bool `json:"whole"`
}

// missed refuses a piece that does not follow the one before.
func missed(part, done, all int) error {
	if part > done && part < all {
		return refuse("drive.piece-missed")
	}
	return nil
}

func (a Asking) driveLoads(q DriveAsk) (any, error) {
	d, t, err := a.driveDesk(&q)
	if err != nil {
		return nil, err
	}
	all := len(study.Shares)
	if err := missed(q.Part, len(d.sweep.Loads), all); err != nil {
		return nil, err
	}
	if q.Part == len(d.sweep.Loads) && q.Part < all {
		s, err := study.Over(&d.plan, t.From, t.To, study.Shares[q.Part:q.Part+1])
		if err != nil {
			return nil, err
		}
		if q.Part > 0 {
			s.LeastM, s.MostM = min(s.LeastM, d.sweep.LeastM), max(s.MostM, d.sweep.MostM)
		}
		s.Loads = append(d.sweep.Loads, s.Loads...)
		d.sweep = s
	}
	done := len(d.sweep.Loads)
	var screen machineroom.LoadsScreen
	if done > 0 {
		screen = a.room("loads-", &q).Loads(&d.sweep)
	}
	return Progress[machineroom.LoadsScreen]{done, all, screen, done == all}, nil
}

func (a Asking) driveWheels(q DriveAsk) (any, error) {
	d, t, err := a.driveDesk(&q)
	if err != nil {
		return nil, err
	}
	all := len(study.Handwheels)
	if err := missed(q.Part, d.weighed, all); err != nil {
		return nil, err
	}
	if q.Part == d.weighed && q.Part < all {
		d.tried = append(d.tried, study.Weigh(&d.plan, study.Handwheels[q.Part:q.Part+1], t)...)
		d.weighed++
	}
	var screen machineroom.WheelsScreen
	if len(d.tried) > 0 {
		screen = a.room("wheels-", &q).Wheels(&d.plan, d.tried)
	}
	return Progress[machineroom.WheelsScreen]{d.weighed, all, screen, d.weighed == all}, nil
}

func (a Asking) driveCures(q DriveAsk) (any, error) {
	d, _, err := a.driveDesk(&q)
	if err != nil {
		return nil, err
	}
	return a.room("cures-", &q).Cures(survey.Cures(&d.plan)), nil
}

func (a Asking) driveCompare(q DriveAsk) (any, error) {
	d, err := a.compared(&q)
	if err != nil {
		return nil, err
	}
	return a.room("compare-", &q).Compare(&d.pair), nil
}

// compared is the desk with both machines run.
func (a Asking) compared(q *DriveAsk) (*driveDesk, error) {
	base := a.machine().Plan()
	t, err := q.trip(base)
	if err != nil {
		return nil, err
	}
	d := &a.desks.drive
	key := pairKey{a.machine().Wiring(), t.From, t.To, t.LoadKG, q.Light, q.Heavy, q.Fit}
	if d.paired == key {
		return d, nil
	}
	pair, err := study.Compare(base, t, study.Choice{HandwheelKGM2: q.Light, Fit: q.Fit}, study.Choice{HandwheelKGM2: q.Heavy, Fit: q.Fit})
	if err == nil {
		d.pair, d.paired = pair, key
	}
	return d, err
}

// sequencesMost is how many of the lift's own starts and stops are listed.
const sequencesMost = 8

// sequences lists what can be shown link by link: start and stop of the trip,
// and the last ones of the lift on the stage.
func (a Asking) sequences(d *driveDesk) []SequenceName {
	list := []SequenceName{}
	for _, k := range []struct {
		id string
		at int
	}{{"start", d.run.StartOf()}, {"stop", d.run.StopOf()}} {
		if k.at >= 0 {
			list = append(list, SequenceName{k.id, a.o.Words(phrase.Of("drive.sequence-" + k.id))})
		}
	}
	events := a.free.Machine().Events()
	var own []SequenceName
	for _, k := range []struct {
		kind string
		at   []int
	}{{"start", study.Starts(events)}, {"stop", study.Stops(events)}} {
		for _, e := range k.at {
			own = append(own, SequenceName{k.kind + "-" + strconv.Itoa(e), a.o.Words(phrase.Of("drive.sequence-own-"+k.kind,
				"seconds", phrase.Num(events[e].TimeS, 1), "what", machineroom.Link(events[e].Part, events[e].State)))})
		}
	}
	return append(list, own[max(0, len(own)-sequencesMost):]...)
}

func (a Asking) driveSequence(q DriveAsk) (any, error) {
	d, err := a.ridden(&q)
	if err != nil {
		return nil, err
	}
	events, from, kind := d.run.Machine.Events(), -1, q.Which
	switch q.Which {
	case "start":
		from = d.run.StartOf()
	case "stop":
		from = d.run.StopOf()
	default:
		events = a.free.Machine().Events()
		kind, from = ownSequence(events, q.Which)
	}
	if from < 0 {
		return nil, refuse("drive.no-sequence")
	}
	return a.room("sequence-", &q).Sequence(events, from, kind), nil
}

// ownSequence finds a start or stop of the lift on the stage by its name; the
// event is -1 where there is none any more.
func ownSequence(events []lift.Event, name string) (kind string, from int) {
	for _, k := range []struct {
		kind string
		at   []int
	}{{"start", study.Starts(events)}, {"stop", study.Stops(events)}} {
		for _, e := range k.at {
			if name == k.kind+"-"+strconv.Itoa(e) {
				return k.kind, e
			}
		}
	}
	return "", -1
}

// driveTable writes the samples of the trip ("trip") or of both machines
// ("compare"), or every figure measured ("figures"), as CSV.
func (a Asking) driveTable(q DriveAsk) (any, error) {
	var text bytes.Buffer
	switch q.Which {
	case "compare":
		d, err := a.compared(&q)
		if err != nil {
			return nil, err
		}
		err = d.pair.WriteCSV(&text)
		return text.String(), err
	case "trip", "figures":
		d, err := a.ridden(&q)
		if err != nil {
			return nil, err
		}
		if q.Which == "trip" {
			err = d.run.WriteCSV(&text)
		} else {
			err = study.WriteCSV(&text, &study.Report{Plan: &d.plan, Trip: d.run.Trip, HeatW: study.HeatW, Run: d.run,
				Figures: d.run.Figures(), Sweep: d.sweep, Weighed: d.tried})
		}
		return text.String(), err
	}
	return nil, refuse("stage.unknown-question", "question", "drive/table/"+q.Which)
}
