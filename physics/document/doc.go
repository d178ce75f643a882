// Package document reads and writes the YAML files a person keeps by hand:
// building files and lesson files.
//
// What a file may hold is declared once, as a function over a Mapping:
//
//	func brake(m *document.Mapping, b *Brake) {
//		m.Float("torque_nm", &b.TorqueNM, document.Between(20, 2000, "N·m", "building.why-brake"))
//	}
//
// The same declaration reads a file (Read), writes it (Write), and describes
// it for a form or a JSON Schema (Describe, Schema), so a limit, its unit and
// its reason stand in one place.
//
// Reading is strict: unknown and doubled keys, wrong types, values outside
// their limits, anchors, aliases, tags and merge keys are all problems, each
// with its line and column. Everything that is wrong is reported at once, in
// the order of the file. The package keeps no comments and knows no words: a
// Problem speaks in phrases.
package document
