package drive

import (
	"encoding/binary"
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/physics/building"
)

// script is a run through everything a feed can do.
var script = []struct {
	forS float64
	feed Feed
}{
	{0.1, Feed{}},
	{0.12, Feed{Winding: Fast, Direction: 1}},
	{2.5, Feed{Winding: Fast, Direction: 1, BrakeCurrent: true}},
	{0.031, Feed{BrakeCurrent: true}},
	{1.7, Feed{Winding: Slow, Direction: 1, BrakeCurrent: true}},
	{0.04, Feed{BrakeCurrent: true}},
	{0.5, Feed{}},
	{1.2, Feed{HeldOpen: true, HandNM: -12}},
	{0.3, Feed{HandNM: -12}},
	{2.0, Feed{Winding: Fast, Direction: -1, BrakeCurrent: true}},
	{0.8, Feed{Winding: Fast, Direction: 1, BrakeCurrent: true}}, // phases reversed at speed
	{0.03, Feed{Winding: Fast, Direction: -1}},
	{0.7, Feed{}},
}

// play runs the script from a state and hashes the state after every step.
func play(t *Train, s *State) uint64 {
	h := fnv.New64a()
	var word [8]byte
	for _, part := range script {
		for left := part.forS; left > 1e-9; left -= SampleS {
			t.Step(s, part.feed, min(left, SampleS))
			v := reflect.ValueOf(*s)
			for i := range v.NumField() {
				put(h.Write, word[:], v.Field(i))
			}
		}
	}
	return h.Sum64()
}

func put(write func([]byte) (int, error), word []byte, v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			put(write, word, v.Field(i))
		}
	case reflect.Float64:
		binary.LittleEndian.PutUint64(word, math.Float64bits(v.Float()))
		_, _ = write(word)
	default:
		binary.LittleEndian.PutUint64(word, v.Uint())
		_, _ = write(word)
	}
}

// machines are plans unlike each other.
func machines() map[string]building.Plan {
	rope, locked, free, light := house(), house(), freeShaft(0.8), withWheel(0.05)
	rope.Lift.RopeKGPerM, rope.Machine.Roping, rope.Machine.GearRatio = 2.5, 2, 20
	locked.Machine.GearEfficiency = 0.4
	free.Motor.ChangeS = 0.05
	light.Motor.TorqueLagS = 0.01
	light.Brake.LiftRampS, light.Brake.SetRampS = 0, 0
	return map[string]building.Plan{"default": house(), "roped": rope, "self-locking": locked, "free": free, "light": light}
}

func TestPinnedRun(t *testing.T) {
	// The same bits natively and in WebAssembly; a change of the model changes
	// them, and then traces change too.
	all := machines()
	for _, k := range []struct{ name, want string }{
		{"default", "fb9288fdb9f67724"}, {"roped", "9a74a34dba811d7f"}, {"self-locking", "332dc01c2634c82a"}, {"free", "187b7b0a4d107c35"}, {"light", "d29ad167ad510e16"},
	} {
		p := all[k.name]
		tr := NewTrain(&p)
		s := tr.Start(5)
		assert.Equal(t, k.want, fmt.Sprintf("%016x", play(&tr, &s)), k.name)
	}
}

// balanced checks that what went in has come out, to 0.1 % of the turnover.
func balanced(t *testing.T, tr *Train, start, s *State, when string) {
	t.Helper()
	in := s.DrawnJ - s.ReturnedJ + s.HandJ
	out := tr.StoredJ(s) - tr.StoredJ(start) + s.RotorHeatJ + s.StatorHeatJ + s.BrakeHeatJ + s.GearHeatJ + s.FrictionJ
	turned := s.DrawnJ + s.ReturnedJ + math.Abs(s.HandJ) + s.BrakeHeatJ + s.FrictionJ + s.GearHeatJ
	assert.InDelta(t, in, out, 0.001*turned+1e-6, when)
	for _, v := range []float64{s.BrakeHeatJ, s.GearHeatJ, s.FrictionJ, s.StatorHeatJ, s.DrawnJ, s.ReturnedJ} {
		assert.GreaterOrEqual(t, v, -1e-9, when)
	}
}

// shake drives a machine at random for a while.
func shake(rng *rand.Rand, tr *Train, s *State, after func(f Feed)) {
	for range 12 {
		f := Feed{Winding: Winding(rng.IntN(3)), Direction: int8(rng.IntN(3) - 1), BrakeCurrent: rng.IntN(3) > 0, HandNM: 20 * rng.NormFloat64()}
		tr.run(s, f, 0.03+rng.Float64())
		after(f)
	}
}

func TestEnergyBalances(t *testing.T) {
	for name, p := range machines() {
		tr := NewTrain(&p)
		rng := rand.New(rand.NewPCG(7, 11))
		s := tr.Start(8)
		start := s
		play(&tr, &s)
		balanced(t, &tr, &start, &s, name)
		for run := range 5 {
			s = tr.Start(8)
			s.LoadKG = rng.Float64() * 1.1 * 630
			start = s
			shake(rng, &tr, &s, func(f Feed) { balanced(t, &tr, &start, &s, fmt.Sprintf("%s, run %d, %+v", name, run, f)) })
		}
	}
}

func TestOddMachines(t *testing.T) {
	// Anything a plan may say: the step stays finite and its energy whole.
	rng := rand.New(rand.NewPCG(13, 17))
	upTo := func(lo, hi float64) float64 { return lo + (hi-lo)*rng.Float64() }
	maybe := func(v float64) float64 { return v * float64(rng.IntN(2)) }
	for i := range 60 {
		p := house()
		p.Lift = building.Lift{CarKG: upTo(300, 3000), RatedLoadKG: upTo(200, 2500), Balance: upTo(0, 1), RopeKGPerM: maybe(upTo(0, 8)), GuideFrictionN: maybe(upTo(0, 800))}
		p.Machine.SheaveDiameterM, p.Machine.GearRatio, p.Machine.Roping = upTo(0.3, 1), upTo(15, 80), 1+rng.IntN(2)
		p.Machine.GearEfficiency, p.Machine.ShaftFrictionNM = upTo(0.25, 1), maybe(upTo(0, 8))
		p.Machine.HandwheelKGM2, p.Machine.RotorKGM2 = maybe(upTo(0, 5)), upTo(0.02, 0.5)
		p.Motor.FastBreakdownNM, p.Motor.FastBreakdownSlip, p.Motor.FastStatorRatio = upTo(20, 600), upTo(0.05, 0.6), upTo(0, 1.5)
		p.Motor.SlowBreakdownNM, p.Motor.SlowBreakdownSlip, p.Motor.SlowStatorRatio = upTo(20, 600), upTo(0.05, 1.2), upTo(0, 0.8)
		p.Motor.TorqueLagS, p.Motor.ChangeS = maybe(upTo(0, 0.3)), maybe(upTo(0, 0.3))
		p.Brake.TorqueNM, p.Brake.LiftRampS, p.Brake.SetRampS = upTo(10, 900), maybe(upTo(0, 0.5)), maybe(upTo(0, 0.5))
		tr := NewTrain(&p)
		s := tr.Start(8)
		s.LoadKG = upTo(0, 1.25) * p.Lift.RatedLoadKG
		start := s
		shake(rng, &tr, &s, func(f Feed) { balanced(t, &tr, &start, &s, fmt.Sprintf("machine %d, %+v, %+v", i, f, p)) })
		assert.False(t, math.IsNaN(s.OmegaRadS+s.CarM+s.AirgapNM) || math.IsInf(s.OmegaRadS, 0))
	}
}

func TestAnyDivisionOfTime(t *testing.T) {
	for name, p := range machines() {
		tr := NewTrain(&p)
		whole, parts := tr.Start(5), tr.Start(5)
		rng := rand.New(rand.NewPCG(3, 5))
		for _, part := range script {
			tr.run(&whole, part.feed, part.forS)
			for left := part.forS; left > 1e-12; {
				h := min(left, rng.Float64()*SampleS)
				if h > 0 {
					tr.Step(&parts, part.feed, h)
				}
				left -= h
			}
		}
		assert.InDelta(t, whole.CarM, parts.CarM, 1e-4, name)
		assert.InDelta(t, whole.DrawnJ, parts.DrawnJ, 1e-3*whole.DrawnJ, name)
		assert.Equal(t, tr.AtRest(&whole), tr.AtRest(&parts), name)
	}
}

func TestAgainstTheObviousIntegrator(t *testing.T) {
	// The equation of motion written down once more and stepped plainly, 10 µs
	// at a time, with the inertia of the load lagging one step in the gear.
	p := house()
	tr := NewTrain(&p)
	s := tr.Start(0)
	s.LoadKG = 630
	f := Feed{Winding: Fast, Direction: 1, BrakeCurrent: true}
	const h = 1e-5
	lever := 0.275 / 41
	weight := (630 - 0.45*630) * GravityMS2
	mass := 2*900 + 0.45*630 + 630.0
	omega, car, airgap, lift, alpha := 0.0, 0.0, 0.0, 0.0, 0.0
	for i := range 300_000 {
		lift = min(1, lift+h/0.15)
		slip := 1 - omega/(100*math.Pi/2)
		steady := 2 * 160 * (1 + 0.6*0.3) / (slip/0.3 + 0.3/slip + 2*0.6*0.3)
		airgap += (steady - airgap) / 0.1 * h
		pull := (weight + 150 + mass*lever*alpha) * lever // torque into the gear's load side
		if pull > 0 {
			pull /= 0.65
		} else {
			pull *= 2 - 1/0.65
		}
		net := airgap - 2 - 300*(1-lift) - pull
		if omega == 0 && net < 0 {
			net = 0
		}
		alpha = net / 1.32
		omega += alpha * h
		car += omega * lever * h
		if i%500 == 499 {
			tr.Step(&s, f, 0.005)
			assert.InDelta(t, omega*lever, tr.SpeedMS(&s), 2e-4)
			assert.InDelta(t, car, s.CarM, 2e-4)
		}
	}
	assert.Greater(t, omega, 140.0)
}

func TestStandsExactlyStill(t *testing.T) {
	p := house()
	tr := NewTrain(&p)
	// Brought to rest by the brake it stops once, at exactly zero, and stays.
	s := tr.Start(3)
	tr.run(&s, Feed{Winding: Slow, Direction: 1, BrakeCurrent: true}, 3)
	rests, turns := 0, 0
	before := s.OmegaRadS
	for range 400 {
		tr.Step(&s, Feed{}, 0.005)
		if before != 0 && s.OmegaRadS == 0 {
			rests++
		}
		if before*s.OmegaRadS < 0 {
			turns++
		}
		before = s.OmegaRadS
	}
	assert.Equal(t, 1, rests)
	assert.Zero(t, turns)
	held := s
	tr.run(&s, Feed{}, 10)
	assert.Equal(t, held, s, "at rest nothing changes any more")

	// A winding fed against the brake cannot move it, and heats.
	tr.run(&s, Feed{Winding: Fast, Direction: 1}, 2)
	assert.True(t, tr.AtRest(&s))
	assert.Equal(t, held.CarM, s.CarM)
	assert.Zero(t, tr.AccelMS2(&s))
	assert.InEpsilon(t, tr.SteadyNM(Fast, 0), s.AirgapNM, 1e-6)
	assert.Positive(t, s.RotorHeatJ-held.RotorHeatJ)

	// Turned by hand one way, then let go against friction only: the balanced
	// car comes to rest by itself.
	s = tr.Start(3)
	s.LoadKG = 0.45 * 630
	tr.run(&s, open(8), 2)
	assert.Positive(t, s.OmegaRadS)
	got := spin(&tr, &s, open(0), tr.AtRest)
	assert.Positive(t, got)
	assert.Zero(t, s.OmegaRadS)
}

func TestReversalPassesThroughZero(t *testing.T) {
	// Phases reversed at speed: the shaft slows, turns and runs the other way,
	// with no pause at zero that friction does not account for.
	p := house()
	tr := NewTrain(&p)
	s := tr.Start(3)
	tr.run(&s, Feed{Winding: Fast, Direction: 1, BrakeCurrent: true}, 4)
	zeros := 0
	for range 3000 {
		tr.Step(&s, Feed{Winding: Fast, Direction: -1, BrakeCurrent: true}, 0.005)
		if tr.AtRest(&s) {
			zeros++
		}
	}
	assert.LessOrEqual(t, zeros, 1)
	assert.InDelta(t, -1.05, tr.SpeedMS(&s), 0.03)
}

func TestBrakeRamps(t *testing.T) {
	p := house()
	tr := NewTrain(&p)
	s := tr.Start(3)
	s.LoadKG = 0.45 * 630
	for i, want := range []float64{1. / 3, 2. / 3, 1, 1} {
		tr.run(&s, Feed{BrakeCurrent: true}, 0.05)
		assert.InDelta(t, want, s.BrakeLift, 1e-9, "lifting %d", i)
	}
	assert.Equal(t, 1.0, s.BrakeLift)
	tr.run(&s, Feed{}, 0.0125)
	assert.InDelta(t, 0.75, s.BrakeLift, 1e-9)
	tr.run(&s, Feed{HeldOpen: true}, 0.015)
	assert.InDelta(t, 0.85, s.BrakeLift, 1e-9, "caught on its way by hand")
	tr.run(&s, Feed{}, 0.05)
	assert.Equal(t, 0.0, s.BrakeLift)
}

func TestStepAllocatesNothing(t *testing.T) {
	p := house()
	tr := NewTrain(&p)
	s := tr.Start(0)
	assert.Zero(t, testing.AllocsPerRun(10, func() {
		for _, part := range script {
			for left := part.forS; left > 1e-9; left -= SampleS {
				tr.Step(&s, part.feed, min(left, SampleS))
				_ = tr.AccelMS2(&s)
			}
		}
	}))
}

func BenchmarkStep(b *testing.B) {
	p := house()
	t := NewTrain(&p)
	for _, k := range []struct {
		name string
		feed Feed
	}{{"running", Feed{Winding: Fast, Direction: 1, BrakeCurrent: true}}, {"resting", Feed{}}} {
		b.Run(k.name, func(b *testing.B) {
			s := t.Start(0)
			t.run(&s, k.feed, 5)
			b.ReportAllocs()
			for b.Loop() {
				t.Step(&s, k.feed, 0.005)
			}
		})
	}
}
