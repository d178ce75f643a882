package session

import (
	"math"
	"strconv"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
)

// An Edit is one change of a building's text.
type Edit struct {
	Text  string
	Do    string // set, clear, add-floor, remove-floor, raise-floor, lower-floor, add-join, remove-join
	Path  string // of set and clear
	Value string // of set, as typed
	Index int    // of the others: the floor or join, lowest first
}

// edit returns the text with the change made, everything else as it was
// written. A text that has no room for it is refused.
func (s *Session) edit(e Edit) (string, error) {
	t := &editing{text: []byte(e.Text), fields: building.Fields()}
	if !document.Readable(t.text) {
		return "", refuse("editor.unreadable")
	}
	p := building.Draft(t.text)
	n := len(p.Floors)
	if e.Index < 0 {
		return "", refuse("editor.unwritable")
	}
	switch e.Do {
	case "set":
		t.change(&p, e.Path, e.Value)
	case "clear":
		t.unset(e.Path)
	case "add-floor":
		t.addFloor(&p, min(e.Index, n-1))
	case "remove-floor":
		t.removeFloor(&p, e.Index)
	case "raise-floor":
		t.swap(&p, e.Index, e.Index+1)
	case "lower-floor":
		t.swap(&p, e.Index-1, e.Index)
	case "add-join":
		t.addJoin(&p)
	case "remove-join":
		t.do(document.Remove(t.text, "selector.joins", e.Index))
	default:
		return "", refuse("editor.unwritable")
	}
	if t.failed {
		return "", refuse("editor.unwritable")
	}
	return string(t.text), nil
}

// editing is a text on its way through several changes, all of them or none.
type editing struct {
	text   []byte
	fields []document.Field
	failed bool
}

func (t *editing) do(text []byte, ok bool) {
	if !ok || t.failed {
		t.failed = true
		return
	}
	t.text = text
}

func (t *editing) set(path, typed string) {
	f, ok := document.At(t.fields, path)
	if !ok || t.failed {
		t.failed = true
		return
	}
	t.do(document.Set(t.text, t.fields, path, document.Spell(f, typed)))
}

// unset takes a value out; one that is not there is out already.
func (t *editing) unset(path string) {
	if document.Has(t.text, path) {
		t.do(document.Unset(t.text, path))
	}
}

// change sets a value, and what goes with it: joins follow a floor's new name,
// and an advance for both ways takes the place of one each way. An empty
// figure is its default again.
func (t *editing) change(p *building.Plan, path, typed string) {
	f, ok := document.At(t.fields, path)
	if !ok {
		t.failed = true
		return
	}
	if typed == "" && !f.Required && f.Kind != document.Text {
		t.unset(path)
		return
	}
	t.set(path, typed)
	switch {
	case path == "selector.advance_m":
		t.unset("selector.advance_up_m")
		t.unset("selector.advance_down_m")
	case f.Key == "name" && path != "name":
		for i, floor := range p.Floors {
			if path != floorPath(i, "name") || floor.Name == "" {
				continue
			}
			for k, j := range p.Selector.Joins {
				if j.Floor == floor.Name {
					t.set("selector.joins["+strconv.Itoa(k)+"].floor", typed)
				}
			}
		}
	}
}

func floorPath(i int, key string) string { return "floors[" + strconv.Itoa(i) + "]." + key }

// New storeys are as high as the one below; where none is, as this, metres.
const storeyM = 3.2

// addFloor puts a floor above floor i. What stands above goes up by the new
// storey, so that no storey gets lower.
func (t *editing) addFloor(p *building.Plan, i int) {
	entry := func(name string, heightM float64) string {
		f, _ := document.At(t.fields, "floors[0].name")
		return "{name: " + document.Spell(f, name) + ", height_m: " + figureOf(heightM) + "}"
	}
	if i < 0 {
		t.do(document.Insert(t.text, t.fields, "floors", 0, entry(freeName(p), 0)))
		return
	}
	storey := storeyM
	if i > 0 {
		if h := p.Floors[i].HeightM - p.Floors[i-1].HeightM; h > 0 {
			storey = h
		}
	}
	for k := len(p.Floors) - 1; k > i; k-- {
		t.set(floorPath(k, "height_m"), figureOf(tidy(p.Floors[k].HeightM+storey)))
	}
	t.do(document.Insert(t.text, t.fields, "floors", i+1, entry(freeName(p), tidy(p.Floors[i].HeightM+storey))))
}

// removeFloor takes a floor out. Without the lowest the others count from the
// next; joins of its lamp go with it.
func (t *editing) removeFloor(p *building.Plan, i int) {
	if i >= len(p.Floors) {
		t.failed = true
		return
	}
	if i == 0 && len(p.Floors) > 1 {
		for k := 1; k < len(p.Floors); k++ {
			t.set(floorPath(k, "height_m"), figureOf(tidy(p.Floors[k].HeightM-p.Floors[1].HeightM)))
		}
	}
	t.do(document.Remove(t.text, "floors", i))
	for k := len(p.Selector.Joins) - 1; k >= 0; k-- {
		if p.Selector.Joins[k].Floor == p.Floors[i].Name {
			t.do(document.Remove(t.text, "selector.joins", k))
		}
	}
}

// swap lets two floors change places: the landings stay, the names move.
func (t *editing) swap(p *building.Plan, i, k int) {
	if i < 0 || k >= len(p.Floors) {
		t.failed = true
		return
	}
	t.set(floorPath(i, "name"), p.Floors[k].Name)
	t.set(floorPath(k, "name"), p.Floors[i].Name)
}

func (t *editing) addJoin(p *building.Plan) {
	terminal := 0
	for _, j := range p.Selector.Joins {
		terminal = max(terminal, j.Terminal+1)
	}
	t.do(document.Insert(t.text, t.fields, "selector.joins", len(p.Selector.Joins),
		"{terminal: "+strconv.Itoa(terminal)+", floor: "+building.Blank+"}"))
}

// freeName is the lowest number over all that are taken.
func freeName(p *building.Plan) string {
	highest := 0
	for _, f := range p.Floors {
		if n, err := strconv.Atoi(f.Name); err == nil {
			highest = max(highest, n)
		}
	}
	return strconv.Itoa(highest + 1)
}

// tidy rounds a sum of heights to a tenth of a millimetre.
func tidy(m float64) float64 { return math.Round(m*1e4) / 1e4 }
