package winding

import (
	"math"

	"wheelroom/physics/building"
	"wheelroom/physics/drive"
)

// HandNM returns the torque by hand at the wheel, N·m, raising the car when
// positive, with which one short movement turns it so far, radians: the brake
// eased for ShortS, then let set. Holding back counts as negative turning. No
// hand gives more than MostNM; where that is not enough, it is returned.
func HandNM(p *building.Plan, loadKG, carM, turnRad float64) float64 {
	t := drive.NewTrain(p)
	lo, hi := -MostNM, MostNM
	for range 24 {
		mid := (lo + hi) / 2
		if turned(&t, loadKG, carM, mid) < turnRad {
			lo = mid
		} else {
			hi = mid
		}
	}
	return (lo + hi) / 2
}

// turned is how far the wheel turns in one short movement with a torque by
// hand, until it rests again.
func turned(t *drive.Train, loadKG, carM, handNM float64) float64 {
	s := t.Start(carM)
	s.LoadKG = loadKG
	for range int(math.Round(ShortS / drive.SampleS)) {
		t.Step(&s, drive.Feed{HeldOpen: true, HandNM: handNM}, drive.SampleS)
	}
	const longest = 30.0
	for at := 0.0; at < longest && !t.AtRest(&s); at += drive.SampleS {
		t.Step(&s, drive.Feed{}, drive.SampleS)
	}
	return s.ShaftRad
}
