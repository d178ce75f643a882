package why

import (
	"slices"
	"strings"

	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

const (
	upLine   = "relay.up-line"
	downLine = "relay.down-line"
)

// outside is why a switch that no coil moves stands as it does.
func outside(part string) End {
	kind, _, _ := strings.Cut(part, ".")
	if strings.HasPrefix(kind, "button") {
		return Input
	}
	switch kind {
	case "stop-switch", "safety-gear", "overload", "isolator":
		return Input
	}
	return Position
}

// Name is a part in words: "the up relay", "call 3".
func Name(part lift.Part) phrase.Phrase { return (*network)(nil).name(string(part)) }

// name is a part in words.
func (*network) name(part string) phrase.Phrase {
	kind, rest, _ := strings.Cut(part, ".")
	if kind == "relay" {
		return phrase.Of("why.relay-" + rest)
	}
	if kind == "terminal" {
		return phrase.Of("why.name-terminal", "terminal", rest)
	}
	if rest == "" {
		return phrase.Of("why.name-" + kind)
	}
	return phrase.Of("why.name-"+kind, "floor", rest)
}

// fact is how a part stands: in, pressed, made or operated, or not. pole
// picks one side of a direction switch.
func (n *network) fact(part, pole string, on bool) phrase.Phrase {
	kind, rest, _ := strings.Cut(part, ".")
	word := map[bool]string{true: "on", false: "off"}[on]
	switch {
	case part == upLine || part == downLine:
		return n.lineFact(part, on, false)
	case n.w.Coil(part) >= 0 && !strings.HasPrefix(kind, "call"):
		return phrase.Of("why.fact-relay-"+word, "part", n.name(part))
	case strings.HasPrefix(kind, "call"):
		return phrase.Of("why.fact-call-"+word, "call", n.name(part))
	case strings.HasPrefix(kind, "button"):
		return phrase.Of("why.fact-button-"+word, "button", n.name(part))
	case pole != "":
		return phrase.Of("why.fact-"+pole+"-"+word, "floor", rest)
	case kind == "terminal":
		return phrase.Of("why.fact-terminal-"+word, "terminal", rest)
	case rest != "":
		return phrase.Of("why.fact-"+kind+"-"+word, "floor", rest)
	}
	return phrase.Of("why.fact-" + kind + "-" + word)
}

// lineFact says of a line which call makes it live, or that none does. still
// is for a relay that has been holding on to it.
func (n *network) lineFact(line string, on, still bool) phrase.Phrase {
	side := "above"
	if line == downLine {
		side = "below"
	}
	relay := phrase.Of("why.fact-relay-"+map[bool]string{true: "on", false: "off"}[on], "part", n.name(line))
	end := n.leaves[n.load(line)].From
	if live := n.isolated < 0 && n.reached(-1)[end]; live != on {
		return relay // its armature has not followed yet, or is faulty
	}
	if !on {
		return phrase.Of("why.none-" + side)
	}
	for _, leaf := range n.cheapest(end, func(l int) float64 { return n.closedCost(l, line, -1) }) {
		if call := n.leaves[leaf].Part(); strings.HasPrefix(call, "call") {
			if still {
				return phrase.Of("why.call-still-"+side, "call", n.name(call))
			}
			return phrase.Of("why.call-"+side, "call", n.name(call))
		}
	}
	return relay
}

// factOf is how the part of a contact stands, told by the contact.
func (n *network) factOf(leaf int) phrase.Phrase {
	c := n.leaves[leaf].Body.(control.Contact)
	closed := n.view.Contacts[leaf]
	if n.contradicts(leaf) {
		id := "why.fact-contact-off"
		if closed {
			id = "why.fact-contact-on"
		}
		return phrase.Of(id, "contact", n.contactName(leaf))
	}
	return n.fact(c.Part, c.Pole, closed != c.Breaks)
}

// because is the fact of a contact and, for a relay, the cause one step back.
func (n *network) because(leaf int) phrase.Phrase {
	fact := n.factOf(leaf)
	if n.contradicts(leaf) {
		return fact
	}
	return n.withCause(n.leaves[leaf].Part(), fact)
}

// withCause adds to a relay's fact why it is so, unless that goes without
// saying.
func (n *network) withCause(part string, fact phrase.Phrase) phrase.Phrase {
	if part == "lock" {
		part = "cam"
	}
	coil := n.w.Coil(part)
	if coil < 0 || strings.HasPrefix(part, "call") || part == upLine || part == downLine {
		return fact
	}
	load := n.load(part)
	fed := n.isolated < 0 && n.reached(-1)[n.leaves[load].From]
	if fed != n.view.Relays[coil] {
		return phrase.Of(map[bool]string{true: "why.not-yet-in", false: "why.not-yet-out"}[fed], "fact", fact)
	}
	var cause phrase.Phrase
	if fed {
		cause = n.causeOn(part, load)
	} else {
		cause = n.causeOff(part, load)
	}
	if cause.ID == "" {
		return fact
	}
	return phrase.Of("why.because", "fact", fact, "cause", cause)
}

// causeOn is the most telling fact of a relay's conducting path.
func (n *network) causeOn(part string, load int) phrase.Phrase {
	path := n.cheapest(n.leaves[load].From, func(l int) float64 { return n.closedCost(l, part, -1) })
	holds := slices.ContainsFunc(path, func(l int) bool { return n.leaves[l].Part() == part })
	if news := n.news(path, part); len(news) > 0 {
		leaf := news[len(news)-1]
		if p := n.leaves[leaf].Part(); holds && (p == upLine || p == downLine) {
			return n.lineFact(p, true, true)
		}
		return n.factOf(leaf)
	}
	if holds {
		return phrase.Of("why.it-holds")
	}
	return phrase.Phrase{}
}

// causeOff is the first thing that keeps a relay out.
func (n *network) causeOff(part string, load int) phrase.Phrase {
	if n.isolated > 0 {
		return n.fact("isolator", "", true)
	}
	path := n.cheapest(n.leaves[load].From, func(l int) float64 { return n.openCost(l, part) })
	for _, leaf := range path {
		if !n.view.Contacts[leaf] {
			return n.factOf(leaf)
		}
	}
	return phrase.Phrase{}
}

// settled are the parts that are in or made whenever the lift is fit to run;
// a path through them is no news.
var settled = []string{"car-door", "landing-door", "lock", "at-rest", "relay.safety", "cam"}

// news picks from a path the contacts that say something: those of parts that
// have come in or been made.
func (n *network) news(path []int, own string) []int {
	var out []int
	for _, leaf := range path {
		c := n.leaves[leaf].Body.(control.Contact)
		if !c.Breaks && c.Part != own && !slices.Contains(settled, c.Part) {
			out = append(out, leaf)
		}
	}
	return out
}

// onReason says why a load is on: what has come in on its path.
func (n *network) onReason(a *Answer, own string) phrase.Phrase {
	var path []int
	holds := false
	for _, s := range a.Path[:len(a.Path)-1] {
		path = append(path, s.Leaf)
		holds = holds || n.leaves[s.Leaf].Part() == own
	}
	if own == upLine || own == downLine {
		return n.lineFact(own, true, false)
	}
	var facts []phrase.Phrase
	for _, leaf := range n.news(path, own) {
		p := n.leaves[leaf].Part()
		if holds && (p == upLine || p == downLine) {
			facts = append(facts, n.lineFact(p, true, true))
		} else {
			facts = append(facts, n.factOf(leaf))
		}
	}
	facts = distinct(facts)
	switch {
	case holds && len(facts) == 0:
		return phrase.Of("why.it-holds")
	case holds:
		return phrase.Of("why.it-holds-while", "reason", joined(facts))
	case len(facts) == 0:
		return phrase.Of("why.all-closed")
	}
	return joined(facts)
}

// offReason says why a load is off: what keeps its contacts open.
func (n *network) offReason(blockers []Blocker, own string) phrase.Phrase {
	if n.isolated > 0 {
		return blockers[0].Say
	}
	if own == upLine || own == downLine {
		if f := n.lineFact(own, false, false); f.ID == "why.none-above" || f.ID == "why.none-below" {
			return f
		}
	}
	var facts []phrase.Phrase
	for i, b := range blockers {
		// One cause is enough for a sentence; the others can be asked about.
		if i == 0 {
			facts = append(facts, b.Say)
		} else {
			facts = append(facts, n.factOf(b.Leaf))
		}
		// Of two relays either of which would do, both are out.
		if len(b.Or) == 1 && n.isRelay(b.Leaf) && n.isRelay(b.Or[0]) {
			facts = append(facts, n.factOf(b.Or[0]))
		}
	}
	return joined(distinct(facts))
}

func (n *network) isRelay(leaf int) bool {
	part := n.leaves[leaf].Part()
	return n.w.Coil(part) >= 0 && !strings.HasPrefix(part, "call")
}

// joined strings facts together; beyond the second they are only counted.
func joined(facts []phrase.Phrase) phrase.Phrase {
	switch len(facts) {
	case 0:
		return phrase.Of("why.no-way")
	case 1:
		return facts[0]
	}
	both := phrase.Of("why.and", "first", facts[0], "second", facts[1])
	if len(facts) == 2 {
		return both
	}
	return phrase.Of("why.and-more", "facts", both, "count", len(facts)-2)
}

func distinct(facts []phrase.Phrase) []phrase.Phrase {
	var out []phrase.Phrase
	for _, f := range facts {
		same := func(o phrase.Phrase) bool { return o.String() == f.String() }
		if !slices.ContainsFunc(out, same) {
			out = append(out, f)
		}
	}
	return out
}

// loadFact is the end of a path.
func (n *network) loadFact(part string) phrase.Phrase {
	return phrase.Of("why.fed", "part", n.name(part))
}

// contactName says which contact of which circuit a leaf is.
func (n *network) contactName(leaf int) phrase.Phrase {
	c := n.leaves[leaf].Body.(control.Contact)
	id := "why.make-contact"
	switch {
	case c.Pole != "":
		id = "why." + c.Pole + "-contact"
	case c.Breaks:
		id = "why.break-contact"
	}
	return phrase.Of(id, "part", n.name(c.Part), "circuit", n.circuit(n.leaves[leaf].Branch))
}

// circuit names what a branch belongs to.
func (n *network) circuit(branch int) phrase.Phrase {
	b := &n.w.Diagram.Branches[branch]
	for i := range n.leaves {
		if l := &n.leaves[i]; l.Branch == branch && l.Contact < 0 {
			return phrase.Of("why.circuit", "part", n.name(l.Part()))
		}
	}
	kind, _, _ := strings.Cut(b.Name, ".")
	switch {
	case kind == "safety-line":
		return phrase.Of("why.circuit-safety-line")
	case kind == "row" || kind == "above" || kind == "below":
		return phrase.Of("why.circuit-row", "floor", n.w.Diagram.Floors[b.Floor])
	case strings.HasPrefix(kind, "up-"):
		return phrase.Of("why.circuit", "part", n.name("relay.up"))
	case strings.HasPrefix(kind, "down-"):
		return phrase.Of("why.circuit", "part", n.name("relay.down"))
	}
	return phrase.Of("why.circuit", "part", n.name("relay.stop"))
}

// made tells whether a switch is made, pressed or operated.
func (n *network) made(part string) bool {
	return n.view.Switches[n.m.Switch(lift.Part(part))]
}

// contradicts tells whether a fault keeps a contact from doing what its part
// does.
func (n *network) contradicts(leaf int) bool {
	if n.m.Overridden(lift.Part(n.leaves[leaf].Part())) == "" && n.m.Overridden(lift.ContactPart(leaf)) == "" {
		return false
	}
	return n.view.Contacts[leaf] != n.follows(leaf)
}

// follows is how a contact would stand if it did what its part does.
func (n *network) follows(leaf int) bool {
	c := n.leaves[leaf].Body.(control.Contact)
	if c.Pole != "" {
		stand := n.view.Direction[slices.Index(n.w.Diagram.Floors, strings.TrimPrefix(c.Part, "direction."))]
		return stand.String() == c.Pole
	}
	if coil := n.w.Coil(c.Part); coil >= 0 {
		return n.view.Relays[coil] != c.Breaks
	}
	return n.made(c.Part) != c.Breaks
}
