package script

import "wheelroom/physics/document"

// newest is the version of the format this package writes and the highest it
// reads.
const newest = 1

// A sheet is a lesson file as it is written, before its texts are parsed and
// its events and floors looked up.
type sheet struct {
	version          int
	id, title, level string
	aims             []string
	caution          string
	building, scheme string
	start            string
	terms            []Term
	items            []itemSheet
}

type itemSheet struct {
	title, start string
	lead         leadSheet
	kind, text   string
	options      []optionSheet
	calls        []Call
	segments     []segmentSheet
	summary      string
}

type leadSheet struct {
	text, until string
	calls       []Call
	speed       float64
}

type optionSheet struct {
	text, because         string
	stops                 []string
	saysStops             bool
	goes                  string
	happens, never, order []string
}

type segmentSheet struct {
	until, text string
	speed       float64
}

// The bounds of a lesson file. A lesson is read on one screen beside a
// machine; what is longer is two lessons.
var (
	aTitle    = document.Count(1, 60, "lesson.why-title")
	aText     = document.Count(1, longestProse, "lesson.why-text")
	anID      = document.Count(1, 40, "lesson.why-id")
	aFloor    = document.Count(1, 4, "lesson.why-floor")
	anEvent   = document.Count(1, 60, "lesson.why-event")
	aTime     = document.Between(0, longestWaitS, "s", "lesson.why-time")
	aSpeed    = document.Between(0.25, 16, "", "lesson.why-speed")
	someCalls = document.Count(0, 64, "lesson.why-calls")
)

// declare says what a lesson file may hold.
func declare(m *document.Mapping, s *sheet) {
	m.Need("id", "title", "level", "building", "start", "items")
	m.Version(&s.version, newest)
	m.Text("id", &s.id, anID)
	m.Text("title", &s.title, aTitle)
	m.Choice("level", &s.level, levels, "lesson.why-level")
	m.Texts("aims", &s.aims, document.Count(0, 6, "lesson.why-aims"))
	m.Text("caution", &s.caution, aText)
	m.Text("building", &s.building, anID)
	m.Text("scheme", &s.scheme, anID)
	m.Text("start", &s.start, aFloor)
	document.ListOf(m, "terms", &s.terms, document.Count(0, 30, "lesson.why-terms"), declareTerm)
	document.ListOf(m, "items", &s.items, document.Count(1, 12, "lesson.why-items"), declareItem)
}

func declareTerm(m *document.Mapping, t *Term) {
	m.Need("word", "means")
	m.Text("word", &t.Word, aTitle)
	m.Text("means", &t.Means, document.Count(1, 300, "lesson.why-means"))
}

func declareItem(m *document.Mapping, it *itemSheet) {
	m.Need("title", "lead", "question", "segments")
	m.Text("title", &it.title, aTitle)
	m.Text("start", &it.start, aFloor)
	m.Map("lead", func(m *document.Mapping) { declareLead(m, &it.lead) })
	m.Map("question", func(m *document.Mapping) {
		m.Need("kind", "text")
		m.Choice("kind", &it.kind, kinds, "lesson.why-kind")
		m.Text("text", &it.text, aText)
	})
	document.ListOf(m, "options", &it.options, document.Count(2, 6, "lesson.why-options"), declareOption)
	document.ListOf(m, "calls", &it.calls, someCalls, declareCall)
	document.ListOf(m, "segments", &it.segments, document.Count(1, 12, "lesson.why-segments"), declareSegment)
	m.Text("summary", &it.summary, aText)
}

func declareLead(m *document.Mapping, l *leadSheet) {
	m.Need("text", "until")
	m.Text("text", &l.text, aText)
	document.ListOf(m, "calls", &l.calls, someCalls, declareCall)
	m.Text("until", &l.until, anEvent)
	m.Float("speed", &l.speed, aSpeed)
}

func declareCall(m *document.Mapping, c *Call) {
	m.Need("floor", "at_s")
	m.Text("floor", &c.Floor, aFloor)
	m.Float("at_s", &c.AtS, aTime)
}

func declareSegment(m *document.Mapping, s *segmentSheet) {
	m.Need("until")
	m.Text("until", &s.until, anEvent)
	m.Float("speed", &s.speed, aSpeed)
	m.Text("text", &s.text, aText)
}

func declareOption(m *document.Mapping, o *optionSheet) {
	m.Need("text", "because")
	m.Text("text", &o.text, aTitle)
	o.saysStops = m.Given("stops")
	m.Texts("stops", &o.stops, document.Count(0, 32, "lesson.why-stops"))
	m.Choice("goes", &o.goes, sortedKeys(ways), "lesson.why-goes")
	m.Texts("happens", &o.happens, document.Count(1, 8, "lesson.why-claim"))
	m.Texts("never", &o.never, document.Count(1, 8, "lesson.why-claim"))
	m.Texts("order", &o.order, document.Count(2, 8, "lesson.why-claim"))
	m.Text("because", &o.because, aText)
}
