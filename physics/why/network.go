package why

import (
	"container/heap"
	"math"
	"slices"
	"strings"

	"wheelroom/physics/control"
	"wheelroom/physics/lift"
	"wheelroom/physics/relay"
)

// network is the machine's circuit at one instant, as nodes joined by
// contacts. Coils and lamps join nothing: all of them hang on the minus rail.
type network struct {
	m        *lift.Machine
	w        *control.Wiring
	leaves   []control.Leaf
	view     lift.View
	plus     relay.Node
	at       [][]int // contacts by node
	isolated int     // 1 while the main isolator is open, else -1
}

func look(m *lift.Machine) *network {
	n := &network{m: m, w: m.Wiring(), isolated: -1}
	n.leaves = n.w.Leaves
	m.Look(&n.view)
	n.plus = n.w.Node(control.Plus)
	n.at = make([][]int, n.w.Net.Nodes())
	for i := range n.leaves {
		if l := &n.leaves[i]; l.Contact >= 0 {
			n.at[l.From] = append(n.at[l.From], i)
			n.at[l.To] = append(n.at[l.To], i)
		}
	}
	if i := m.Switch("isolator"); i >= 0 && n.view.Switches[i] {
		n.isolated = 1
	}
	return n
}

// load is the leaf that is a part's coil or lamp, -1 for none.
func (n *network) load(part string) int {
	for i := range n.leaves {
		if n.leaves[i].Contact < 0 && n.leaves[i].Part() == part {
			return i
		}
	}
	return -1
}

// other is the node at the far end of a leaf.
func (n *network) other(leaf int, node relay.Node) relay.Node {
	if n.leaves[leaf].From == node {
		return n.leaves[leaf].To
	}
	return n.leaves[leaf].From
}

// reached marks every node that closed contacts join to the live rail, one
// contact left out; -1 leaves out none.
func (n *network) reached(without int) []bool {
	return n.spread(n.plus, func(leaf int) bool { return leaf != without && n.view.Contacts[leaf] })
}

// spread marks every node joined to one by contacts that count as closed.
func (n *network) spread(from relay.Node, closed func(leaf int) bool) []bool {
	seen := make([]bool, len(n.at))
	seen[from] = true
	queue := []relay.Node{from}
	for len(queue) > 0 {
		node := queue[0]
		queue = queue[1:]
		for _, leaf := range n.at[node] {
			if to := n.other(leaf, node); !seen[to] && closed(leaf) {
				seen[to] = true
				queue = append(queue, to)
			}
		}
	}
	return seen
}

// path finds the conducting path to a load, which of its contacts are
// bypassed, and the paths that bypass them.
func (n *network) path(a *Answer, load int) {
	end := n.leaves[load].From
	own := n.leaves[load].Part()
	main := n.cheapest(end, func(leaf int) float64 { return n.closedCost(leaf, own, -1) })
	found := [][]int{main}
	for _, leaf := range main {
		s := Step{Leaf: leaf, Say: n.because(leaf), Bypassed: n.reached(leaf)[end]}
		s.Next, s.End = n.ask(leaf)
		if n.leaves[leaf].Part() == own {
			s.Next, s.End = Target{Leaf: -1}, Memory
		}
		a.Path = append(a.Path, s)
		if !s.Bypassed {
			continue
		}
		beside := n.cheapest(end, func(l int) float64 { return n.closedCost(l, own, leaf) })
		if !slices.ContainsFunc(found, func(f []int) bool { return slices.Equal(f, beside) }) {
			found = append(found, beside)
			a.Beside = append(a.Beside, beside)
		}
	}
	a.Path = append(a.Path, Step{Leaf: load, Say: n.loadFact(own), Next: Target{Leaf: -1}})
}

// closedCost makes paths run through closed contacts only, and through the
// part's own rather than not at all.
func (n *network) closedCost(leaf int, own string, without int) float64 {
	switch {
	case leaf == without || !n.view.Contacts[leaf]:
		return math.Inf(1)
	case n.leaves[leaf].Part() == own:
		return 3 // what else feeds it says more
	}
	return 1
}

// blockers finds the open contacts of the path that needs fewest closed.
func (n *network) blockers(load int) []Blocker {
	end := n.leaves[load].From
	own := n.leaves[load].Part()
	path := n.cheapest(end, func(leaf int) float64 { return n.openCost(leaf, own) })
	var out []Blocker
	if n.isolated > 0 {
		out = append(out, Blocker{Leaf: -1, Say: n.fact("isolator", "", true), Next: Target{Leaf: -1}, End: Input})
	}
	named := map[int]bool{}
	for _, leaf := range path {
		named[leaf] = !n.view.Contacts[leaf]
	}
	for _, leaf := range path {
		if !named[leaf] {
			continue
		}
		b := Blocker{Leaf: leaf, Say: n.because(leaf), Guard: n.w.Guard(leaf)}
		b.Next, b.End = n.ask(leaf)
		// What joins the same two sides would do as well.
		bar := func(l int) bool { return l != leaf && (n.view.Contacts[l] || named[l]) }
		near, far := n.spread(n.plus, bar), n.spread(end, bar)
		for i := range n.leaves {
			l := &n.leaves[i]
			if i == leaf || l.Contact < 0 || n.view.Contacts[i] || l.Part() == own {
				continue
			}
			if near[l.From] && far[l.To] || near[l.To] && far[l.From] {
				b.Or = append(b.Or, i)
			}
		}
		out = append(out, b)
	}
	return out
}

// againstCost keeps a path from running through a branch from its far end,
// unless there is no other way.
const againstCost = 1e5

// Costs of an open contact. What matters first is how few have to close; the
// rest chooses the telling one among equals.
const (
	openCost   = 1000.0 // more than any path is long
	ownCost    = 6000.0 // a part is not out because its own contact is open
	absentCost = 50.0   // where the car is says more than a call nobody made
	behindCost = 30.0   // a landing ahead says more than one the car has left
	endCost    = 40.0   // a landing says more than a switch at the end of the shaft
	otherCost  = 80.0   // while the car runs one way, what it would do running the other says least
)

func (n *network) openCost(leaf int, own string) float64 {
	if n.view.Contacts[leaf] {
		return 1
	}
	part := n.leaves[leaf].Part()
	kind, _, _ := strings.Cut(part, ".")
	cost := openCost
	switch {
	case part == own:
		cost += ownCost
	case strings.HasPrefix(part, "call"), strings.HasPrefix(part, "button"):
		cost += absentCost
	case strings.HasSuffix(part, "-top"), strings.HasSuffix(part, "-bottom"):
		cost += endCost
	case part == "relay.up" && n.m.Heading("relay.down"), part == "relay.down" && n.m.Heading("relay.up"):
		cost += otherCost
	}
	if f := n.floorOf(part); f >= 0 {
		ahead := n.view.Direction[f]
		if kind == "advance-up" && ahead != lift.Above || kind == "advance-down" && ahead != lift.Below {
			cost += behindCost
		}
		cost += math.Abs(float64(f - n.view.NearFloor))
	}
	return cost
}

// floorOf is the floor a part belongs to, -1 for none.
func (n *network) floorOf(part string) int {
	kind, name, ok := strings.Cut(part, ".")
	if !ok || kind == "relay" || kind == "terminal" {
		return -1
	}
	return slices.Index(n.w.Diagram.Floors, name)
}

// cheapest returns the contacts of the cheapest path from the live rail to a
// node, in order; nil if there is none.
func (n *network) cheapest(to relay.Node, cost func(leaf int) float64) []int {
	best := slices.Repeat([]float64{math.Inf(1)}, len(n.at))
	by := slices.Repeat([]int{-1}, len(n.at))
	best[n.plus] = 0
	q := frontier{{n.plus, 0}}
	for len(q) > 0 {
		here := heap.Pop(&q).(reach)
		if here.cost > best[here.node] {
			continue
		}
		for _, leaf := range n.at[here.node] {
			next := n.other(leaf, here.node)
			c := here.cost + cost(leaf)
			if n.leaves[leaf].From != here.node {
				c += againstCost
			}
			if c < best[next] {
				best[next], by[next] = c, leaf
				heap.Push(&q, reach{next, c})
			}
		}
	}
	var path []int
	for node := to; node != n.plus; {
		leaf := by[node]
		if leaf < 0 {
			return nil
		}
		path = append(path, leaf)
		node = n.other(leaf, node)
	}
	slices.Reverse(path)
	return path
}

// reach is a node and what it costs to get there; frontier is a heap of them,
// equal costs by node so that the answer is always the same.
type reach struct {
	node relay.Node
	cost float64
}

type frontier []reach

func (f frontier) Len() int { return len(f) }
func (f frontier) Less(i, j int) bool {
	return f[i].cost < f[j].cost || f[i].cost == f[j].cost && f[i].node < f[j].node
}
func (f frontier) Swap(i, j int) { f[i], f[j] = f[j], f[i] }
func (f *frontier) Push(x any)   { *f = append(*f, x.(reach)) }
func (f *frontier) Pop() any {
	old := *f
	last := old[len(old)-1]
	*f = old[:len(old)-1]
	return last
}
