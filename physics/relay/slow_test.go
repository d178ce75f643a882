package relay

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"wheelroom/physics/lamp"
)

// slow is the obvious twin of State: dense nodal analysis, every coil a
// companion conductance, small implicit steps (two-stage SDIRK, second order
// and stiffly stable, gamma = 1 - 1/sqrt 2; Alexander 1977, SIAM J. Numer.
// Anal. 14, value from memory).
type slow struct {
	c      *Circuit
	closed []bool
	on     []bool
	i      []float64
	lu     mat.LU
	rhs, v *mat.VecDense
	g      *mat.Dense

	glow     []float64 // by lamp: temperature
	fed, hot []bool
}

func newSlow(c *Circuit) *slow {
	n := len(c.names) - 1
	r := &slow{
		c: c, closed: make([]bool, len(c.contacts)), on: make([]bool, len(c.diodes)),
		i: make([]float64, len(c.coils)), rhs: mat.NewVecDense(n, nil),
		v: mat.NewVecDense(n, nil), g: mat.NewDense(n, n, nil),
		glow: make([]float64, len(c.lamps)), fed: make([]bool, len(c.lamps)), hot: make([]bool, len(c.lamps)),
	}
	for k := range c.contacts {
		r.closed[k] = c.contacts[k].closed
	}
	return r
}

func (r *slow) volts(n Node) float64 {
	if n == 0 {
		return 0
	}
	return r.v.AtVec(int(n) - 1)
}

func (r *slow) conduct(a, b Node, g float64) {
	add := func(i, j Node, g float64) {
		if i != 0 && j != 0 {
			r.g.Set(int(i)-1, int(j)-1, r.g.At(int(i)-1, int(j)-1)+g)
		}
	}
	add(a, a, g)
	add(b, b, g)
	add(a, b, -g)
	add(b, a, -g)
}

func (r *slow) inject(n Node, j float64) {
	if n != 0 {
		r.rhs.SetVec(int(n)-1, r.rhs.AtVec(int(n)-1)+j)
	}
}

// euler takes one backward Euler step of h from the currents from, and
// returns those at its end. A step of 0 leaves the currents as they are; one
// of +Inf finds where they settle.
func (r *slow) euler(from []float64, h float64) []float64 {
	for range 100 {
		r.g.Zero()
		r.rhs.Zero()
		for _, e := range r.c.elements {
			g := 1 / r.ohms(e)
			switch e.Kind {
			case Source:
				r.inject(e.A, e.Volts*g)
				r.inject(e.B, -e.Volts*g)
			case Contact:
				if !r.closed[e.Index] {
					g = 1 / r.c.OpenOhm
				}
			case Diode:
				r.conduct(e.A, e.B, 1/r.c.OpenOhm)
				if !r.on[e.Index] {
					continue
				}
				r.inject(e.A, e.Volts*g)
				r.inject(e.B, -e.Volts*g)
			case Coil:
				r.conduct(e.A, e.B, 1/leakOhm)
				// (L/h + R) i = L/h i0 + v
				lh := r.c.coils[e.Index].spec.HenryL / h
				if h == 0 {
					r.inject(e.A, -from[e.Index])
					r.inject(e.B, from[e.Index])
					continue
				}
				g = 1 / (lh + e.Ohms)
				r.inject(e.A, -g*lh*from[e.Index])
				r.inject(e.B, g*lh*from[e.Index])
			}
			r.conduct(e.A, e.B, g)
		}
		r.lu.Factorize(r.g)
		if err := r.lu.SolveVecTo(r.v, false, r.rhs); err != nil {
			if _, bad := err.(mat.Condition); !bad {
				panic(err)
			}
		}
		if !r.flip() {
			break
		}
	}
	to := make([]float64, len(from))
	for k := range r.c.coils {
		o := &r.c.coils[k]
		lh := o.spec.HenryL / h
		to[k] = (lh*from[k] + r.volts(o.a) - r.volts(o.b)) / (lh + o.spec.OhmR)
	}
	return to
}

func (r *slow) flip() bool {
	for d, id := range r.c.diodes {
		e := r.c.elements[id]
		drop := r.volts(e.A) - r.volts(e.B)
		if r.on[d] != (drop > e.Volts) && math.Abs(drop-e.Volts) > 1e-7 {
			r.on[d] = !r.on[d]
			return true
		}
	}
	return false
}

// ohms is the resistance of an element; contacts see to themselves.
func (r *slow) ohms(e Element) float64 {
	if e.Kind == Lamp && !r.hot[e.Index] {
		return r.c.lamps[e.Index].spec.ColdOhm
	}
	return e.Ohms
}

// stepLamps lets h seconds pass in which lamps are fed, heat and cool, and
// returns how many became hot or cold.
func (r *slow) stepLamps(h float64) (changes int) {
	on := append([]bool(nil), r.on...)
	r.euler(r.i, math.Inf(1)) // where it settles says who is fed
	for i, f := range r.c.lamps {
		e := r.c.elements[f.element]
		v := math.Abs(r.volts(e.A) - r.volts(e.B))
		// the power it takes cold against that it takes hot at its rated voltage
		r.fed[i] = v*v/f.spec.ColdOhm >= f.spec.RatedV*f.spec.RatedV/f.spec.HotOhm
	}
	copy(r.on, on)

	// the first to go over cuts the step
	cut, who := h, -1
	for i, f := range r.c.lamps {
		at := math.Inf(1)
		switch {
		case r.fed[i] && !r.hot[i]:
			at = -math.Log((1-lamp.Hot)/(1-r.glow[i])) * f.spec.Filament.RiseS / math.Ln10
		case !r.fed[i] && r.hot[i]:
			at = -math.Log(lamp.Cold/r.glow[i]) * f.spec.Filament.FallS / math.Ln10
		}
		if at = math.Max(at, 0); at < cut {
			cut, who = at, i
		}
	}
	for i, f := range r.c.lamps {
		if r.fed[i] {
			r.glow[i] += (1 - r.glow[i]) * -math.Expm1(-cut*math.Ln10/f.spec.Filament.RiseS)
		} else {
			r.glow[i] += r.glow[i] * math.Expm1(-cut*math.Ln10/f.spec.Filament.FallS)
		}
	}
	if cut > 0 {
		r.step(cut)
	}
	if who < 0 {
		return 0
	}
	r.hot[who] = r.fed[who]
	return 1 + r.stepLamps(h-cut)
}

// step lets h seconds pass.
func (r *slow) step(h float64) {
	const gamma = 1 - math.Sqrt2/2
	one := r.euler(r.i, gamma*h)
	mid := make([]float64, len(r.i))
	for k := range mid {
		mid[k] = r.i[k] + (1-gamma)/gamma*(one[k]-r.i[k])
	}
	r.i = r.euler(mid, gamma*h)
}
