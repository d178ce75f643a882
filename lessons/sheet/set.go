package sheet

import (
	"math/rand/v2"
	"strings"

	"wheelroom/lessons/script"
	"wheelroom/lessons/tutor"
)

// A Copy is one sheet of a class set: in which order it offers what there is
// to choose from.
type Copy struct {
	Number int     // from 1; 0 for a sheet by itself
	Orders [][]int // by item: places in the lesson's own order
}

// Plain is the sheet in the lesson's own order.
func (s *Sheet) Plain() Copy { return Copy{Orders: s.orders()} }

// MostCopies is how many sheets one set may have: more than a class has heads.
const MostCopies = 60

// Set returns n sheets with shuffled answers. The same seed gives the same set.
func (s *Sheet) Set(n int, seed uint64) []Copy {
	random := rand.New(rand.NewPCG(seed, 0x5ee1))
	copies := make([]Copy, n)
	for i := range copies {
		orders := s.orders()
		for _, order := range orders {
			random.Shuffle(len(order), func(a, b int) { order[a], order[b] = order[b], order[a] })
		}
		copies[i] = Copy{Number: i + 1, Orders: orders}
	}
	return copies
}

func (s *Sheet) orders() [][]int {
	orders := make([][]int, len(s.Items))
	for i := range s.Items {
		orders[i] = make([]int, len(s.Items[i].Offered()))
		for k := range orders[i] {
			orders[i][k] = k
		}
	}
	return orders
}

// Offered returns what bears a letter on paper: options or parts; none where
// an answer is written in another way.
func (it *Item) Offered() []tutor.Choice {
	switch it.Asked.Kind {
	case script.ChooseOne, script.ChooseSeveral:
		return it.Told.Options
	case script.PointAtPart, script.FaultyPart:
		return it.Asked.Task.Parts
	}
	return nil
}

// Right reports whether what is offered at a place of the lesson's own order
// is right.
func (it *Item) Right(place int) bool {
	o := it.Offered()[place]
	if o.Right != nil {
		return *o.Right
	}
	return it.Told.Outcome != nil && o.ID == it.Told.Outcome.ID
}

// Letter names a place on paper: A, B, C.
func Letter(place int) string { return string(rune('A' + place)) }

// Key returns the right answer of an item on a copy: its letters, or the
// answer in words where nothing bears a letter; "" for a worked item.
func (s *Sheet) Key(c Copy, item int) string {
	it := &s.Items[item]
	if it.Offered() == nil {
		if it.Told.Outcome == nil {
			return ""
		}
		return it.Told.Outcome.Text
	}
	var letters []string
	for at, place := range c.Orders[item] {
		if it.Right(place) {
			letters = append(letters, Letter(at))
		}
	}
	return strings.Join(letters, " ")
}
