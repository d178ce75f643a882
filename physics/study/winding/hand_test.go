package winding

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"wheelroom/physics/drive"
)

func TestHandTurnsTheWheelAsFarAsMeant(t *testing.T) {
	p := house()
	train := drive.NewTrain(&p)
	for _, kg := range []float64{0, 283.5, 630} {
		for _, turn := range []float64{-math.Pi / 2, -0.2, 0.2, math.Pi / 2} {
			nm := HandNM(&p, kg, 4, turn)
			assert.Less(t, math.Abs(nm), MostNM)
			assert.InDelta(t, turn, turned(&train, kg, 4, nm), 0.01, "%v kg", kg)
		}
	}
	// The car that rises by itself is held back on its way up.
	assert.Negative(t, HandNM(&p, 0, 4, 0.2))
	// More than a hand can do.
	assert.InDelta(t, MostNM, HandNM(&p, 0, 4, 100), 1e-3)
}

// The machine makes the movement that was meant for it.
func TestHandOnTheMachine(t *testing.T) {
	r := newRig(t, 0, 4)
	r.must(People, Told, Isolated, LockedOff, ProvedDead, DoorsShut, Hands)
	before := r.v.HandwheelRad
	p := r.m.Plan()
	assert.Empty(t, r.do(Act{Step: Move, NM: HandNM(p, 0, r.v.CarM, -math.Pi/2)}))
	r.wait(2)
	assert.InDelta(t, -math.Pi/2, r.v.HandwheelRad-before, 0.05)
}
