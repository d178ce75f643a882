package building

import "wheelroom/physics/document"

// Declare declares the keys of a building file, its version left out, for a
// document that holds a plan somewhere inside. *p is what the keys it leaves
// out come to: Defaults, or another building to be changed.
func Declare(m *document.Mapping, p *Plan) {
	m.Text("name", &p.Name, document.Count(1, 60, "building.why-name"))
	document.ListOf(m, "floors", &p.Floors, document.Count(minFloors, maxFloors, "building.why-floors"), floor)
	m.Map("lift", p.Lift.declare)
	m.Map("machine", p.Machine.declare)
	m.Map("motor", p.Motor.declare)
	m.Map("brake", p.Brake.declare)
	m.Map("selector", p.Selector.declare)
	m.Map("shaft", p.Shaft.declare)
	m.Map("door", p.Door.declare)
	m.Map("control", p.Control.declare)
}

// Within completes a plan that was declared at a path of a document and
// returns what is wrong with it, by paths of that document. changed says that
// the plan started as another building, whose values stand where the text
// gives none; otherwise the defaults that follow from other values are worked
// out. It is to be asked only when all that stands at the path could be read.
func Within(text []byte, at string, p *Plan, changed bool) []document.Problem {
	given := func(path string) bool { return document.Has(text, at+"."+path) }
	weigh(p, given)
	if !changed {
		derive(p, given)
	}
	c := checker{plan: p}
	c.all()
	for i := range c.problems {
		c.problems[i].Path = at + "." + c.problems[i].Path
	}
	return c.problems
}
