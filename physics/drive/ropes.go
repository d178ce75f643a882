package drive

// RopeN returns the pull of all falls together at the car and at the
// counterweight, newtons, without the ropes' own weight and the guides'
// friction. Their ratio is what the sheave's traction must carry.
func (t *Train) RopeN(s *State) (car, counterweight float64) {
	a := t.AccelMS2(s)
	return (t.carKG + s.LoadKG) * (GravityMS2 + a), (t.carKG - t.balanceKG) * (GravityMS2 - a)
}
