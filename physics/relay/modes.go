package relay

import "math"

// settledRates is the number of time constants after which nothing of a
// transient is left: e^-36 is the rounding of a float64.
const settledRates = 36

// modes is every transient current as a sum of exponentials. Cluster members
// and rates share their numbering.
type modes struct {
	member  []CoilID
	rate    []float64 // 1/s
	weight  []float64 // A, member by mode inside each cluster
	cluster []cluster
}

type cluster struct {
	first, n int // members, and their modes
	weight   int // first of n*n
}

func (m *modes) reset() {
	m.member, m.rate = m.member[:0], m.rate[:0]
	m.weight, m.cluster = m.weight[:0], m.cluster[:0]
}

func (m *modes) copyFrom(o *modes) {
	m.member = append(m.member[:0], o.member...)
	m.rate = append(m.rate[:0], o.rate...)
	m.weight = append(m.weight[:0], o.weight...)
	m.cluster = append(m.cluster[:0], o.cluster...)
}

// decay is e^-x. Exp2 gives the same bits on every target; Exp does not.
func decay(x float64) float64 { return math.Exp2(-x * math.Log2E) }

// currents brings amps to the present instant.
func (s *State) currents() {
	if s.ampsT == s.t {
		return
	}
	s.ampsT = s.t
	if s.t > s.settledT {
		copy(s.amps, s.target)
		return
	}
	m := &s.modes
	for i := range m.cluster {
		cl := &m.cluster[i]
		for x, k := range m.member[cl.first : cl.first+cl.n] {
			s.amps[k] = s.target[k]
			row := m.weight[cl.weight+x*cl.n:][:cl.n]
			for j, rate := range m.rate[cl.first : cl.first+cl.n] {
				s.amps[k] += float64(row[j] * decay(rate*s.t))
			}
		}
	}
}

// voltages brings volts to the present instant.
func (s *State) voltages() {
	if s.voltsT == s.t || s.voltsT > s.settledT && s.t > s.settledT {
		return
	}
	s.currents()
	s.present()
}

// sum gathers the exponentials of one coil into scratch.
func (s *State) sum(k CoilID) (amp, rate []float64) {
	w, m := &s.work, &s.modes
	w.amp, w.rate = w.amp[:0], w.rate[:0]
	for i := range m.cluster {
		cl := &m.cluster[i]
		for x, l := range m.member[cl.first : cl.first+cl.n] {
			if l == k {
				w.amp = append(w.amp, m.weight[cl.weight+x*cl.n:][:cl.n]...)
				w.rate = append(w.rate, m.rate[cl.first:cl.first+cl.n]...)
				return w.amp, w.rate
			}
		}
	}
	return w.amp, w.rate
}

// reach returns the first t >= from at which
//
//	base + Σ amp_k e^(-rate_k t)
//
// is level or more, +Inf if it never is. It scales amp to the instant from.
// With one mode the answer is closed; with more, every term is monotone, so
// the ends of an interval bound the sum and its slope inside it: an interval
// is thrown away when its bound lies under the level, solved when the slope
// has one sign, and halved otherwise.
func reach(base float64, amp, rate []float64, level, from float64) float64 {
	now, top, slow, size := base, base, math.Inf(1), math.Abs(level)
	n := 0
	for k, a := range amp {
		a *= decay(rate[k] * from)
		now += a
		if math.Abs(a) < negligible*size {
			continue
		}
		amp[n], rate[n] = a, rate[k]
		n++
		top += math.Max(a, 0)
		slow = math.Min(slow, rate[k])
	}
	amp, rate = amp[:n], rate[:n]
	switch {
	case now >= level:
		return from
	case top < level || n == 0:
		return math.Inf(1)
	case n == 1:
		if base <= level || amp[0] >= 0 {
			return math.Inf(1)
		}
		return from + math.Max(0, math.Log(amp[0]/(level-base))/rate[0])
	}
	return from + reachIn(base, amp, rate, level, 0, settledRates/slow)
}

// negligible is the size under which a mode is left out of a search, as a
// share of the level sought.
const negligible = 1e-11

// reachIn searches [p, q], from the left.
func reachIn(base float64, amp, rate []float64, level, p, q float64) float64 {
	top, steepest, flattest := base, 0.0, 0.0
	for k, a := range amp {
		ap, aq := a*decay(rate[k]*p), a*decay(rate[k]*q)
		top += math.Max(ap, aq)
		sp, sq := -rate[k]*ap, -rate[k]*aq
		steepest += math.Max(sp, sq)
		flattest += math.Min(sp, sq)
	}
	switch {
	case top < level, steepest <= 0:
		return math.Inf(1)
	case flattest >= 0 || q-p <= 1e-12*q || q-p < 1e-13:
		return rising(base, amp, rate, level, p, q)
	}
	mid := (p + q) / 2
	if t := reachIn(base, amp, rate, level, p, mid); !math.IsInf(t, 1) {
		return t
	}
	return reachIn(base, amp, rate, level, mid, q)
}

// rising solves for the level on a stretch where the sum only rises: Newton's
// step, or halving where that would leave the bracket.
func rising(base float64, amp, rate []float64, level, p, q float64) float64 {
	if f, _ := value(base, amp, rate, q); f < level {
		return math.Inf(1)
	}
	t := (p + q) / 2
	for range 100 {
		f, slope := value(base, amp, rate, t)
		if f >= level {
			q = t
		} else {
			p = t
		}
		last := t
		t -= (f - level) / slope
		if !(t > p && t < q) {
			t = (p + q) / 2
		}
		if math.Abs(t-last) <= 1e-15*q {
			break
		}
	}
	return t
}

func value(base float64, amp, rate []float64, t float64) (f, slope float64) {
	f = base
	for k, a := range amp {
		e := a * decay(rate[k]*t)
		f += e
		slope -= float64(rate[k] * e)
	}
	return f, slope
}
