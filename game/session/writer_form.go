package session

import (
	"strconv"
	"strings"

	"wheelroom/lessons/script"
	"wheelroom/physics/control"
	"wheelroom/physics/document"
)

// A WriterField is one entry of the form. Kind is "text", "long", "choice",
// "list" (texts with commas between) or "calls" (FLOOR@SECONDS with commas
// between).
type WriterField struct {
	Path    string   `json:"path"`
	Name    string   `json:"name"` // of its message: writer.field-NAME
	Number  int      `json:"number"`
	Kind    string   `json:"kind"`
	Value   string   `json:"value"`
	Choices []string `json:"choices"`
}

func itemPath(i int) string { return "items[" + strconv.Itoa(i) + "]" }

// entriesAt counts the entries of a list among scalars. Entries without any
// scalar end it.
func entriesAt(values map[string]string, path string) int {
	most := -1
	for at := range values {
		rest, ok := strings.CutPrefix(at, path+"[")
		if !ok {
			continue
		}
		number, _, _ := strings.Cut(rest, "]")
		if n, err := strconv.Atoi(number); err == nil {
			most = max(most, n)
		}
	}
	return most + 1
}

// kindFields are the keys of a question that each kind of it has.
var kindFields = map[script.Kind][]string{
	script.OrderStops: {"floors:list"}, script.SetSwitches: {"floors:list"},
	script.PointAtPart: {"parts:list", "first", "last", "cause", "now", "end"}, script.FaultyPart: {"parts:list"},
	script.ReadNumber: {"fact", "tolerance", "unit"}, script.LampOut: {"event", "span_s", "tolerance"},
}

// writerFields lists what the form shows of the lesson and of one item.
func (s *Session) writerFields(values map[string]string, item int) []WriterField {
	f := form{values: values}
	var ids []string
	for _, b := range s.o.Buildings {
		ids = append(ids, b.ID)
	}
	f.add("title", "title", "text")
	f.add("id", "id", "text")
	f.add("level", "level", "choice", "beginner", "trainee", "skilled")
	f.add("building", "building", "choice", append([]string{""}, ids...)...)
	f.add("scheme", "scheme", "choice", append([]string{""}, control.Schemes()...)...)
	f.add("start", "start", "text")
	if entriesAt(values, "items") == 0 {
		return f.list
	}
	at := itemPath(item) + "."
	f.add(at+"title", "item-title", "text")
	f.add(at+"scheme", "scheme", "choice", append([]string{""}, control.Schemes()...)...)
	f.add(at+"start", "start", "text")
	f.add(at+"lead.text", "lead-text", "long")
	f.add(at+"lead.calls", "lead-calls", "calls")
	f.add(at+"lead.until", "lead-until", "text")
	f.add(at+"question.kind", "kind", "choice", script.Kinds()...)
	f.add(at+"question.text", "question", "long")
	kind := script.Kind(values[at+"question.kind"])
	for _, key := range kindFields[kind] {
		name, kind, given := strings.Cut(key, ":")
		if !given {
			kind = "text"
		}
		f.add(at+"question."+name, "question-"+strings.ReplaceAll(name, "_", "-"), kind)
	}
	f.add(at+"calls", "calls", "calls")
	f.each(at+"options", func(at string) {
		f.add(at+"text", "option", "text")
		f.add(at+"stops", "stops", "list")
		f.add(at+"happens", "happens", "list")
		f.add(at+"never", "never", "list")
		f.add(at+"because", "because", "long")
	})
	f.each(at+"answers", func(at string) {
		f.add(at+"is", "answer", "text")
		f.add(at+"because", "because", "long")
	})
	f.each(at+"segments", func(at string) {
		f.add(at+"until", "until", "text")
		f.add(at+"text", "told", "long")
	})
	f.add(at+"summary", "summary", "long")
	return f.list
}

// form collects fields.
type form struct {
	values map[string]string
	list   []WriterField
	number int // of the entry the fields are of, 0 for none
}

func (f *form) add(path, name, kind string, choices ...string) {
	value := f.values[path]
	switch kind {
	case "list":
		var all []string
		for i := range entriesAt(f.values, path) {
			all = append(all, f.values[path+"["+strconv.Itoa(i)+"]"])
		}
		value = strings.Join(all, ", ")
	case "calls":
		var all []string
		for i := range entriesAt(f.values, path) {
			at := path + "[" + strconv.Itoa(i) + "]."
			all = append(all, f.values[at+"floor"]+"@"+f.values[at+"at_s"])
		}
		value = strings.Join(all, ", ")
	case "long":
		value = strings.TrimRight(value, "\n")
	}
	f.list = append(f.list, WriterField{Path: path, Name: name, Number: f.number, Kind: kind, Value: value, Choices: choices})
}

func (f *form) each(path string, fields func(at string)) {
	for i := range entriesAt(f.values, path) {
		f.number = i + 1
		fields(path + "[" + strconv.Itoa(i) + "].")
	}
	f.number = 0
}

// A WriterEdit is one change of a lesson's text.
type WriterEdit struct {
	Text  string
	Do    string // set, add, remove
	Path  string // of the value, or of the list that gets or loses an entry
	Kind  string // of set: the field's
	Value string // of set as typed, of add the entry as YAML on one line
	Index int    // of remove
}

// done returns the text with the change made, everything else as it was
// written. A text that has no room for it is refused.
func (e WriterEdit) done() (string, error) {
	text := []byte(e.Text)
	var out []byte
	var ok bool
	fields := script.Fields()
	values := document.Scalars(text)
	switch value := strings.TrimSpace(e.Value); {
	case e.Do == "add":
		out, ok = document.Insert(text, fields, e.Path, entriesAt(values, e.Path), e.Value)
	case e.Do == "remove":
		out, ok = document.Remove(text, e.Path, e.Index)
	case e.Do != "set":
	case value == "" && !document.Has(text, e.Path):
		return e.Text, nil
	case value == "":
		out, ok = document.Unset(text, e.Path)
	default:
		spelled, fine := e.spelled(fields, value)
		if !fine {
			return "", refuse("writer.bad-calls")
		}
		out, ok = document.Set(text, fields, e.Path, spelled)
	}
	if !ok {
		return "", refuse("writer.unwritable")
	}
	return string(out), nil
}

// spelled writes what was typed as YAML.
func (e WriterEdit) spelled(fields []document.Field, value string) (string, bool) {
	quote := func(s string) string { return document.Spell(document.Field{Kind: document.Text}, s) }
	if e.Kind != "list" && e.Kind != "calls" {
		f, _ := document.At(fields, e.Path)
		return document.Spell(f, value), true
	}
	var all []string
	for _, word := range strings.Split(value, ",") {
		if word = strings.TrimSpace(word); word == "" {
			continue
		}
		if e.Kind == "list" {
			all = append(all, quote(word))
			continue
		}
		floor, at, ok := strings.Cut(word, "@")
		if _, err := strconv.ParseFloat(at, 64); !ok || err != nil {
			return "", false
		}
		all = append(all, "{floor: "+quote(floor)+", at_s: "+at+"}")
	}
	return "[" + strings.Join(all, ", ") + "]", true
}
