package bench

import (
	"math"
	"strconv"

	"wheelroom/game/figure"
	"wheelroom/physics/bench"
	"wheelroom/physics/phrase"
)

// Sheet is the whole bench of a ring on one page, to be printed: the ring, what
// each boundary shows, what is uneven, and the strip.
func Sheet(r *bench.Report, width float64, words Words) *figure.Figure {
	f := &figure.Figure{}
	k := newInks(width)
	em := k.em
	look := Look{Width: math.Min(0.46*width, 34*em), Words: words, Chosen: -1}
	ring := Ring(r, look)
	look.Width = width
	strip := Strip(r, look)
	width = strip.Width

	x, right := ring.Width+1.4*em, width-1.0*em
	f.Reset(width, 0)
	s := &r.Plan.Selector
	y := 2.2 * em
	f.Text(solid(figure.Ink), figure.Face{Size: 1.3 * em, Bold: true}, x, y, r.Plan.Name)
	y += 0.7 * em
	para := func(p phrase.Phrase) {
		for _, l := range figure.Wrap(words(p), em, right-x, false) {
			y += 1.35 * em
			f.Text(solid(figure.Ink), figure.Face{Size: em}, x, y, l)
		}
		y += 0.25 * em
	}
	para(phrase.Of("bench.sheet-ring", "count", len(r.Terminals), "pitch", phrase.Num(r.Ring.PitchM(), 3)))
	para(phrase.Of("bench.widths", "sum", phrase.Num(s.TerminalWidth+s.BrushWidth, 2), "live", s.LiveTerminals,
		"per-floor", phrase.Num(s.TerminalsPerFloor, 2)))
	para(phrase.Of("bench.speeds", "full", phrase.Num(r.FullMS, 2), "slow", phrase.Num(r.SlowMS, 2)))
	y += 0.6 * em
	y = table(f, r, &k, x, y, right, words)
	top := math.Max(y+1.2*em, ring.Height-0.4*em)
	f.Append(ring)
	top = notes(f, r, &k, top, width, words) + 0.4*em
	at := len(f.Items)
	f.Append(strip)
	shift(f, at, top)
	top += strip.Height + 0.8*em
	for _, l := range figure.Wrap(words.say("caution"), k.small, width-2*em, false) {
		f.Text(solid(figure.Muted), figure.Face{Size: k.small}, 1.0*em, top, l)
		top += 1.3 * k.small
	}
	f.Height = math.Ceil(top + 0.4*em)
	return f
}

// notes sets what is uneven about the lamps in two columns, and returns where
// they end.
func notes(f *figure.Figure, r *bench.Report, k *inks, top, width float64, words Words) float64 {
	em := k.em
	each := (width - 3*em) / 2
	var items [][]string
	for _, n := range r.Notes {
		items = append(items, figure.Wrap(words(n), em, each-2*em, false))
	}
	half, low := (len(items)+1)/2, top
	for col, part := range [...][][]string{items[:half], items[half:]} {
		x, y := em+float64(col)*(each+em), top
		for _, lines := range part {
			f.Circle(figure.Style{Fill: solid(figure.Ink)}, x+0.3*em, y+0.95*em, 0.16*em)
			for _, l := range lines {
				y += 1.3 * em
				f.Text(solid(figure.Ink), figure.Face{Size: em}, x+0.9*em, y, l)
			}
			y += 0.2 * em
		}
		low = math.Max(low, y)
	}
	return low
}

// table lists the boundaries and returns where it ends.
func table(f *figure.Figure, r *bench.Report, k *inks, x, y, right float64, words Words) float64 {
	em := k.small
	heads := []string{"head-boundary", "head-blanks", "head-dark", "head-dark-full", "head-dark-slow", "head-overlap"}
	rows := [][]string{nil}
	for _, h := range heads {
		rows[0] = append(rows[0], words.say(h))
	}
	for _, b := range r.Boundaries {
		row := []string{words.say("boundary", "below", b.Below, "above", b.Above), strconv.Itoa(b.BlankTerminals),
			words.say("none"), words.say("none"), words.say("none"), words.say("none")}
		if b.DarkM > 0 {
			row[2], row[3], row[4] = words.number(b.DarkM, 3), words.number(b.DarkS, 2), words.number(b.DarkSlowS, 2)
		}
		if b.OverlapM > 0 {
			row[5] = words.number(b.OverlapM, 3)
		}
		rows = append(rows, row)
	}
	wide := make([]float64, len(heads))
	sum := 0.0
	for c := range heads {
		for i, row := range rows {
			wide[c] = math.Max(wide[c], figure.Measure(row[c], em, i == 0))
		}
		sum += wide[c]
	}
	// Where the heads are long, all is set smaller.
	if share := (right - x) / (sum + 0.5*em*float64(len(heads)-1)); share < 1 {
		em, sum = em*share, sum*share
		for c := range wide {
			wide[c] *= share
		}
	}
	gap := math.Min(1.6*em, math.Max(0.5*em, (right-x-sum)/float64(len(heads))))
	for i, row := range rows {
		y += 1.4 * em
		at := x
		for c, cell := range row {
			at += wide[c]
			f.Text(solid(figure.Ink), figure.Face{Size: em, Bold: i == 0, Align: figure.End}, at, y, cell)
			at += gap
		}
		if i == 0 {
			y += 0.45 * em
			f.Line(line(solid(figure.Ink), k.hair), x, y, at-gap, y)
		}
	}
	return y
}

// shift moves the marks from one on down.
func shift(f *figure.Figure, from int, by float64) {
	for i := from; i < len(f.Items); i++ {
		it := &f.Items[i]
		for j := range f.Of(it) {
			f.Points[it.At+j].Y += by
		}
	}
}
