package scene

import "wheelroom/game/figure"

// smallest is how far a name is set smaller for want of room, as a share of its
// em. On a projector none is.
const smallest = 0.75

// fit makes a name fit a width. The whole of one that is cut is told wherever
// its part is chosen.
func (k *inks) fit(text string, em, width float64, bold bool) (string, float64) {
	least := smallest * em
	if k.lecture {
		least = em
	}
	return figure.Fit(text, em, least, width, bold)
}
