package drive

// RopeN returns the pull of all falls together at the car and at the
// counterweight, newtons, without the ropes' own weight and the guides'
// friction. Their ratio is what the sheave's traction must carry.
func (t *Train) RopeN(s *State) (car, counterweight float64) {
	a := t.AccelMS2(s)
	return (t.carKG + s.LoadKG) * (GravityMS2 + a), (t.carKG - t.balanceKG) * (GravityMS2 - a)
}

// TractionLimit returns the greatest ratio of the pulls on either side of the
// sheave that friction in its grooves carries, e^(f·α), for a coefficient of
// friction and an angle of wrap in radians (EN 81-50 5.11).
func TractionLimit(friction, wrapRad float64) float64 { return exp(friction * wrapRad) }

// PullRatio returns the ratio of the greater rope pull to the lesser at the
// sheave, 1 or more, the ropes' own weight and the guides' friction left out.
func (t *Train) PullRatio(loadKG, accelMS2 float64) float64 {
	car := (t.carKG + loadKG) * (GravityMS2 + accelMS2)
	other := (t.carKG - t.balanceKG) * (GravityMS2 - accelMS2)
	return max(car/other, other/car)
}
