package script

import (
	"math"

	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
)

// A Log is what is known of one item's run so far: the machine's events and
// where the car was, from the machine's start on. Whoever runs the machine
// fills it; conditions, claims and facts are read from it. A condition, claim
// or fact sees nothing that is not in the log yet.
type Log struct {
	Start   string               // floor the car started from, "" between two
	LoadKG  float64              // in the car at the start
	First   map[lift.Part]string // how parts stood at the start; look-up only
	Events  []lift.Event         // in causal order
	Path    []Place              // at equal or shorter steps than events are apart
	NowS    float64              // how far the log reaches
	Asked   bool                 // the frozen frame has been reached
	FrozenS float64              // the instant of the frozen frame
	Before  int                  // number of events before the frozen frame

	// Why parts stand as they do now, and as they stood at the frozen frame:
	// sentences, for the parts that the item's texts ask about.
	Whys, FrozenWhys map[lift.Part]phrase.Phrase
}

// A Place is where the car was at an instant.
type Place struct{ TimeS, HeightM, SpeedMS, AccelMS2 float64 }

// Freeze marks the present as the frozen frame: what comes after it is asked.
func (l *Log) Freeze() { l.Asked, l.FrozenS, l.Before = true, l.NowS, len(l.Events) }

// State returns how a part stood before event i, in the trace's words; "0"
// for a part that is not known to have stood otherwise.
func (l *Log) State(part lift.Part, i int) string {
	for i--; i >= 0; i-- {
		if l.Events[i].Part == part {
			return l.Events[i].State
		}
	}
	if s, ok := l.First[part]; ok {
		return s
	}
	return "0"
}

// asked returns the events after the frozen frame, none before it is reached.
func (l *Log) asked() []lift.Event {
	if !l.Asked {
		return nil
	}
	return l.Events[l.Before:]
}

// place returns the car's height and speed at an instant of the log, between
// two entries of the path on the straight line.
func (l *Log) place(timeS float64) (heightM, speedMS float64) {
	path := l.Path
	if len(path) == 0 {
		return 0, 0
	}
	low, high := 0, len(path)-1
	for low < high {
		mid := (low + high) / 2
		if path[mid].TimeS < timeS {
			low = mid + 1
		} else {
			high = mid
		}
	}
	b := path[low]
	if low == 0 || b.TimeS <= timeS {
		return b.HeightM, b.SpeedMS
	}
	a := path[low-1]
	share := (timeS - a.TimeS) / (b.TimeS - a.TimeS)
	return a.HeightM + float64(share*(b.HeightM-a.HeightM)), a.SpeedMS + float64(share*(b.SpeedMS-a.SpeedMS))
}

// peaks returns the highest speed of the asked run, and the largest gain and
// loss of speed, all without sign.
func (l *Log) peaks() (speedMS, gainMS2, lossMS2 float64) {
	for _, p := range l.Path {
		if !l.Asked || p.TimeS < l.FrozenS {
			continue
		}
		speedMS = max(speedMS, math.Abs(p.SpeedMS))
		along := math.Copysign(p.AccelMS2, p.AccelMS2*p.SpeedMS)
		gainMS2, lossMS2 = max(gainMS2, along), max(lossMS2, -along)
	}
	return speedMS, gainMS2, lossMS2
}

// quietS is for how long nothing may have happened before a run counts as
// idle, seconds; the trace uses the same time.
const quietS = 2.0

// idle reports whether the machine has come to rest for good: no call, door
// closed, car at a floor, every relay out but those of the safety line and
// the level, and nothing changed for forS.
func (l *Log) idle(forS float64) bool {
	if n := len(l.Events); n > 0 && !reached(l.NowS, l.Events[n-1].TimeS+forS) {
		return false
	}
	seen := map[lift.Part]bool{}
	for i := len(l.Events) - 1; i >= 0; i-- {
		e := l.Events[i]
		if seen[e.Part] {
			continue
		}
		seen[e.Part] = true
		family, name := split(e.Part)
		switch {
		case e.Part == "stop" && e.State == "-",
			e.Part == "door" && e.State == "open",
			isCall(family) && e.State == "1",
			family == "relay" && e.State == "1" && name != "safety" && name != "level":
			return false
		}
	}
	return true
}
