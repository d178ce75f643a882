package relay

// A plan is the order in which the nodes of a circuit are eliminated and the
// places their conductances go to. It depends on the wiring alone.
//
// Step k takes away node order[k]. The edges it still has lie at
// first[k]..first[k+1] of a mesh, each to the node in far; the product of each
// pair of them is added to the edge in pair.
type plan struct {
	order     []Node
	first     []int32
	far       []Node
	pairFirst []int32
	pair      []int32
	edge      []int32 // of each element
}

// newPlan orders the elimination of nodes 1 to n-1, always the one with the
// fewest neighbours left, the lowest number among equals.
func newPlan(n int, elements []Element) plan {
	near := make([][]bool, n) // near[i][j]: an edge joins i and j
	degree := make([]int, n)
	for i := range near {
		near[i] = make([]bool, n)
	}
	join := func(i, j Node) {
		if i != j && !near[i][j] {
			near[i][j], near[j][i] = true, true
			degree[i]++
			degree[j]++
		}
	}
	for _, e := range elements {
		join(e.A, e.B)
	}

	p := plan{first: []int32{0}, pairFirst: []int32{0}}
	gone := make([]bool, n)
	at := map[[2]Node]int32{} // edge of the node taken away first, and the other
	for len(p.order) < n-1 {
		best := Node(0)
		for i := Node(1); int(i) < n; i++ {
			if !gone[i] && (best == 0 || degree[i] < degree[best]) {
				best = i
			}
		}
		gone[best] = true
		p.order = append(p.order, best)
		start := len(p.far)
		for j := range near[best] {
			if near[best][j] && !gone[j] {
				at[[2]Node{best, Node(j)}] = int32(len(p.far))
				p.far = append(p.far, Node(j))
				degree[j]--
			}
		}
		for i, a := range p.far[start:] {
			for _, b := range p.far[start+i+1:] {
				join(a, b)
			}
		}
		p.first = append(p.first, int32(len(p.far)))
	}

	find := func(a, b Node) int32 {
		if e, ok := at[[2]Node{a, b}]; ok {
			return e
		}
		return at[[2]Node{b, a}]
	}
	for k := range p.order {
		far := p.far[p.first[k]:p.first[k+1]]
		for i, a := range far {
			for _, b := range far[i+1:] {
				p.pair = append(p.pair, find(a, b))
			}
		}
		p.pairFirst = append(p.pairFirst, int32(len(p.pair)))
	}
	for _, e := range elements {
		p.edge = append(p.edge, find(e.A, e.B))
	}
	return p
}

// A mesh is the numbers of one elimination: the conductance of every edge at
// the moment its node is taken away, and one over their sum.
type mesh struct {
	g   []float64
	inv []float64
}

func (p *plan) newMesh() mesh {
	return mesh{g: make([]float64, len(p.far)), inv: make([]float64, len(p.order))}
}

func (m *mesh) copyFrom(o *mesh) {
	copy(m.g, o.g)
	copy(m.inv, o.inv)
}

// clear makes room for the conductances of a new topology.
func (m *mesh) clear() { clear(m.g) }

// reduce takes away every node in turn: star to mesh.
func (p *plan) reduce(m *mesh) {
	for k := range p.order {
		row := m.g[p.first[k]:p.first[k+1]]
		sum := 0.0
		for _, g := range row {
			sum += g
		}
		inv := 1 / sum
		m.inv[k] = inv
		to := p.pair[p.pairFirst[k]:p.pairFirst[k+1]]
		for i, g := range row {
			share := g * inv
			for j, h := range row[i+1:] {
				e := to[j]
				m.g[e] += float64(share * h)
			}
			to = to[len(row)-i-1:]
		}
	}
}

// solve turns the currents fed into each node, x, into the node voltages.
// x[0] is ground and ends at 0.
func (p *plan) solve(m *mesh, x []float64) {
	for k, n := range p.order {
		if x[n] == 0 {
			continue
		}
		v := x[n] * m.inv[k]
		x[n] = v
		lo, hi := p.first[k], p.first[k+1]
		far := p.far[lo:hi]
		for j, g := range m.g[lo:hi] {
			x[far[j]] += float64(g * v)
		}
	}
	x[0] = 0
	for k := len(p.order) - 1; k >= 0; k-- {
		lo, hi := p.first[k], p.first[k+1]
		far := p.far[lo:hi]
		sum := 0.0
		for j, g := range m.g[lo:hi] {
			sum += float64(g * x[far[j]])
		}
		x[p.order[k]] += float64(sum * m.inv[k])
	}
}
