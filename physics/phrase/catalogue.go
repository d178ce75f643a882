package phrase

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"
	"sync"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
)

// Messages every catalogue must have: they say which language it speaks and
// how that language writes a number.
const (
	tagID   = "language.tag"     // "en"
	pointID = "language.decimal" // between the whole and the fraction, "."
	minusID = "language.minus"   // before a negative number
)

// A Catalogue words phrases in one language. It is safe for use from several
// goroutines.
type Catalogue struct {
	messages     map[string]message
	tag          language.Tag
	point, minus string

	lock    sync.Mutex
	missing map[string]bool
}

// A message is one text, or one for each plural form of the slot "count".
type message map[form]template

// form is a plural form by its CLDR name; a message without forms has only
// "other".
type form string

const (
	slotOfCount      = "count"
	other       form = "other"
)

var forms = map[plural.Form]form{plural.Zero: "zero", plural.One: "one", plural.Two: "two",
	plural.Few: "few", plural.Many: "many", plural.Other: other}

// Text words a phrase; the empty phrase words to "". A message the catalogue
// lacks shows as ⟦its identity⟧, a slot the phrase lacks as ⟦the slot's name⟧;
// both are remembered by Missing.
func (c *Catalogue) Text(p Phrase) string {
	var b strings.Builder
	c.write(&b, p)
	return b.String()
}

func (c *Catalogue) write(b *strings.Builder, p Phrase) {
	if p.ID == "" {
		return
	}
	m, ok := c.messages[p.ID]
	if !ok {
		c.miss(p.ID)
		b.WriteString("⟦" + p.ID + "⟧")
		return
	}
	for _, part := range c.chosen(m, p) {
		b.WriteString(part.text)
		if part.slot == "" {
			continue
		}
		i := slices.IndexFunc(p.Slots, func(s Slot) bool { return s.Name == part.slot })
		if i < 0 {
			c.miss(p.ID + " {" + part.slot + "}")
			b.WriteString("⟦" + part.slot + "⟧")
			continue
		}
		switch v := p.Slots[i].Value.(type) {
		case string:
			b.WriteString(v)
		case int:
			b.WriteString(c.signed(strconv.Itoa(v)))
		case Number:
			b.WriteString(c.Number(v))
		case Phrase:
			c.write(b, v)
		default:
			c.miss(p.ID + " {" + part.slot + "}")
			b.WriteString("⟦" + part.slot + "⟧")
		}
	}
}

// chosen returns the text of a message for the phrase's count.
func (c *Catalogue) chosen(m message, p Phrase) template {
	for _, s := range p.Slots {
		n, whole := s.Value.(int)
		if s.Name != slotOfCount || !whole {
			continue
		}
		if t, ok := m[forms[plural.Cardinal.MatchPlural(c.tag, max(n, -n), 0, 0, 0, 0)]]; ok {
			return t
		}
	}
	return m[other]
}

// Number spells a number with its decimals as the language writes it. What
// rounds to nothing has no sign.
func (c *Catalogue) Number(n Number) string {
	s := strconv.FormatFloat(n.Value, 'f', n.Decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	return c.signed(strings.Replace(s, ".", c.point, 1))
}

func (c *Catalogue) signed(s string) string {
	if digits, negative := strings.CutPrefix(s, "-"); negative {
		return c.minus + digits
	}
	return s
}

func (c *Catalogue) miss(what string) {
	c.lock.Lock()
	defer c.lock.Unlock()
	c.missing[what] = true
}

// Missing lists what Text was asked for and did not have, sorted: "id" for a
// message, "id {slot}" for a slot.
func (c *Catalogue) Missing() []string {
	c.lock.Lock()
	defer c.lock.Unlock()
	return sorted(c.missing)
}

// Language is the tag of the catalogue's language, as in "en".
func (c *Catalogue) Language() string { return c.tag.String() }

// Has reports whether there is a message with that identity.
func (c *Catalogue) Has(id string) bool { _, ok := c.messages[id]; return ok }

// IDs lists the identities of all messages, sorted.
func (c *Catalogue) IDs() []string { return sorted(c.messages) }

// JSON returns the catalogue as one JSON object, sorted by identity: a message
// is its text with {slots}, or an object of such texts by plural form.
func (c *Catalogue) JSON() []byte {
	all := make(map[string]any, len(c.messages))
	for id, m := range c.messages {
		if len(m) == 1 {
			all[id] = m[other].String()
			continue
		}
		byForm := make(map[form]string, len(m))
		for f, t := range m {
			byForm[f] = t.String()
		}
		all[id] = byForm
	}
	out, err := json.Marshal(all) // sorts the keys of a map
	if err != nil {
		panic("phrase: catalogue as JSON: " + err.Error())
	}
	return out
}

func sorted[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
