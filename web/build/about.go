package main

// cautions are the message identities of the cautions, in the order in which
// they are read.
var cautions = []string{
	"about.caution-model",
	"about.caution-isolate",
	"about.caution-stored",
	"about.caution-rotating",
	"about.caution-hand-winding",
	"about.caution-other-circuits",
	"about.caution-links",
	"about.caution-measuring",
	"about.caution-keys",
	"about.caution-entrance",
	"about.caution-pit",
	"about.caution-start",
	"about.caution-asbestos",
	"about.caution-mercury",
	"about.caution-alone",
	"about.caution-trapped",
	"about.caution-observe",
	"about.caution-code",
}

// A part is one thing by other people that ships in the site, with the text
// of its licence.
type part struct {
	Name    string // as its makers write it
	Use     string // message identity of what it does here
	Licence string // the licence's common name
	Text    string
}
