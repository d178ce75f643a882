package script

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/document"
)

// hostile is what a lesson file must survive besides being wrong.
func hostile() []string {
	return []string{
		"",
		"- items",
		"items: {}",
		"items: [1, [2], {lead: 3}]",
		"version: 99999999999999999999",
		"a: &a [*a]",
		"items: &i\n  - title: x\n    lead: *i\n",
		"<<: {id: x}",
		strings.Repeat("items: [", 2000),
		"title: " + strings.Repeat("é", 100),
		strings.Replace(sound, "Where to?", "<script>alert(1)</script>", 1),
		strings.Replace(sound, "*closed*", "<svg onload=alert(1)>", 1),
		strings.Replace(sound, "*closed*", "[x](javascript:alert(1))", 1),
		strings.Replace(sound, "*closed*", "![x](data:image/svg+xml;base64,AA)", 1),
		strings.Replace(sound, "*closed*", strings.Repeat("*", 3000)+strings.Repeat("[", 2900), 1),
		strings.Replace(sound, "*closed*", strings.Repeat("{stop.", 1000), 1),
		strings.Replace(sound, "*closed*", strings.Repeat("{a}", 1900), 1),
		strings.Replace(sound, "*closed*", "&#123;stop.1.time}", 1),
		strings.Replace(sound, "departs 1", strings.Repeat("departs ", 7), 1),
		strings.Replace(sound, "at_s: 0.5", "at_s: .inf", 1),
		strings.Replace(sound, "speed: 0.5", "speed: 1e-400", 1),
		strings.Replace(sound, `start: "1"`, `start: "\u0000"`, 1),
		strings.ReplaceAll(sound, "\n", "\r\n"),
		"\ufeff" + sound,
		sound[:len(sound)/2],
		strings.Replace(asking, "like: 2", "like: 8", 1),
		strings.Replace(asking, "like: 2", "like: -1", 1),
		strings.Replace(asking, "building: mill", "plan: {floors: []}", 1),
		strings.Replace(asking, "building: mill", "plan: {name: x, floors: [{name: a, height_m: 0}, {name: a, height_m: 0}]}", 1),
		strings.Replace(asking, "building: mill", "building: mill\nplan: {selector: {terminals_per_floor: 1, live_terminals: 8}}", 1),
		strings.Replace(asking, "building: mill", "building: mill\nscheme: two-button", 1),
		strings.Replace(asking, "fact: end.travel", "fact: \"stop.1 since stop.2 since stop.3\"", 1),
		strings.Replace(asking, "{why.relay.up}", "{lead.why.}{why.}{lead.lead.why.door}", 1),
		strings.Replace(asking, "first: in", "cause: \"\\0\"", 1),
		strings.Replace(asking, "tolerance: 10", "tolerance: .nan", 1),
	}
}

// Ten megabytes are refused by their length alone.
func TestReadRefusesTenMegabytes(t *testing.T) {
	for _, text := range []string{strings.Repeat("x", 10<<20), sound + "# " + strings.Repeat("x\n# ", 3<<20)} {
		lesson, problems := Read("big.yaml", []byte(text), mill)
		assert.Nil(t, lesson)
		require.Len(t, problems, 1)
		assert.Equal(t, "document.too-long", problems[0].Phrase.ID)
	}
}

func FuzzRead(f *testing.F) {
	f.Add([]byte(sound))
	f.Add([]byte(asking))
	for _, text := range hostile() {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		lesson, problems := Read("fuzz", text, mill)
		if (lesson == nil) != document.Failed(problems) {
			t.Fatalf("a lesson and no error, or neither: %v", problems)
		}
		lines := strings.Count(string(text), "\n") + strings.Count(string(text), "\r") + 1
		for _, p := range problems {
			if p.Line < 1 || p.Col < 1 || p.Line > lines+1 {
				t.Errorf("%v is placed at %d:%d of %d lines", p.Phrase, p.Line, p.Col, lines)
			}
		}
		if lesson == nil {
			return
		}
		for i := range lesson.Items {
			it := &lesson.Items[i]
			if it.Asks() {
				for _, answer := range []string{"", "a", "3 2", "1:above", "relay.up", "2.5"} {
					if tidy, ok := it.Tidy(answer); ok {
						it.Form.Whole(tidy)
						it.Form.Say(tidy)
						it.Form.Class(tidy, &Log{})
					}
				}
			}
			for _, prose := range []Prose{it.Lead.Text, it.Question, it.Summary} {
				for _, b := range prose {
					for _, r := range b.Runs {
						if r.Href != "" && !relative(r.Href) {
							t.Errorf("a link leaves the page: %q", r.Href)
						}
					}
				}
			}
		}
	})
}
