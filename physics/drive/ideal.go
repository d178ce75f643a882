package drive

import "math"

// IdealS returns the seconds of the shortest trip of distM metres at no more
// than the given speed, acceleration and jerk, at rest at both ends (Peters
// 1995, Elevator Technology 6). All four are positive.
//
// Long trips reach the speed, shorter ones only the acceleration, the shortest
// only the jerk:
//
//	d ≥ (a²v + v²j)/(aj)   t = d/v + v/a + a/j
//	d ≥ 2a³/j²             t = a/j + √(4d/a + (a/j)²)
//	below                  t = (32d/j)^⅓
//
// The first row takes a speed that can be reached at full acceleration,
// v ≥ a²/j; a lower speed is reached with an acceleration of √(vj) only.
func IdealS(distM, speedMS, accelMS2, jerkMS3 float64) float64 {
	d, v, a, j := distM, speedMS, accelMS2, jerkMS3
	if v*j < a*a {
		a = math.Sqrt(v * j)
	}
	switch {
	case d >= (a*a*v+v*v*j)/(a*j):
		return d/v + v/a + a/j
	case d >= 2*a*a*a/(j*j):
		return a/j + math.Sqrt(4*d/a+a*a/(j*j))
	}
	return math.Cbrt(32 * d / j)
}
