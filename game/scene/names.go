package scene

import (
	"strconv"
	"sync"

	"wheelroom/physics/building"
	"wheelroom/physics/control"
	"wheelroom/physics/lift"
)

// partNames are the names of the floors' parts, spelled once so that drawing
// spells none.
type partNames struct {
	call, lamp, rim, advanceUp, advanceDown, direction, landing, vane, button []string
}

func namesOf(p *building.Plan) partNames {
	all := func(kind string) []string {
		out := make([]string, len(p.Floors))
		for i, f := range p.Floors {
			out[i] = kind + "." + f.Name
		}
		return out
	}
	return partNames{
		call: all("call"), lamp: all("lamp"), rim: all("rim"), advanceUp: all("advance-up"),
		advanceDown: all("advance-down"), direction: all("direction"), landing: all("landing"),
		vane: all("vane"), button: all("button"),
	}
}

// A call is one push-button of a floor and the relay it pulls in.
type call struct {
	kind          control.CallKind
	button, relay string
	spot          int // of the button
}

// callsOf lists the calls of every floor, in the order of the diagram.
func callsOf(d *control.Diagram) [][]call {
	out := make([][]call, len(d.Floors))
	for _, c := range d.Calls {
		out[c.Floor] = append(out[c.Floor], call{kind: c.Kind, button: c.Button, relay: c.Relay})
	}
	return out
}

// registered and pressed tell how a call and its button stand.
func (c *call) registered(v *lift.View, fl int) bool {
	return at([...][]bool{v.Calls, v.CallsUp, v.CallsDown, v.CallsCar}[c.kind], fl)
}

func (c *call) pressed(v *lift.View, fl int) bool {
	return at([...][]bool{v.Pressed, v.PressedUp, v.PressedDown, v.PressedCar}[c.kind], fl)
}

func at(of []bool, i int) bool { return i < len(of) && of[i] }

// Numbers up to 999 spelled once; a text of them allocates nothing.
var numbers = func() (n [1000]string) {
	for i := range n {
		n[i] = strconv.Itoa(i)
	}
	return n
}()

// Decimals are decimal numbers as a language writes them: tenths up to 600,
// hundredths up to 10.
type decimals struct{ tenths, hundredths []string }

// written are the decimals by their decimal sign, spelled once and when first
// wanted.
var written sync.Map

// decimalsWith returns the decimals with a decimal sign.
func decimalsWith(sign string) *decimals {
	if d, ok := written.Load(sign); ok {
		return d.(*decimals)
	}
	d, _ := written.LoadOrStore(sign, &decimals{spelled(6000, 1, sign), spelled(1000, 2, sign)})
	return d.(*decimals)
}

// spelled returns 0 to n-1 units of the last of some places as texts.
func spelled(n, places int, sign string) []string {
	all, ends := make([]byte, 0, n*5), make([]int, n+1)
	unit := [...]int{1, 10, 100}[places]
	for i := range n {
		all = strconv.AppendInt(all, int64(i/unit), 10)
		all = append(all, sign...)
		// What comes behind the sign keeps its zeros, so a one is put in front and left out.
		all = append(all, strconv.Itoa(unit + i%unit)[1:]...)
		ends[i+1] = len(all)
	}
	text, out := string(all), make([]string, n)
	for i := range out {
		out[i] = text[ends[i]:ends[i+1]]
	}
	return out
}

// tenthOf spells a time in seconds, cut to tenths; a long one to seconds.
func (d *decimals) tenthOf(s float64) string {
	if i := int(s*10 + 1e-6); i >= 0 && i < len(d.tenths) {
		return d.tenths[i]
	}
	return number(int(s))
}

// hundredthOf spells a speed, rounded.
func (d *decimals) hundredthOf(v float64) string {
	return d.hundredths[min(int(v*100+0.5), len(d.hundredths)-1)]
}

func number(i int) string {
	if i < 0 || i >= len(numbers) {
		return strconv.Itoa(i)
	}
	return numbers[i]
}
