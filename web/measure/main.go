// Command measure prints the program's figures, one a line as name, value and
// unit. They are goals to steer by and never tests.
//
// Built for js/wasm it prints what the pure packages take there; natively it
// also runs itself so under Node, and asks a browser for the rest.
package main

import (
	"context"
	"errors"
	"fmt"
	"image"
	"os"
	"testing"
	"time"

	"wheelroom/assets/fonts"
	drawn "wheelroom/game/figure"
	"wheelroom/game/paint/damage"
	"wheelroom/game/paint/mesh"
	"wheelroom/physics/building"
	"wheelroom/physics/lift"
	"wheelroom/physics/proof"
	"wheelroom/physics/relay"
	"wheelroom/web/program"
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "measure:", err)
		os.Exit(1)
	}
}

// A figure is one measured thing.
type figure struct {
	name  string
	value float64
	unit  string
}

func (f figure) print(suffix string) {
	fmt.Printf("%s%s %.4g %s\n", f.name, suffix, f.value, f.unit)
}

// pure measures what needs no browser.
func pure() ([]figure, error) {
	plan, _ := program.Building("tidemill-house")
	cruising, err := cruise(plan)
	if err != nil {
		return nil, err
	}
	solve, err := solveTime(12)
	if err != nil {
		return nil, err
	}
	return append(cruising, solve), nil
}

// cruise measures the machine on its way between two floors, where nothing
// switches.
func cruise(plan *building.Plan) ([]figure, error) {
	m, err := lift.New(plan, lift.Options{})
	if err != nil {
		return nil, err
	}
	m.Press(len(plan.Floors) - 1)
	const stretchS = 0.3
	if !quiet(m, stretchS) {
		return nil, errors.New("no quiet stretch on the whole way up")
	}
	var machineS float64
	start := time.Now()
	for time.Since(start) < time.Second {
		c := m.Clone()
		c.Advance(stretchS)
		machineS += stretchS
	}
	whole := time.Since(start)
	start = time.Now()
	for range int(machineS / stretchS) {
		m.Clone()
	}
	took := whole - time.Since(start)
	allocations := testing.AllocsPerRun(30, func() { m.Advance(lift.GridS) })
	return []figure{
		{"machine-cruising", machineS / took.Seconds(), "times-real-time"},
		{"machine-step-allocations", allocations, "allocations"},
	}, nil
}

// quiet brings m to full speed and to the beginning of a stretch without an
// event, and reports whether there is one.
func quiet(m *lift.Machine, stretchS float64) bool {
	var v lift.View
	for m.Step(10) {
		m.Look(&v)
		c := m.Clone()
		c.Advance(stretchS + lift.GridS)
		if v.SpeedMS > 1 && len(c.Events()) == len(m.Events()) {
			return true
		}
	}
	return false
}

// solveTime measures one solution of the network of a building with so many
// floors, a contact having moved.
func solveTime(floors int) (figure, error) {
	plan := building.Evenly("Measure", floors, 3.2)
	m, err := lift.New(&plan, lift.Options{})
	if err != nil {
		return figure{}, err
	}
	wiring := m.Wiring()
	state := relay.NewState(wiring.Net)
	contact := wiring.Gangs[wiring.Gang("button."+plan.Floors[floors/2].Name)].Make[0]
	closed, solved := false, 0
	start := time.Now()
	for time.Since(start) < time.Second {
		closed = !closed
		state.Set(contact, closed)
		state.Solve()
		solved++
	}
	return figure{"network-solve-12-floors", time.Since(start).Seconds() * 1e6 / float64(solved), "us"}, nil
}

// frameAllocations counts those of a frame while the car is on its way, all of
// it that is ours: the tick, the picture, its damage and its mesh. What
// Ebitengine allocates is not in it.
func frameAllocations() (figure, error) {
	s, err := program.English().Session()
	if err != nil {
		return figure{}, err
	}
	atlas, err := mesh.NewAtlas(fonts.Regular, fonts.Bold)
	if err != nil {
		return figure{}, err
	}
	picture, still := mesh.New(atlas), s.Scene().Still()
	scale := 1280 / still.Width
	bounds := image.Rect(0, 0, 1280, int(still.Height*scale))
	var watch damage.Watch
	frame := func() {
		s.Tick(1.0 / 60)
		moving := s.Moving()
		for _, r := range watch.Look(moving, scale, bounds) {
			picture.Begin(scale, &drawn.Paper)
			for i := range moving.Items {
				if watch.Reaches(i, r) {
					picture.Add(moving, &moving.Items[i])
				}
			}
		}
	}
	if err := errors.Join(s.Call("5"), s.Run()); err != nil {
		return figure{}, err
	}
	for range 240 { // past the start, with nothing switching ahead
		frame()
	}
	return figure{"update-and-draw-allocations", testing.AllocsPerRun(30, frame), "allocations"}, nil
}

// proofTimes measures the proof of every call set, position and memory for ten
// floors.
func proofTimes() ([]figure, error) {
	var out []figure
	for _, scheme := range []string{"directional", "two-button"} {
		plan := building.Evenly("Measure", 10, 3.2)
		plan.Control.Scheme = scheme
		start := time.Now()
		if _, err := proof.Prove(context.Background(), proof.Question{Plan: &plan}, nil); err != nil {
			return nil, err
		}
		out = append(out, figure{"proof-10-floors-" + scheme, time.Since(start).Seconds(), "s"})
	}
	return out, nil
}

// hash is the state of the machine after a fixed busy run.
func hash() (uint64, error) {
	plan, _ := program.Building("tidemill-house")
	m, err := lift.New(plan, lift.Options{Start: 2})
	if err != nil {
		return 0, err
	}
	for i, f := range []int{5, 0, 3, 1, 4} {
		m.RunTo(float64(7 * i))
		m.Press(f)
	}
	m.RunTo(120)
	return m.Hash(), nil
}
