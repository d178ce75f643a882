package script

import (
	"wheelroom/physics/building"
	"wheelroom/physics/document"
)

// newest is the version of the format this package writes and the highest it
// reads.
const newest = 1

// A sheet is a lesson file as it is written, before its texts are parsed and
// its events and floors looked up.
type sheet struct {
	version                 int
	id, title, level, group string
	aims                    []string
	caution                 string
	setting                 settingSheet
	terms                   []Term
	items, review           []itemSheet
}

// A settingSheet is the machine of a lesson or of one item.
type settingSheet struct {
	building, scheme string
	plan             building.Plan // as far as the file gives one
	ownPlan          bool          // the file has keys of a building here
	start            string
	startM, loadKG   *float64
}

type itemSheet struct {
	like     int // number of the item whose keys stand where none is given, 0 for none
	title    string
	setting  settingSheet
	before   []inputSheet
	lead     leadSheet
	question questionSheet
	options  []optionSheet
	answers  []answerSheet
	calls    []callSheet
	inputs   []inputSheet
	segments []segmentSheet
	summary  string
	chain    []string
}

type leadSheet struct {
	text, until string
	calls       []callSheet
	inputs      []inputSheet
	speed       float64
}

type questionSheet struct {
	kind, text           string
	floors, parts        []string
	by                   [5]string // beside rules
	fact, unit, event    string
	tolerance, spanS     float64
	toleranceGiven, span bool
}

type optionSheet struct {
	text, because                        string
	tempting                             bool
	stops                                []string
	saysStops                            bool
	goes                                 string
	happens, never, order, ends, figures []string
}

type answerSheet struct {
	is, because string
	tempting    bool
}

type callSheet struct {
	floor string
	atS   float64
}

type inputSheet struct {
	atS                                               float64
	press, override, switches, state, isolator, lever string
	factor, loadKG, handNM                            *float64
}

type segmentSheet struct {
	until, text string
	speed       float64
}

// The bounds of a lesson file. A lesson is read on one screen beside a
// machine; what is longer is two lessons.
var (
	aTitle    = document.Count(1, 60, "lesson.why-title")
	anOption  = document.Count(1, 120, "lesson.why-option")
	aText     = document.Count(1, longestProse, "lesson.why-text")
	anID      = document.Count(1, 40, "lesson.why-id")
	aFloor    = document.Count(1, 4, "lesson.why-floor")
	aCall     = document.Count(1, 10, "lesson.why-call")
	aPart     = document.Count(1, 40, "lesson.why-part")
	anEvent   = document.Count(1, 80, "lesson.why-event")
	anAnswer  = document.Count(1, 400, "lesson.why-answer")
	aTime     = document.Between(0, longestWaitS, "s", "lesson.why-time")
	aSpeed    = document.Between(0.25, 16, "", "lesson.why-speed")
	aHeight   = document.Between(0, 120, "m", "lesson.why-height")
	aLoad     = document.Between(0, 6250, "kg", "lesson.why-load")
	aHand     = document.Between(-300, 300, "N·m", "lesson.why-hand")
	aFactor   = document.Between(0.1, 100, "", "lesson.why-factor")
	someCalls = document.Count(0, 64, "lesson.why-calls")
	someItems = document.Count(1, 12, "lesson.why-items")
)

// declare says what a lesson file may hold.
func declare(m *document.Mapping, s *sheet, buildings Buildings) {
	m.Need("id", "title", "level", "items")
	m.Version(&s.version, newest)
	m.Text("id", &s.id, anID)
	m.Text("title", &s.title, aTitle)
	m.Choice("level", &s.level, levels, "lesson.why-level")
	m.Choice("group", &s.group, groups, "lesson.why-group")
	m.Texts("aims", &s.aims, document.Count(0, 6, "lesson.why-aims"))
	m.Text("caution", &s.caution, aText)
	s.setting.plan = building.Defaults()
	s.setting.declare(m, buildings)
	document.ListOf(m, "terms", &s.terms, document.Count(0, 30, "lesson.why-terms"), declareTerm)
	item := func(m *document.Mapping, it *itemSheet) {
		it.setting.plan = s.setting.plan
		it.declare(m, buildings)
	}
	document.ListOf(m, "items", &s.items, someItems, item)
	document.ListOf(m, "review", &s.review, someItems, item)
}

func declareTerm(m *document.Mapping, t *Term) {
	m.Need("word", "means")
	m.Text("word", &t.Word, aTitle)
	m.Text("means", &t.Means, document.Count(1, 300, "lesson.why-means"))
}

// declare says how a machine is given. What the keys of a building leave out
// is as in the building named, or as it was before.
func (s *settingSheet) declare(m *document.Mapping, buildings Buildings) {
	m.Text("building", &s.building, anID)
	if s.building != "" {
		if found, _ := buildings(s.building); found != nil {
			s.plan = *found
		}
	}
	m.Text("scheme", &s.scheme, anID)
	s.ownPlan = m.Given("plan")
	m.Map("plan", func(m *document.Mapping) { building.Declare(m, &s.plan) })
	m.Text("start", &s.start, aFloor)
	m.Maybe("start_m", &s.startM, aHeight)
	m.Maybe("load_kg", &s.loadKG, aLoad)
}

func (it *itemSheet) declare(m *document.Mapping, buildings Buildings) {
	m.Int("like", &it.like, someItems)
	m.Text("title", &it.title, aTitle)
	it.setting.declare(m, buildings)
	document.ListOf(m, "before", &it.before, document.Count(0, 12, "lesson.why-inputs"), declareInput)
	m.Map("lead", func(m *document.Mapping) { it.lead.declare(m) })
	m.Map("question", func(m *document.Mapping) { it.question.declare(m) })
	document.ListOf(m, "options", &it.options, document.Count(2, 8, "lesson.why-options"), declareOption)
	document.ListOf(m, "answers", &it.answers, document.Count(1, 12, "lesson.why-answers"), declareAnswer)
	document.ListOf(m, "calls", &it.calls, someCalls, declareCall)
	document.ListOf(m, "inputs", &it.inputs, someCalls, declareInput)
	document.ListOf(m, "segments", &it.segments, document.Count(1, 12, "lesson.why-segments"), declareSegment)
	m.Text("summary", &it.summary, aText)
	m.Texts("chain", &it.chain, document.Count(1, 4, "lesson.why-chain"))
}

func (l *leadSheet) declare(m *document.Mapping) {
	m.Text("text", &l.text, aText)
	document.ListOf(m, "calls", &l.calls, someCalls, declareCall)
	document.ListOf(m, "inputs", &l.inputs, someCalls, declareInput)
	m.Text("until", &l.until, anEvent)
	m.Float("speed", &l.speed, aSpeed)
}

func (q *questionSheet) declare(m *document.Mapping) {
	m.Choice("kind", &q.kind, kinds, "lesson.why-kind")
	m.Text("text", &q.text, aText)
	m.Texts("floors", &q.floors, document.Count(2, 12, "lesson.why-offered"))
	m.Texts("parts", &q.parts, document.Count(2, 12, "lesson.why-offered"))
	for i, r := range rules {
		m.Text(r.key, &q.by[i], anEvent)
	}
	m.Text("fact", &q.fact, anEvent)
	m.Text("unit", &q.unit, document.Count(1, 8, "lesson.why-unit"))
	m.Text("event", &q.event, anEvent)
	q.toleranceGiven = m.Given("tolerance")
	m.Float("tolerance", &q.tolerance, document.Between(0, 1000, "", "lesson.why-tolerance"))
	q.span = m.Given("span_s")
	m.Float("span_s", &q.spanS, document.AboveTo(0, 60, "s", "lesson.why-span"))
}

func declareCall(m *document.Mapping, c *callSheet) {
	m.Need("floor", "at_s")
	m.Text("floor", &c.floor, aCall)
	m.Float("at_s", &c.atS, aTime)
}

// declareInput: an input does one thing.
func declareInput(m *document.Mapping, in *inputSheet) {
	m.Float("at_s", &in.atS, aTime)
	m.Text("press", &in.press, aCall)
	m.Text("override", &in.override, aPart)
	m.Text("switch", &in.switches, aPart)
	m.Text("state", &in.state, aPart)
	m.Maybe("factor", &in.factor, aFactor)
	m.Maybe("load_kg", &in.loadKG, aLoad)
	m.Choice("isolator", &in.isolator, []string{"open", "closed"}, "lesson.why-isolator")
	m.Choice("brake_lever", &in.lever, []string{"eased", "set"}, "lesson.why-lever")
	m.Maybe("handwheel_nm", &in.handNM, aHand)
}

func declareSegment(m *document.Mapping, s *segmentSheet) {
	m.Need("until")
	m.Text("until", &s.until, anEvent)
	m.Float("speed", &s.speed, aSpeed)
	m.Text("text", &s.text, aText)
}

func declareOption(m *document.Mapping, o *optionSheet) {
	m.Need("text", "because")
	m.Text("text", &o.text, anOption)
	o.saysStops = m.Given("stops")
	m.Texts("stops", &o.stops, document.Count(0, 32, "lesson.why-stops"))
	m.Choice("goes", &o.goes, sortedKeys(ways), "lesson.why-goes")
	m.Texts("happens", &o.happens, document.Count(1, 8, "lesson.why-claim"))
	m.Texts("never", &o.never, document.Count(1, 8, "lesson.why-claim"))
	m.Texts("order", &o.order, document.Count(2, 8, "lesson.why-claim"))
	m.Texts("ends", &o.ends, document.Count(1, 8, "lesson.why-claim"))
	m.Texts("figures", &o.figures, document.Count(1, 8, "lesson.why-claim"))
	m.Bool("tempting", &o.tempting)
	m.Text("because", &o.because, aText)
}

func declareAnswer(m *document.Mapping, a *answerSheet) {
	m.Need("is", "because")
	m.Text("is", &a.is, anAnswer)
	m.Bool("tempting", &a.tempting)
	m.Text("because", &a.because, aText)
}
