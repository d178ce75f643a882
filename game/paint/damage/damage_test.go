package damage

import (
	"image"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wheelroom/game/figure"
)

var (
	fill    = figure.Style{Fill: figure.Paint{Role: figure.Ink}}
	picture = image.Rect(0, 0, 1000, 800)
)

// dots is a figure of dots of radius 5, a part each, at places 100 apart.
func dots(parts ...string) *figure.Figure {
	f := new(figure.Figure)
	f.Reset(1000, 800)
	for _, p := range parts {
		x := 50 + 100*float64(p[0]-'a')
		f.Circle(fill, x, x, 5).Part = p
	}
	return f
}

// at is where the dot of a part may have pixels.
func at(part string) image.Rectangle {
	f := dots(part)
	return Box(f, &f.Items[0], 1)
}

// What is painted again is what has changed and nothing else.
func TestOnlyWhatHasChangedIsHurt(t *testing.T) {
	all := []string{"a", "b", "c", "d", "e"}
	for _, c := range []struct {
		name string
		then *figure.Figure
		hurt []string
	}{
		{"nothing", dots(all...), nil},
		{"one gone", dots("a", "b", "d", "e"), []string{"c"}},
		{"the last gone", dots("a", "b", "c", "d"), []string{"e"}},
		{"several gone", dots("a", "e"), []string{"b", "c", "d"}},
		{"one more", dots("a", "b", "bb", "c", "d", "e"), []string{"b"}},
		{"one more at the end", dots("a", "b", "c", "d", "e", "f"), []string{"f"}},
		{"another", dots("a", "b", "g", "d", "e"), []string{"c", "g"}},
		{"all gone", dots(), all},
		{"painted otherwise", func() *figure.Figure {
			f := dots(all...)
			f.Items[1].Style.Fill.Role = figure.Up
			return f
		}(), []string{"b"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var w Watch
			require.Equal(t, []image.Rectangle{picture}, w.Look(dots(all...), 1, picture))
			got := w.Look(c.then, 1, picture)
			for _, part := range append(all, "f", "g") {
				want := false
				for _, h := range c.hurt {
					want = want || h == part
				}
				assert.Equal(t, want, covered(got, at(part)), part)
			}
			if len(c.hurt) == 0 {
				assert.Empty(t, got)
			}
		})
	}
}

// covered tells whether one of the rectangles holds all of a box.
func covered(rects []image.Rectangle, box image.Rectangle) bool {
	for _, r := range rects {
		if box.In(r) {
			return true
		}
	}
	return false
}

// Marks that change places hurt at least one of them: the later one hides the
// earlier.
func TestOrderCounts(t *testing.T) {
	var w Watch
	f := dots("a", "a1", "b")
	w.Look(f, 1, picture)
	f.Items[0], f.Items[1] = f.Items[1], f.Items[0]
	assert.True(t, covered(w.Look(f, 1, picture), at("a")))
}

// A mark that moves is painted again where it was and where it is.
func TestWhereItWasAndWhereItIs(t *testing.T) {
	for _, by := range []float64{0.25, 3, 400} {
		var w Watch
		f := dots("a", "b")
		w.Look(f, 1, picture)
		f.Points[0].X += by
		got := w.Look(f, 1, picture)
		assert.True(t, covered(got, at("a")), by)
		assert.True(t, covered(got, Box(f, &f.Items[0], 1)), by)
		assert.Empty(t, w.Look(f, 1, picture), by)
	}
}

// Rectangles are joined where that paints little for nothing, and else not.
func TestJoining(t *testing.T) {
	near, far := new(figure.Figure), new(figure.Figure)
	for _, f := range []*figure.Figure{near, far} {
		f.Reset(1000, 800)
		f.Box(fill, 10, 10, 20, 20, 0).Part = "first"
	}
	near.Box(fill, 40, 10, 50, 20, 0).Part = "second"
	far.Box(fill, 900, 700, 910, 710, 0).Part = "second"
	empty := new(figure.Figure)
	var w Watch
	w.Look(empty, 1, picture)
	assert.Len(t, w.Look(near, 1, picture), 1)
	w.Look(empty, 1, picture)
	assert.Len(t, w.Look(far, 1, picture), 2)
}

// Nothing is painted outside the picture, and all of it after Forget.
func TestPictureAndForget(t *testing.T) {
	var w Watch
	f := dots("a", "b")
	w.Look(f, 1, picture)
	f.Points[0].X, f.Points[1].X = -60, 998
	for _, r := range w.Look(f, 1, picture) {
		assert.True(t, r.In(picture), "%v", r)
	}
	w.Forget()
	assert.Equal(t, []image.Rectangle{picture}, w.Look(f, 1, picture))
}

// Marks without a point have no place; nothing else can go wrong with them.
func TestNoPoints(t *testing.T) {
	f := new(figure.Figure)
	f.Polygon(fill)
	assert.True(t, Box(f, &f.Items[0], 1).Empty())
}

func TestLookAllocatesNothing(t *testing.T) {
	var w Watch
	f, g := dots("a", "b", "c", "d"), dots("a", "c", "d", "e", "f")
	both := func() { w.Look(f, 1, picture); w.Look(g, 1, picture) }
	both()
	assert.Zero(t, testing.AllocsPerRun(20, both))
}
