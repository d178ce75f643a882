package script

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/physics/building"
	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

const sound = `version: 1
id: one-call
title: One call
level: beginner
aims: [Follow a call.]
caution: Stay out of machine rooms.
building: mill
start: "1"
terms:
  - {word: up line, means: The wire of the calls above.}
items:
  - title: Where to?
    lead:
      text: The car stands at {start.floor}, *closed*.
      calls: [{floor: "3", at_s: 0.5}]
      until: departs 1 + 0.5 s
      speed: 2
    question:
      kind: choose-one
      text: Floor 3 called at {lead.call.3.registered.time}.
    options:
      - text: Floor 3
        stops: ["3"]
        because: |
          It **stopped** at {stop.1.time}, see [the list](#terms).

          - One reason: {relay.up.in.time}.
          - Another: {lamp.3.lit.length}.
      - text: Nowhere
        goes: nowhere
        never: [relay.up in]
        because: It left at {departure.last.after}.
    calls: [{floor: "2", at_s: 1}]
    segments:
      - {until: rim.2 made, speed: 0.5, text: "Passing {floor.2.height}."}
      - {until: call.3 answered}
    summary: Done after {stop.count} stop.
`

// mill has floors 1, 2, 3, 10 and 1.5, some of whose names could be read as
// ordinals or as two words of a fact.
func mill(id string) (*building.Plan, []string) {
	if id != "mill" {
		return nil, []string{"mill", "tower"}
	}
	p := building.Evenly("Mill", 5, 3)
	p.Floors[3].Name, p.Floors[4].Name = "10", "1.5"
	return &p, nil
}

func at(problems []document.Problem) []string {
	var list []string
	for _, p := range problems {
		list = append(list, fmt.Sprintf("%d:%d %s", p.Line, p.Col, p.Phrase))
	}
	return list
}

func TestReadASoundLesson(t *testing.T) {
	l, problems := Read("one.yaml", []byte(sound), mill)
	require.Empty(t, at(problems))
	assert.Equal(t, "one-call", l.ID)
	assert.Equal(t, Beginner, l.Level)
	assert.Equal(t, "Mill", l.Items[0].Plan.Name)
	require.Len(t, l.Items, 1)
	it := l.Items[0]
	assert.Equal(t, "1", it.Start)
	assert.Equal(t, 2.0, it.Lead.Speed)
	assert.Equal(t, 1.0, it.Segments[1].Speed)
	assert.Equal(t, ChooseOne, it.Kind)
	assert.Equal(t, []string{"3"}, *it.Options[0].Claim.Stops)
	assert.Equal(t, Nowhere, it.Options[1].Claim.Goes)
	assert.Equal(t, "b", it.Options[1].ID)
	why := it.Options[0].Because
	require.Len(t, why, 3)
	assert.Equal(t, []BlockKind{Paragraph, Bullet, Bullet}, []BlockKind{why[0].Kind, why[1].Kind, why[2].Kind})
	assert.Equal(t, "It stopped at {stop.1.time}, see the list.\nOne reason: {relay.up.in.time}.\nAnother: {lamp.3.lit.length}.", why.Plain())
	assert.True(t, why[0].Runs[1].Strong)
	assert.Equal(t, "#terms", why[0].Runs[5].Href)
	assert.Len(t, why.Facts(), 3)
}

func TestReadSaysWhatIsWrongAndWhere(t *testing.T) {
	for _, c := range []struct {
		name, from, to string
		want           string // what the problems hold, the first of them
	}{
		{"unknown key", "aims:", "aim:", "5:1 document.unknown-key-near"},
		{"unknown building", "building: mill", "building: mil", "7:11 lesson.unknown-building[found=mil remedy=document.remedy-near[near=mill]]"},
		{"unknown scheme", "building: mill", "building: mill\nscheme: directionl", "8:9 lesson.unknown-scheme[found=directionl remedy=document.remedy-near[near=directional]]"},
		{"id", "id: one-call", "id: One Call", "2:5 lesson.bad-id[found=One Call]"},
		{"newer version", "version: 1", "version: 2", "1:10 document.newer-version"},
		{"unknown floor of the start", `start: "1"`, `start: "7"`, "8:8 lesson.unknown-floor[found=7 floors=1, 2, 3, 10, 1.5]"},
		{"unknown floor of a call", `{floor: "3"`, `{floor: "4"`, "15:23 lesson.unknown-floor[found=4"},
		{"unknown floor of a claim", `stops: ["3"]`, `stops: ["3", "9"]`, "23:22 lesson.unknown-floor[found=9"},
		{"unknown event", "rim.2 made", "rim.2 mode", "35:17 lesson.unknown-event[found=rim.2 mode remedy=document.remedy-near[near=rim.2 made]]"},
		{"unknown event of a claim", "relay.up in", "relay.upp in", "31:17 lesson.unknown-event[found=relay.upp in remedy=document.remedy-near[near=relay.up in]]"},
		{"delay", "+ 0.5 s", "+ 0.5", "16:14 lesson.bad-delay[found=0.5"},
		{"unknown fact", "{stop.1.time}", "{stop.1.tim}", "25:29 lesson.unknown-fact[found=stop.1.tim remedy=document.remedy-near[near=stop.1.time]]"},
		{"unknown signal", "{relay.up.in.time}", "{relay.op.in.time}", "27:25 lesson.unknown-fact[found=relay.op.in.time remedy=document.remedy-near[near=relay.up.in.time]]"},
		{"unknown signal of a duration", "{relay.up.in.time}", "{relay.upp.in since relay.up.out}", "27:25 lesson.unknown-fact[found=relay.upp.in since relay.up.out remedy=document.remedy-near[near=relay.up.in since relay.up.out]]"},
		{"unknown event before a delay", "departs 1 + 0.5 s", "depart 1 + 0.5 s", "16:14 lesson.unknown-event[found=depart 1 remedy=document.remedy-near[near=departs 1]]"},
		{"no floor of a lamp", "{lamp.3.lit.length}", "{lamp.3.lit.floor}", "28:22 lesson.unknown-fact[found=lamp.3.lit.floor"},
		{"count has no ordinal", "{stop.count}", "{stop.2.count}", "37:25 lesson.unknown-fact[found=stop.2.count"},
		{"open brace", "{stop.count} stop", "{stop.count stop", "37:25 lesson.open-brace[found=stop.count]"},
		{"fact of the answer", "{lead.call.3.registered.time}", "{call.3.registered.time}", "20:31 lesson.fact-of-the-answer[found=call.3.registered.time]"},
		{"fact of the answer in an option", "- text: Nowhere", "- text: Nowhere but {stop.1.floor}", "29:27 lesson.fact-of-the-answer"},
		{"duration of the answer", "{lead.call.3.registered.time}", "{stop.1 since lead.call.3.registered}", "20:31 lesson.fact-of-the-answer"},
		{"fact too early", "{start.floor}", "{frozen.time}", "14:31 lesson.fact-too-early[found=frozen.time]"},
		{"no claim", "        goes: nowhere\n        never: [relay.up in]\n", "", "29:9 lesson.no-claim"},
		{"unknown kind", "kind: choose-one", "kind: choose-two", "19:13 document.not-a-choice"},
		{"worked with options", "kind: choose-one", "kind: worked", "21:5 lesson.worked-with-options"},
		{"too fast", "speed: 0.5", "speed: 50", "35:36 document.number-too-large"},
		{"HTML", "Follow a call.]\ncaution: Stay", "Follow a call.]\ncaution: <b>Stay</b>", "6:10 lesson.prose-refused[what=lesson.prose.html]"},
		{"a picture", "*closed*", "![x](y.png)", "14:51 lesson.prose-refused[what=lesson.prose.picture]"},
		{"a link away", "(#terms)", "(https://example.org/)", "25:59 lesson.prose-refused[what=lesson.prose.link]"},
		{"a script link", "(#terms)", "(javascript:alert)", "25:59 lesson.prose-refused[what=lesson.prose.link]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Contains(t, sound, c.from)
			l, problems := Read("one.yaml", []byte(strings.Replace(sound, c.from, c.to, 1)), mill)
			assert.Nil(t, l)
			require.NotEmpty(t, problems)
			assert.Contains(t, at(problems)[0], c.want)
			assert.Equal(t, "one.yaml", problems[0].File)
		})
	}
}

func TestReadListsEverythingThatIsWrong(t *testing.T) {
	text := strings.NewReplacer("kind: choose-one", "kind: choose", "{start.floor}", "{start.flor}", "departs 1 ", "leaves 1 ", `stops: ["3"]`, `stops: ["4"]`).Replace(sound)
	_, problems := Read("", []byte(text), mill)
	var ids []string
	for _, p := range problems {
		ids = append(ids, p.Phrase.ID)
	}
	assert.Equal(t, []string{"lesson.unknown-fact", "lesson.unknown-event", "document.not-a-choice", "lesson.unknown-floor"}, ids)
}

// Floor names hold dots and digits and still name what they name.
func TestFactsAndEventsKnowFloorsByName(t *testing.T) {
	plan, _ := mill("mill")
	v := newVocabulary(plan)
	for written, part := range map[string]string{
		"call.1.registered": "call.1", "call.10.registered.2": "call.10", "lamp.1.5.lit.last": "lamp.1.5", "direction.1.5.between": "direction.1.5",
	} {
		m, _, ok := v.mention(written)
		require.True(t, ok, written)
		assert.Equal(t, part, string(m.event.part))
		_, wrong, _ := v.fact(written + ".time")
		assert.Nil(t, wrong, written)
	}
	f, _, _ := v.fact("floor.1.5.height")
	require.NotNil(t, f)
	height, _ := f.Value(&Log{})
	assert.Equal(t, 12.0, height.Number)
	for _, bad := range []string{"", ".", "stop", "stop.0.time", "stop.-1.time", "stop.1", "lead.stop.1.after", "floor.7.height", "frozen.weight", "lead.", "stop.1 since", "stop.1 since x", "stop.1.time since stop.2", "door.open.open.time"} {
		_, wrong, _ := v.fact(bad)
		assert.NotNil(t, wrong, bad)
	}
	for _, bad := range []string{"", " ", "s", "0 s", "-1 s", "601 s", "NaN s", "departs 3 + ", "departs 3 + -1 s", "+ 1 s", "1e3 s"} {
		_, wrong, _ := v.until(bad)
		assert.NotNil(t, wrong, bad)
	}
}

func TestProseKeepsNoMarkup(t *testing.T) {
	for _, c := range []struct{ name, source, plain, refused string }{
		{"plain", "One *two* **three** `four`.", "One two three four.", ""},
		{"lines join", "One\ntwo\n\nthree", "One two\nthree", ""},
		{"list", "1. one\n2. two", "one\ntwo", ""},
		{"escapes", `\*no\* &lt;b&gt; &#60;`, "*no* <b> <", ""},
		{"script", "<script>alert(1)</script>", "", "html"},
		{"inline", "a <img src=x onerror=y> b", "a  b", "html"},
		{"comment", "a <!-- b --> c", "a  c", "html"},
		{"heading", "# One", "", "heading"},
		{"quote", "> one", "", "block"},
		{"code block", "```\none\n```", "", "block"},
		{"nested", "- one\n  - two", "one", "nested-list"},
		{"autolink", "<https://example.org>", "", "link"},
		{"data link", "[x](data:text/html,y)", "", "link"},
		{"host link", "[x](//example.org)", "", "link"},
		{"up link", "[x](../../y)", "", "link"},
		{"spaced scheme", "[x](<java script:y>)", "", "link"},
		{"relative link", "[x](glossary.html#ring)", "x", ""},
		{"reference", "[x]\n\n[x]: javascript:y", "[x]\n[x]: javascript:y", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, flaws := parseProse(c.source)
			if c.refused == "" {
				assert.Empty(t, flaws)
			} else {
				require.NotEmpty(t, flaws)
				assert.Equal(t, "lesson.prose."+c.refused, flaws[0].what.Slots[0].Value.(phrase.Phrase).ID)
			}
			assert.Equal(t, c.plain, strings.TrimRight(p.Plain(), "\n"))
		})
	}
}
