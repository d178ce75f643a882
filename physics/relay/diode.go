package relay

import "math"

// aimDiodes finds when each diode turns over. Its voltage is that of the
// settled network less what the currents still lack:
//
//	v(t) = v∞ - Σ_j D_j (i_j(t) - i∞_j)
//
// with D_j the voltage across the diode for 1 A fed through the place of coil
// j, so it is a sum over the modes of all clusters.
func (s *State) aimDiodes() {
	w, c, m := &s.work, s.c, &s.modes
	cols := len(c.coils)
	for d := range c.diodes {
		amp, rate := w.amp[:0], w.rate[:0]
		for i := range m.cluster {
			cl := &m.cluster[i]
			for k := 0; k < cl.n; k++ {
				sum := 0.0
				for x, l := range m.member[cl.first : cl.first+cl.n] {
					sum += float64(w.dio[d*cols+int(w.index[l])] * m.weight[cl.weight+x*cl.n+k])
				}
				// a mode this small never flips it by itself
				if math.Abs(sum) > diodeHair/8 {
					amp = append(amp, -sum)
					rate = append(rate, m.rate[cl.first+k])
				}
			}
		}
		w.amp, w.rate = amp, rate
		s.diodeAt[d] = s.turnsOver(d, amp, rate)
	}
}

// turnsOver searches one diode's voltage, given as modes about its value in
// the network settled with the diodes as they are.
func (s *State) turnsOver(d int, amp, rate []float64) float64 {
	e := &s.c.elements[s.c.diodes[d]]
	settled := s.volts[e.A] - s.volts[e.B]
	for _, a := range amp {
		settled -= a
	}
	if !s.on[d] {
		return reach(settled, amp, rate, e.Volts+diodeHair, 0)
	}
	for i := range amp {
		amp[i] = -amp[i]
	}
	return reach(-settled, amp, rate, -(e.Volts - diodeHair), 0)
}
