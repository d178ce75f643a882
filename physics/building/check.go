package building

import (
	"math"
	"strings"
	"unicode"

	"wheelroom/physics/document"
	"wheelroom/physics/phrase"
)

// Relations between values, with the margin each one needs.
const (
	// The car's nominal speed may differ from what motor, gear and sheave give
	// by the slip of a loaded motor and a little more.
	speedTolerance = 0.08
	// Overload is taken as 110 % of the rated load.
	overload = 1.10
	// The counterweight carries the car and 40 to 50 % of the rated load
	// (CIBSE Guide D, value from memory).
	minBalance, maxBalance = 0.40, 0.50
)

// checker makes the checks that need more than one value and no more than
// arithmetic; what needs the wheel or the drive itself is package survey's. A
// check is left out when one of its values could not be read.
type checker struct {
	plan     *Plan
	read     []document.Problem
	problems []document.Problem
}

func (c *checker) sound(paths ...string) bool { return document.Sound(c.read, paths...) }

func (c *checker) fail(path, id string, slots ...any) {
	c.problems = append(c.problems, document.Problem{Path: path, Phrase: phrase.Of("building."+id, slots...)})
}

func (c *checker) warn(path, id string, slots ...any) {
	c.problems = append(c.problems, document.Problem{Path: path, Phrase: phrase.Of("building."+id, slots...), Warning: true})
}

func (c *checker) all() {
	c.names()
	c.heights()
	if c.sound("floors") && len(c.problems) == 0 && len(c.plan.Floors) >= minFloors {
		c.advance()
	}
	c.lift()
	c.machine()
	c.handwheel()
	c.joins()
	c.zone()
	c.control()
}

func floorPath(i int, key string) string {
	return "floors[" + itoa(i) + "]." + key
}

// names: unique, and made of characters that can stand in a call on the
// command line and in a column of a trace.
func (c *checker) names() {
	first := map[string]int{}
	for i, f := range c.plan.Floors {
		path := floorPath(i, "name")
		if f.Name == "" {
			continue // missing or refused already
		}
		if f.Name == "-" {
			c.fail(path, "name-dash")
		}
		if bad := strings.IndexFunc(f.Name, refused); bad >= 0 {
			c.fail(path, "name-character", "name", f.Name, "character", spelled(f.Name[bad:]))
		}
		if j, doubled := first[f.Name]; doubled {
			c.fail(path, "name-twice", "name", f.Name, "first", j+1, "second", i+1)
			continue
		}
		first[f.Name] = i
	}
}

func refused(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune(`,"'@:`, r) }

// spelled names the first character of s; a space would not be seen.
func spelled(s string) any {
	r := []rune(s)[0]
	if unicode.IsSpace(r) {
		return phrase.Of("building.a-space")
	}
	return string(r)
}

// heights: the lowest landing is the zero of every height, the others follow
// upward, at least a low storey apart.
func (c *checker) heights() {
	for i, f := range c.plan.Floors {
		path := floorPath(i, "height_m")
		if !c.sound(path) {
			continue
		}
		if i == 0 {
			if f.HeightM != 0 {
				c.fail(path, "lowest-not-zero", "name", f.Name, "height", document.Plain(f.HeightM))
			}
			continue
		}
		below := c.plan.Floors[i-1]
		if !c.sound(floorPath(i-1, "height_m")) {
			continue
		}
		if storey := f.HeightM - below.HeightM; storey < minStoreyM-1e-9 {
			c.fail(path, "storey-too-low", "name", f.Name, "below", below.Name, "height", document.Plain(f.HeightM),
				"least", number(below.HeightM+minStoreyM, 2, +1), "storey", document.Plain(minStoreyM))
		}
	}
}

func (c *checker) lift() {
	l := c.plan.Lift
	if c.sound("lift") && l.LoadKG > overload*l.RatedLoadKG {
		c.warn("lift.load_kg", "load-over-rated", "load", document.Plain(l.LoadKG), "rated", document.Plain(l.RatedLoadKG),
			"most", number(overload*l.RatedLoadKG, 0, -1))
	}
	if c.sound("lift.balance") && (l.Balance < minBalance || l.Balance > maxBalance) {
		c.warn("lift.balance", "balance-unusual", "balance", document.Plain(l.Balance),
			"least", document.Plain(minBalance), "most", document.Plain(maxBalance))
	}
}

func (c *checker) machine() {
	m := c.plan.Machine
	for _, poles := range []struct {
		key string
		n   int
	}{{"machine.fast_poles", m.FastPoles}, {"machine.slow_poles", m.SlowPoles}} {
		if c.sound(poles.key) && poles.n%2 != 0 {
			c.fail(poles.key, "poles-odd", "poles", poles.n)
		}
	}
	if c.sound("machine.fast_poles", "machine.slow_poles") && m.SlowPoles <= m.FastPoles {
		c.fail("machine.slow_poles", "slow-not-slower", "slow", m.SlowPoles, "fast", m.FastPoles)
	}
	if !c.sound("machine") {
		return
	}
	gives := SynchronousMS(c.plan)
	if m.RatedSpeedMS < LeastSpeedMS || m.RatedSpeedMS > MostSpeedMS { // left out, and so what the machine gives
		c.fail("machine.gear_ratio", "speed-not-possible", "gives", number(gives, 2, 0), "least", document.Plain(LeastSpeedMS),
			"most", document.Plain(MostSpeedMS), "gear", number(m.GearRatio*gives*0.95, 0, 0))
		return
	}
	if math.Abs(m.RatedSpeedMS-gives) > speedTolerance*gives {
		c.fail("machine.rated_speed_m_s", "speed-not-given", "speed", document.Plain(m.RatedSpeedMS),
			"gives", number(gives, 2, 0), "least", number((1-speedTolerance)*gives, 2, +1), "most", number((1+speedTolerance)*gives, 2, -1),
			"gear", number(m.GearRatio*gives*0.95/m.RatedSpeedMS, 1, 0))
	}
}

// handwheel: masses and diameters make a wheel together, a rim has its inner
// edge inside its outer one, and an inertia beside them says the same.
func (c *checker) handwheel() {
	h := &c.plan.Machine.Handwheel
	if *h == (Handwheel{}) || !c.sound("machine") {
		return
	}
	for _, need := range []struct {
		key   string
		value *float64
	}{{"rim_kg", h.RimKG}, {"outer_m", h.OuterM}, {"inner_m", h.InnerM}} {
		if need.value == nil {
			c.fail(handwheelMade, "handwheel-incomplete", "key", need.key)
			return
		}
	}
	w, _ := h.Wheel()
	if w.RimInnerM >= w.RimOuterM {
		c.fail(handwheelMade+".inner_m", "rim-inside-out", "inner", document.Plain(w.RimInnerM), "outer", document.Plain(w.RimOuterM))
		return
	}
	const most, near = 6.0, 0.005
	if w.KGM2() > most {
		c.fail(handwheelMade, "handwheel-too-heavy", "makes", number(w.KGM2(), 2, 0), "most", document.Plain(most))
		return
	}
	if is := c.plan.Machine.HandwheelKGM2; math.Abs(is-w.KGM2()) > near*max(is, w.KGM2()) {
		c.fail(handwheelInertia, "handwheel-twice", "is", document.Plain(is), "makes", number(w.KGM2(), 3, 0))
	}
}

// advance: slowing down for one landing must begin after the landing before
// it has been left.
func (c *checker) advance() {
	s := c.plan.Selector
	if !c.sound("selector.advance_m", "selector.advance_up_m", "selector.advance_down_m") {
		return
	}
	storey, below := SmallestStorey(c.plan)
	for _, way := range Advances(s) {
		if way.M+advanceMarginM < storey-1e-9 {
			continue
		}
		c.fail(way.Path, "advance-over-storey", "advance", document.Plain(way.M),
			"most", number(MostAdvanceM(c.plan), 2, 0), "storey", number(storey, 2, 0),
			"below", c.plan.Floors[below].Name, "above", c.plan.Floors[below+1].Name)
	}
}

// zone: the centre contact must be made wherever the car can stop, and not
// yet where it begins to slow down.
func (c *checker) zone() {
	s, vane := c.plan.Selector, c.plan.Shaft.VaneHalfM
	if c.sound("shaft.vane_half_m", "selector.zone_half_m") && vane >= s.ZoneHalfM {
		c.fail("shaft.vane_half_m", "vane-over-zone", "vane", document.Plain(vane), "zone", document.Plain(s.ZoneHalfM))
	}
	if !c.sound("selector") {
		return
	}
	for _, way := range Advances(s) {
		if least := s.ZoneHalfM + s.AdvanceContactM; way.M < least {
			c.fail(way.Path, "advance-in-zone", "advance", document.Plain(way.M), "least", number(least, 2, +1),
				"zone", document.Plain(s.ZoneHalfM))
		}
	}
}

// control: the start relay waits until the direction is settled.
func (c *checker) control() {
	t := c.plan.Control
	if least := t.DirectionOperateS + 2*t.RelayOperateS; c.sound("control") && t.StartOperateS < least {
		c.warn("control.start_operate_ms", "start-too-early", "start", document.Plain(1000*t.StartOperateS),
			"least", number(1000*least, 0, +1))
	}
}
