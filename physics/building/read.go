package building

import (
	"math"

	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// Read reads a building file, known as name in its problems, and completes it
// with the defaults. Problems are sorted by place. With any error among them
// (document.Failed) the plan is the zero Plan: a file is never half applied.
func Read(name string, text []byte) (Plan, []document.Problem) {
	p := Defaults()
	problems := document.Read(name, text, declare(&p))
	given := func(path string) bool { return document.Has(text, path) }
	weigh(&p, given)
	derive(&p, given)
	c := checker{plan: &p, read: problems}
	c.all()
	for _, found := range c.problems {
		found.Path = Cause(text, found.Path)
		problems = append(problems, found)
	}
	document.Place(name, text, problems)
	if document.Failed(problems) {
		return Plan{}, problems
	}
	return p, problems
}

// Write returns the building file of a plan: every value, in one fixed form.
// Read of it gives the plan back.
func Write(p Plan) []byte { return document.Write(declare(&p)) }

// Check returns what Read would say of the plan's file.
func Check(p Plan) []document.Problem {
	_, problems := Read("", Write(p))
	return problems
}

// Fields describes every key of a building file with its unit, limits, reason
// and default, in the order in which they are written.
func Fields() []document.Field {
	p := Defaults()
	return document.Describe(declare(&p))
}

// Schema returns the JSON Schema of building files; text words the reasons.
func Schema(text func(phrase.Phrase) string) []byte {
	return document.Schema(Fields(), phrase.Of("building.schema-title"), text)
}

// derive fills in the defaults that depend on other values, where no value is
// given at their paths.
func derive(p *Plan, given func(path string) bool) {
	if !given("selector.span_deg") && len(p.Floors) > 0 {
		p.Selector.SpanDeg = SpanFor(p.TravelM())
	}
	if !given("machine.rated_speed_m_s") {
		// A loaded induction motor runs a few per cent under its synchronous
		// speed; 5 % is common practice, no source.
		p.Machine.RatedSpeedMS = math.Round(100*0.95*SynchronousMS(p)) / 100
	}
}

// SpanFor returns the wheel's default span in degrees for a travel in metres:
// 270°, and never more than 30° a metre.
func SpanFor(travelM float64) float64 { return min(270, 30*travelM) }

// SynchronousMS returns the car's speed in m/s with the motor at the fast
// winding's synchronous speed: 2f/poles turns a second, through the gear, on
// the sheave's rim, shared by the falls of the roping.
func SynchronousMS(p *Plan) float64 {
	m := p.Machine
	return 2 * m.SupplyHz / float64(m.FastPoles) / m.GearRatio * math.Pi * m.SheaveDiameterM / float64(m.Roping)
}
