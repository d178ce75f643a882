package scene

import "testing"

func BenchmarkMoving(b *testing.B) {
	p := even(6)
	r := newRide(b, &p, 0)
	r.m.Press(5)
	s := New(&p, r.m.Wiring(), Options{Width: 948, Height: 590, Words: english(b)})
	r.advance(4)
	b.ReportAllocs()
	for b.Loop() {
		s.Moving(&r.v, r.run)
	}
}

func BenchmarkNew(b *testing.B) {
	p := even(6)
	r := newRide(b, &p, 0)
	say := english(b)
	for b.Loop() {
		New(&p, r.m.Wiring(), Options{Width: 948, Height: 590, Words: say})
	}
}
