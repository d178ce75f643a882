package figure

import (
	"strings"
	"unicode/utf8"
)

// Fit makes a text fit a width: it returns the text and the size to set it in.
// A text that is too long at size is set smaller, down to least; one that is
// too long even then is cut and ends in dots. Whoever cuts a name tells the
// whole of it elsewhere.
func Fit(text string, size, least, width float64, bold bool) (string, float64) {
	if w := Measure(text, 1, bold); w*size > width {
		size = max(least, width/w)
	}
	for cut := text; Measure(text, size, bold) > width*(1+1e-9) && cut != ""; {
		_, last := utf8.DecodeLastRuneInString(cut)
		cut = cut[:len(cut)-last]
		text = strings.TrimRight(cut, " ") + "…"
	}
	return text, size
}

// Wrap cuts a text between its words into lines that fit a width. A word that
// is wider stands alone.
func Wrap(text string, size, width float64, bold bool) []string {
	var lines []string
	now := ""
	for _, word := range strings.Fields(text) {
		next := word
		if now != "" {
			next = now + " " + word
		}
		if now != "" && Measure(next, size, bold) > width {
			lines, now = append(lines, now), word
			continue
		}
		now = next
	}
	if now != "" {
		lines = append(lines, now)
	}
	return lines
}
