package drive

import (
	"fmt"
	"testing"

	"wheelroom/physics/building"
)

type rigRun struct{ levelMM, maxA, maxD, slow, creep, vane float64 }

func rig(p *building.Plan, load, dir float64, delay float64) rigRun {
	t := NewTrain(p)
	s := t.Start(0)
	s.LoadKG = load
	h := 1e-4
	var r rigRun
	target := dir * 8
	phase := 0
	wait := 0.0
	var x0 float64
	f := Feed{Winding: Fast, Direction: int8(dir), BrakeCurrent: false}
	lift := 0.12
	for i := 0; i < 1000000; i++ {
		if lift > 0 {
			lift -= h
			if lift <= 0 {
				f.BrakeCurrent = true
			}
		}
		t.Step(&s, f, h)
		a := t.AccelMS2(&s) * dir
		if phase < 4 {
			r.maxA = max(r.maxA, a)
			r.maxD = max(r.maxD, -a)
		}
		left := dir * (target - s.CarM)
		switch phase {
		case 0:
			if left <= p.Selector.AdvanceUpM {
				phase, wait = 1, delay
				x0 = s.CarM
			}
		case 1:
			if wait -= h; wait <= 0 {
				f.Winding = Slow
				phase = 2
			}
		case 2:
			if left <= p.Shaft.VaneHalfM {
				phase, wait = 3, 0.038
				r.vane = dir * t.SpeedMS(&s)
				r.slow = dir * (s.CarM - x0)
			}
		case 3:
			if wait -= h; wait <= 0 {
				f.Winding, f.Direction = Off, 0
				phase, wait = 4, 0.04
			}
		case 4:
			if wait -= h; wait <= 0 && f.BrakeCurrent {
				f.BrakeCurrent = false
			}
			if t.AtRest(&s) {
				r.levelMM = dir * (s.CarM - target) * 1000
				return r
			}
		}
	}
	return r
}

func TestProto(t *testing.T) {
	for _, j := range []float64{1.2, 0.05, 0.3, 0.6, 2.4} {
		p := building.Evenly("x", 6, 3.2)
		p.Machine.HandwheelKGM2 = j
		p.Selector.AdvanceUpM = 0.5 + 0.5*j
		p.Shaft.VaneHalfM = (27.5 + 16.5*j) / 1000
		for _, d := range []float64{0, 0.035} {
			lo, hi, a, de := 1e9, -1e9, 0., 0.
			for _, load := range []float64{0, 150, 300, 450, 630, 693} {
				for _, dir := range []float64{1, -1} {
					r := rig(&p, load, dir, d)
					lo, hi, a, de = min(lo, r.levelMM), max(hi, r.levelMM), max(a, r.maxA), max(de, r.maxD)
					if j == 1.2 || j == 0.05 {
						fmt.Printf("   %g %g: %+v\n", load, dir, r)
					}
				}
			}
			fmt.Printf("J %g delay %g: level %.2f..%.2f acc %.3f dec %.3f\n", j, d, lo, hi, a, de)
		}
	}
}

func BenchmarkStep(b *testing.B) {
	p := building.Evenly("x", 6, 3.2)
	t := NewTrain(&p)
	s := t.Start(0)
	for b.Loop() {
		t.Step(&s, Feed{Winding: Fast, Direction: 1, BrakeCurrent: true}, 0.005)
	}
	b.ReportAllocs()
}
