package building

import "wheelroom/physics/document"

// Draft returns what of a building file can be read, with the defaults in
// place of everything else, wrong values among it. It is what a form shows
// while a file is being written, and never to be built.
func Draft(text []byte) Plan {
	p := Defaults()
	document.Read("", text, declare(&p))
	given := func(path string) bool { return document.Has(text, path) }
	weigh(&p, given)
	derive(&p, given)
	return p
}

// Values describes every key of a building file as Fields does, with the
// values of a plan in place of the defaults.
func Values(p Plan) []document.Field { return document.Describe(declare(&p)) }
