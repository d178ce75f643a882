package session

import (
	"math"

	"wheelroom/game/machineroom"
	"wheelroom/game/scene"
	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/phrase"
	"wheelroom/physics/study/winding"
)

// windingScreen is the screen on which a car is moved by hand. It has a
// machine of its own, built like the one on the stage, which is left alone.
var windingScreen = map[string]action{
	"form":  taking(func(a Asking, _ struct{}) (any, error) { return a.windingForm(), nil }),
	"begin": taking(func(a Asking, q WindingBegin) (any, error) { return a.windingBegin(q) }),
	"room": taking(func(a Asking, q WindingSize) (any, error) {
		return a.atWinding(func(d *windingDesk) (any, error) { return a.windingRoom(d, q.Width), nil })
	}),
	"draw": taking(func(a Asking, q WindingSize) (any, error) {
		return a.atWinding(func(d *windingDesk) (any, error) { return a.windingDraw(d, q) })
	}),
	"step": taking(func(a Asking, q WindingStep) (any, error) {
		return a.atWinding(func(d *windingDesk) (any, error) { return d.step(a, q) })
	}),
	"ease": taking(func(a Asking, q WindingEase) (any, error) {
		return a.atWinding(func(d *windingDesk) (any, error) { return d.ease(a, q) })
	}),
	"let": taking(func(a Asking, _ struct{}) (any, error) {
		return a.atWinding(func(d *windingDesk) (any, error) { return d.let(a) })
	}),
	"call": taking(func(a Asking, q struct{ Floor string }) (any, error) {
		return a.atWinding(func(d *windingDesk) (any, error) { return d.call(a, q.Floor) })
	}),
	"tick": taking(func(a Asking, q struct{ Seconds float64 }) (any, error) {
		return a.atWinding(func(d *windingDesk) (any, error) { return d.tick(a, q.Seconds), nil })
	}),
}

// levelM is how near its landing a car must be before anybody leaves it:
// beyond it a step is to be corrected (EN 81-20 5.12.1.1.4, value from memory).
const levelM = 0.020

// onePersonKG is the load that is first in the car.
const onePersonKG = 75.0

// shortTurn is the most a hand turns the wheel in one short movement, turns.
const shortTurn = 0.25

// settleS is how long the machine is let run on after something was done to
// it, so that armatures and doors come to rest.
const settleS = 1.0

// windingDesk is the machine that is wound by hand, and how far one has come.
type windingDesk struct {
	of        *control.Wiring // of the building on the stage it was built like
	plan      building.Plan
	m         *lift.Machine // nil: none yet
	view      lift.View
	procedure winding.Procedure
	untilS    float64 // the machine is let run until then
	startRad  float64 // of the handwheel, when the winding began
	scenes    map[string]*scene.Scene
}

// A WindingForm is what can be chosen before winding begins.
type WindingForm struct {
	Building string         `json:"building"`
	Fresh    bool           `json:"fresh"` // the machine is none of this building
	Cautions []string       `json:"cautions"`
	Floors   []SummaryFloor `json:"floors"`
	Floor    string         `json:"floor"`
	OffMM    float64        `json:"offMM"`
	LoadKG   float64        `json:"loadKG"`
	MostKG   float64        `json:"mostKG"`
}

func (a Asking) windingForm() WindingForm {
	p := a.machine().Plan()
	f := WindingForm{
		Building: p.Name, Fresh: a.desks.winding.m == nil || a.desks.winding.of != a.machine().Wiring(),
		Floor: p.Floors[len(p.Floors)/2].Name, OffMM: 250, LoadKG: onePersonKG, MostKG: math.Round(1.1 * p.Lift.RatedLoadKG),
	}
	for _, c := range winding.Cautions() {
		f.Cautions = append(f.Cautions, a.o.Words(c))
	}
	for _, fl := range p.Floors {
		f.Floors = append(f.Floors, SummaryFloor{fl.Name, fl.HeightM})
	}
	return f
}

// A WindingBegin is where the car has been left standing, and with what load.
type WindingBegin struct {
	Floor  string
	OffMM  float64 // above it; below it negative
	LoadKG float64
	Width  float64
}

// A WindingSize is how large pictures are, CSS pixels.
type WindingSize struct {
	Width, Height float64
	Picture       string // as View takes it
	Moving        bool   // only what moves
}

func (a Asking) windingBegin(q WindingBegin) (any, error) {
	base := a.machine().Plan()
	f := base.Floor(q.Floor)
	switch {
	case f < 0:
		return nil, refuse("drive.no-floor", "floor", q.Floor)
	case !(q.LoadKG >= 0 && q.LoadKG <= mostLoadKG):
		return nil, refuse("drive.bad-load", "most", mostLoadKG)
	case !(math.Abs(q.OffMM) < 1e5):
		return nil, refuse("winding.no-place")
	}
	at := base.Floors[f].HeightM + q.OffMM/1000
	if at < 0 || at > base.TravelM() {
		return nil, refuse("winding.no-place")
	}
	d := windingDesk{of: a.machine().Wiring(), plan: *base, scenes: map[string]*scene.Scene{}}
	d.plan.Lift.LoadKG = q.LoadKG
	m, err := lift.New(&d.plan, lift.Options{Start: f, HeightM: &at})
	if err != nil {
		return nil, err
	}
	m.Advance(settleS)
	d.m = m
	d.look()
	d.startRad = d.view.HandwheelRad
	a.desks.winding = d
	return a.windingRoom(&a.desks.winding, q.Width), nil
}

// atWinding does something at the machine that is wound; without one it
// refuses.
func (a Asking) atWinding(do func(d *windingDesk) (any, error)) (any, error) {
	if d := &a.desks.winding; d.m != nil {
		return do(d)
	}
	return nil, refuse("winding.not-begun")
}

// A WindingRoom is all that does not change while one winds, and how far one
// has come.
type WindingRoom struct {
	machineroom.WindingScreen
	Now WindingNow `json:"now"`
}

func (a Asking) windingRoom(d *windingDesk, width float64) WindingRoom {
	r := a.room("winding-", &DriveAsk{Width: width})
	return WindingRoom{r.Winding(&d.plan, d.plan.Lift.LoadKG, &d.view, &d.procedure), d.now(a)}
}

// A WindingNow is the machine as it stands, and what can be done.
type WindingNow struct {
	Steps    []machineroom.StepRow `json:"steps"`
	Where    string                `json:"where"`
	Next     string                `json:"next"` // step, "done" at the end
	Refusal  string                `json:"refusal"`
	Busy     bool                  `json:"busy"` // something moves or is about to: let time pass
	CanEase  bool                  `json:"canEase"`
	Floor    string                `json:"floor"` // the nearest
	OffMM    float64               `json:"offMM"`
	Turns    float64               `json:"turns"` // since the winding began, up positive
	PerTurn  float64               `json:"perTurn"`
	SpeedMS  float64               `json:"speedMS"`
	Moves    int                   `json:"moves"`
	States   []WindingState        `json:"states"`
	Switches []WindingSwitch       `json:"switches"` // highest floor first
}

// A WindingState is one line on how the machine stands.
type WindingState struct {
	Key  string `json:"key"`
	Name string `json:"name"`
	Text string `json:"text"`
}

// A WindingSwitch is what one floor has on the selector.
type WindingSwitch struct {
	Floor     string `json:"floor"`
	Direction string `json:"direction"`
	Centre    string `json:"centre"`
	Brush     string `json:"brush"`
	Lamp      string `json:"lamp"`
	Near      bool   `json:"near"`
}

func (d *windingDesk) look() { d.m.Look(&d.view) }

// over tells that the procedure is done and power back.
func (d *windingDesk) over() bool { return int(d.procedure.Next) == winding.Steps }

// busy tells that the machine does something by itself.
func (d *windingDesk) busy() bool {
	v := &d.view
	return v.Stopped == "" && (v.Moving || v.BrakeLift > 0 || v.TimeS < d.untilS || v.TimeS < d.procedure.FreeS ||
		d.over() && !d.m.Idle())
}

func (d *windingDesk) now(a Asking) WindingNow {
	v := &d.view
	r := a.room("winding-", &DriveAsk{})
	steps, where := r.Progress(&d.plan, v, &d.procedure)
	near := d.plan.Floors[v.NearFloor]
	per := 2 * math.Pi * d.m.Train().MetresPerRad()
	n := WindingNow{
		Steps: steps, Where: where, Next: d.procedure.Next.String(), Busy: d.busy(), CanEase: d.procedure.Next == winding.Move && !d.busy(),
		Floor: near.Name, OffMM: 1000 * (v.CarM - near.HeightM), Turns: (v.HandwheelRad - d.startRad) / (2 * math.Pi),
		PerTurn: 1000 * per, SpeedMS: v.SpeedMS, Moves: d.procedure.Moves,
	}
	say := func(id string) string { return a.o.Words(phrase.Of(id)) }
	dead := d.procedure.Next > winding.Isolated && d.procedure.Next <= winding.PowerOn
	relays := 0
	for _, in := range v.Relays {
		if in {
			relays++
		}
	}
	n.States = []WindingState{
		{"power", say("winding.state-power"), say(pick(dead, "winding.power-off", "winding.power-on"))},
		{"relays", say("winding.state-relays"), a.o.Words(phrase.Of("winding.relays-in", "count", relays))},
		{"brake", say("winding.state-brake"), say(pick(v.BrakeLift > 0, "winding.brake-eased", "winding.brake-set"))},
		{"turns", say("winding.state-turns"), a.o.Words(phrase.Of("winding.turned-"+wayOf(n.Turns, 0.005), "turns", phrase.Num(math.Abs(n.Turns), 2)))},
		{"car", say("winding.state-car"), a.o.Words(phrase.Of("winding.car-"+wayOf(n.OffMM, 0.5),
			"floor", near.Name, "off", phrase.Num(math.Abs(n.OffMM), 0)))},
		{"speed", say("winding.state-speed"), a.o.Words(phrase.Of("drive.value", "value", phrase.Num(1000*v.SpeedMS, 0), "unit", "mm/s"))},
	}
	terminals := d.m.Ring().Terminals()
	for f := len(d.plan.Floors) - 1; f >= 0; f-- {
		brush := false
		for t, on := range v.Terminal {
			brush = brush || on && terminals[t].Floor == f
		}
		n.Switches = append(n.Switches, WindingSwitch{
			Floor: d.plan.Floors[f].Name, Direction: say("state.direction-" + v.Direction[f].String()),
			Centre: a.o.Words(yes(v.Rim[f], "state.made")), Brush: say(pick(brush, "winding.brush-on", "winding.brush-off")),
			Lamp: a.o.Words(yes(v.Lamps[f], "state.lit")), Near: f == v.NearFloor,
		})
	}
	return n
}

// settling lets the machine run on for a while after something it was not
// refused.
func (d *windingDesk) settling(why phrase.Phrase) phrase.Phrase {
	if why.ID == "" {
		d.untilS = d.view.TimeS + settleS
	}
	return why
}

// wayOf tells a value above nothing from one below, and both from nothing.
func wayOf(v, least float64) string {
	switch {
	case v > least:
		return "up"
	case v < -least:
		return "down"
	}
	return "none"
}

// did returns how the machine stands after something was done, or refused.
func (d *windingDesk) did(a Asking, why phrase.Phrase) (any, error) {
	d.look()
	n := d.now(a)
	if why.ID != "" {
		n.Refusal = a.o.Words(why)
	}
	return n, nil
}

// A WindingStep is a step of the procedure that somebody takes.
type WindingStep struct {
	Step string
	By   string // who fits or removes the lock
}

func (d *windingDesk) step(a Asking, q WindingStep) (any, error) {
	step, known := winding.StepOf(q.Step)
	if !known {
		return d.did(a, phrase.Of("winding.no-such-step"))
	}
	near := d.plan.Floors[d.view.NearFloor]
	if off := math.Abs(d.view.CarM - near.HeightM); step == winding.Level && d.procedure.Moves > 0 && d.procedure.Next == winding.Move && off > levelM {
		return d.did(a, phrase.Of("winding.off-level", "off", phrase.Num(1000*off, 0), "floor", near.Name, "within", phrase.Num(1000*levelM, 0)))
	}
	if step == winding.Move {
		return d.did(a, phrase.Of("winding.by-hand"))
	}
	return d.did(a, d.settling(d.procedure.Do(d.m, &d.view, winding.Act{Step: step, By: q.By})))
}

// A WindingEase is one short movement: the brake is eased, and the wheel
// turned ("up", "down") or let be ("none").
type WindingEase struct {
	Way   string
	Turns float64 // shortTurn at most; 0: that
}

func (d *windingDesk) ease(a Asking, q WindingEase) (any, error) {
	turns := shortTurn
	if q.Turns > 0 && q.Turns < shortTurn {
		turns = q.Turns
	}
	hand := 0.0
	switch q.Way {
	case "up":
		hand = winding.HandNM(&d.plan, d.plan.Lift.LoadKG, d.view.CarM, 2*math.Pi*turns)
	case "down":
		hand = winding.HandNM(&d.plan, d.plan.Lift.LoadKG, d.view.CarM, -2*math.Pi*turns)
	}
	return d.did(a, d.procedure.Do(d.m, &d.view, winding.Act{Step: winding.Move, NM: hand}))
}

// let lets go of brake and wheel before the short movement is over.
func (d *windingDesk) let(a Asking) (any, error) {
	if d.view.TimeS < d.procedure.FreeS {
		for _, in := range []lift.Input{{Kind: lift.EaseBrake, Part: "brake-lever"}, {Kind: lift.Wind, Part: "handwheel"}} {
			in.TimeS = d.m.TimeS()
			if why := d.m.Do(in); why.ID != "" {
				return d.did(a, why)
			}
		}
	}
	return d.did(a, phrase.Phrase{})
}

// call presses the button of a floor, once power is back.
func (d *windingDesk) call(a Asking, floor string) (any, error) {
	f := d.plan.Floor(floor)
	switch {
	case f < 0:
		return nil, refuse("drive.no-floor", "floor", floor)
	case !d.over():
		return d.did(a, phrase.Of("winding.no-call"))
	}
	d.m.Press(f)
	d.settling(phrase.Phrase{})
	return d.did(a, phrase.Phrase{})
}

// tickMostS is the most that passes at once, seconds of the machine.
const tickMostS = 5.0

func (d *windingDesk) tick(a Asking, seconds float64) WindingNow {
	if seconds > 0 {
		d.m.Advance(min(seconds, tickMostS))
	}
	d.look()
	return d.now(a)
}

// windingDraw draws shaft or wheel of the machine that is wound.
func (a Asking) windingDraw(d *windingDesk, q WindingSize) (any, error) {
	for _, p := range pictures {
		if p.String() != q.Picture {
			continue
		}
		o := scene.Options{Width: max(q.Width, 240), Height: max(q.Height, 240), Picture: p, Words: a.o.Words}
		sc := d.scenes[q.Picture]
		if sc == nil || !q.Moving {
			sc = scene.New(&d.plan, d.m.Wiring(), o)
			d.scenes[q.Picture] = sc
		}
		if q.Moving {
			return a.draw(sc.Moving(&d.view, nil))
		}
		return a.draw(sc.Still())
	}
	return nil, refuse("stage.unknown-picture", "picture", q.Picture)
}
