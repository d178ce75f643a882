package relay

import "math"

// Currents that no longer matter, in units of the coil's pick-up current.
const (
	snapShare  = 1e-6 // this near its target a current is there
	tieTight   = 1e-5 // disturbances down to this are followed in a coil on its way
	tieLoose   = 5e-4 // and down to this in a coil that rests clear of its thresholds
	tieStrong  = 1e-2 // from here on a tie is never left out
	clearShare = 0.05 // "clear": this far from any threshold
)

// clusterMost bounds the clusters made of weak ties: the work of finding the
// modes grows with the cube, and 24 coils take a tenth of a millisecond.
const clusterMost = 24

// transient finds the coils that are on their way, the clusters they form,
// and the modes of each.
func (s *State) transient() {
	w := &s.work
	s.modes.reset()
	s.settledT, s.slack = 0, 0
	for d := range s.diodeAt {
		s.diodeAt[d] = math.Inf(1)
	}
	w.live = w.live[:0]
	for k := range s.coils {
		w.index[k], w.stray[k] = -1, 0
		e := s.amps[k] - s.target[k]
		if math.Abs(e) <= snapShare*s.c.coils[k].spec.PickUpA {
			if e != 0 {
				s.amps[k] = s.target[k]
				s.voltsT = -1
			}
			continue
		}
		w.index[k] = int32(len(w.live))
		w.kick[k] = math.Abs(e)
		w.live = append(w.live, CoilID(k))
	}
	if len(w.live) == 0 {
		return
	}
	s.look()
	s.tie()
	s.spin()
	s.aimDiodes()
}

// look finds the Thevenin resistances between the live coils, and takes in
// those coils at rest which the live ones disturb.
func (s *State) look() {
	w, c := &s.work, s.c
	cols := len(c.coils)
	if len(w.rth) < cols*cols {
		w.rth = make([]float64, cols*cols)
		w.dio = make([]float64, len(c.diodes)*cols)
	}
	for i := 0; i < len(w.live); i++ {
		j := w.live[i]
		clear(w.x)
		w.x[c.coils[j].a] += 1
		w.x[c.coils[j].b] -= 1
		c.plan.solve(&s.open, w.x)
		for k := range c.coils {
			o := &c.coils[k]
			r := w.x[o.a] - w.x[o.b]
			w.rth[i*cols+k] = r
			if w.index[k] >= 0 || s.coils[k].forced == OpenCircuit {
				continue
			}
			push := math.Abs(r) * w.kick[j] / o.spec.OhmR
			if push <= s.tolerance(CoilID(k))*o.spec.PickUpA {
				w.stray[k] += push / o.spec.PickUpA
				continue
			}
			w.index[k] = int32(len(w.live))
			w.kick[k] = push
			w.live = append(w.live, CoilID(k))
		}
		for d, id := range c.diodes {
			e := &c.elements[id]
			w.dio[d*cols+i] = w.x[e.A] - w.x[e.B]
		}
	}
}

// tolerance is the disturbance, in units of pick-up current, down to which a
// coil is tied to the one that disturbs it.
func (s *State) tolerance(k CoilID) float64 {
	spec := &s.c.coils[k].spec
	if math.Abs(s.amps[k]-s.target[k]) > tieLoose*spec.PickUpA {
		return tieTight
	}
	i, margin := math.Abs(s.target[k]), clearShare*spec.PickUpA
	if math.Abs(i-spec.PickUpA) < margin || math.Abs(i-spec.DropOutA) < margin {
		return tieTight
	}
	return tieLoose
}

// tie groups the live coils into clusters, strongest ties first.
func (s *State) tie() {
	w, c := &s.work, s.c
	n, cols := len(w.live), len(c.coils)
	w.group = w.group[:0]
	w.gain = w.gain[:0]
	for i := range w.live {
		w.group = append(w.group, int32(i))
	}
	// gain[i*n+j]: how far coil j moves the current of coil i, in pick-ups
	for i, k := range w.live {
		spec := &c.coils[k].spec
		self := (spec.OhmR + w.rth[i*cols+int(k)]) * spec.PickUpA
		for j, l := range w.live {
			if i == j {
				w.gain = append(w.gain, 0)
				continue
			}
			w.gain = append(w.gain, math.Abs(w.rth[j*cols+int(k)])*w.kick[l]/self)
		}
	}
	for level := tieStrong; level > tieTight/2; level /= 10 {
		for i, k := range w.live {
			least := math.Max(level, s.tolerance(k))
			if level == tieStrong {
				least = level
			}
			for j := range w.live {
				if w.gain[i*n+j] >= least && w.group[i] != w.group[j] {
					w.merge(w.group[i], w.group[j], level < tieStrong)
				}
			}
		}
	}
	for k, i := range w.index {
		if i < 0 {
			s.slack = math.Max(s.slack, w.stray[k])
		}
	}
	for i := range w.live {
		out := 0.0
		for j := range w.live {
			if w.group[i] != w.group[j] {
				out += w.gain[i*n+j]
			}
		}
		s.slack = math.Max(s.slack, out)
	}
}

// merge joins two groups under the lower number; a weak tie only if the
// result stays small.
func (w *scratch) merge(a, b int32, weak bool) {
	if a > b {
		a, b = b, a
	}
	if weak {
		size := 0
		for _, g := range w.group {
			if g == a || g == b {
				size++
			}
		}
		if size > clusterMost {
			return
		}
	}
	for i, g := range w.group {
		if g == b {
			w.group[i] = a
		}
	}
}

// spin turns each cluster into modes.
func (s *State) spin() {
	w, c, m := &s.work, s.c, &s.modes
	cols := len(c.coils)
	for g := range w.live {
		first := len(m.member)
		for i, k := range w.live {
			if w.group[i] == int32(g) {
				m.member = append(m.member, k)
			}
		}
		n := len(m.member) - first
		if n == 0 {
			continue
		}
		w.a = grow(w.a, n*n)
		w.q = grow(w.q, n*n)
		for x, k := range m.member[first:] {
			for y, l := range m.member[first:] {
				r := w.rth[int(w.index[k])*cols+int(l)]
				if x == y {
					r += c.coils[k].spec.OhmR
				} else {
					r = (r + w.rth[int(w.index[l])*cols+int(k)]) / 2
				}
				w.a[x*n+y] = r / math.Sqrt(s.henry(k)*s.henry(l))
			}
		}
		jacobi(w.a, w.q, n)
		s.addModes(first, n)
	}
}

// addModes writes the cluster of n coils from member first on as weights of
// exponentials.
func (s *State) addModes(first, n int) {
	w, m := &s.work, &s.modes
	at := len(m.weight)
	for k := 0; k < n; k++ {
		rate := w.a[k*n+k]
		m.rate = append(m.rate, rate)
		s.settledT = math.Max(s.settledT, settledRates/rate)
	}
	m.weight = append(m.weight, w.q[:n*n]...)
	for k := 0; k < n; k++ {
		start := 0.0 // of mode k
		for x, l := range m.member[first:] {
			start += float64(w.q[x*n+k] * (s.amps[l] - s.target[l]) * math.Sqrt(s.henry(l)))
		}
		for x, l := range m.member[first:] {
			m.weight[at+x*n+k] *= start / math.Sqrt(s.henry(l))
		}
	}
	m.cluster = append(m.cluster, cluster{first: first, n: n, weight: at})
}

func (s *State) henry(k CoilID) float64 {
	return s.c.coils[k].spec.HenryL * s.coils[k].slow
}

func grow(x []float64, n int) []float64 {
	if cap(x) < n {
		return make([]float64, n)
	}
	return x[:n]
}
