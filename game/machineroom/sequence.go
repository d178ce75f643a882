package machineroom

import (
	"strings"

	"wheelroom/game/plot"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/study"
)

// A SequenceScreen is a start or a stop, link by link.
type SequenceScreen struct {
	Title   string    `json:"title"`
	Picture Picture   `json:"picture"`
	Links   []LinkRow `json:"links"`
	TotalMS float64   `json:"totalMS"`
	Say     string    `json:"say"`
}

// A LinkRow is one link of the chain.
type LinkRow struct {
	Event  int     `json:"event"` // of the machine's, to be gone to
	Part   string  `json:"part"`
	Text   string  `json:"text"`
	TimeS  float64 `json:"timeS"` // of the machine
	AtMS   float64 `json:"atMS"`  // since the sequence began
	At     string  `json:"at"`    // the same in words
	Cause  int     `json:"cause"` // a row; -1 for none
	After  string  `json:"after"` // "15 ms after …", in words
	AfterS float64 `json:"afterS"`
	X      float64 `json:"x"` // its mark in the picture
	Y      float64 `json:"y"`
}

// Sequence prepares what event from of a run set off; see study.Sequence.
// which is "start" or "stop".
func (r *Room) Sequence(events []lift.Event, from int, which string) SequenceScreen {
	links := study.Sequence(events, from)
	s := SequenceScreen{Title: r.of("drive.picture-sequence-" + which)}
	strip := plot.Strip{Width: r.Width, Clock: r.of("drive.head-ms"), What: r.of("drive.head-link"), Plane: r.of("drive.head-plane"), Number: r.Words.Number,
		After: func(ms float64) string {
			if ms < 0.05 {
				return r.of("drive.at-once")
			}
			return r.of("drive.after", "ms", phrase.Num(ms, decimalsOf(ms)))
		}}
	for _, l := range links {
		row := LinkRow{Event: l.Event, Part: string(l.Part), Text: r.say(Link(l.Part, l.State)), TimeS: events[l.Event].TimeS,
			AtMS: 1000 * l.TimeS, At: r.of("drive.value", "value", phrase.Num(1000*l.TimeS, 0), "unit", r.of("drive.head-ms")), Cause: l.Cause, AfterS: l.AfterS}
		if l.Cause >= 0 {
			row.After = r.of("drive.after-cause", "ms", phrase.Num(1000*l.AfterS, decimalsOf(1000*l.AfterS)),
				"cause", Link(links[l.Cause].Part, links[l.Cause].State))
		}
		s.Links = append(s.Links, row)
		strip.Events = append(strip.Events, plot.Event{Text: row.Text, AtS: l.TimeS, Cause: l.Cause, Part: row.Part})
	}
	if len(links) > 0 {
		last := links[len(links)-1]
		s.Say = r.of("drive.sequence-say", "count", len(links), "from", Link(links[0].Part, links[0].State),
			"to", Link(last.Part, last.State), "seconds", phrase.Num(last.TimeS, 2))
	}
	f, places := strip.Draw()
	for i, at := range places {
		s.Links[i].X, s.Links[i].Y = at.X, at.Y
		s.TotalMS = s.Links[i].AtMS
	}
	s.Picture = r.picture("sequence-"+which, f, phrase.Of("drive.sequence-desc"))
	return s
}

// decimalsOf a time in milliseconds: none where they would say nothing.
func decimalsOf(ms float64) int {
	if ms >= 9.95 || ms < 0.05 {
		return 0
	}
	return 1
}

// Link says in a few words what a part does.
func Link(part lift.Part, state string) phrase.Phrase {
	kind, name, _ := strings.Cut(string(part), ".")
	word := map[string]string{"1": "on", "0": "off", "-": "leaves"}[state]
	if word == "" {
		word = state
	}
	switch {
	case kind == "relay":
		switch name {
		case "brake", "up-line", "down-line", "bound-up", "bound-down":
			return phrase.Of("link." + name + "-" + word)
		}
		return phrase.Of("link.relay-"+word, "relay", phrase.Of("part.relay-"+name))
	case kind == "stop" && state != "-":
		return phrase.Of("link.stop-at", "floor", state)
	case name != "":
		return phrase.Of("link."+kind+"-"+word, "floor", name)
	}
	return phrase.Of("link." + kind + "-" + word)
}
