package document

import "strings"

// Nearest returns the candidate a person most likely meant by word, or "".
// A word and a candidate are near when one is the other with its unit cut off
// ("handwheel" and "handwheel_kg_m2"), or when at most one letter in three
// differs.
func Nearest(word string, candidates []string) string {
	word = strings.ToLower(word)
	best, least := "", len(word)/3+1
	for _, c := range candidates {
		if d := distance(word, strings.ToLower(c)); d < least || (d == least && best == "") {
			best, least = c, d
		}
	}
	if best != "" {
		return best
	}
	for _, c := range candidates {
		if len(word) > 2 && (strings.HasPrefix(c, word+"_") || strings.HasPrefix(word, c+"_")) {
			return c
		}
	}
	// The name may be right and its unit wrong: handwheel_kgm2.
	stem, _, _ := strings.Cut(word, "_")
	for _, c := range candidates {
		if len(stem) > 3 && strings.HasPrefix(c, stem+"_") {
			return c
		}
	}
	return ""
}

// distance is the least number of letters put in, taken out, changed or
// swapped with their neighbour that turn a into b (Damerau's distance,
// restricted to one edit a place).
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	before, last, row := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(s); i++ {
		row[0] = i
		for j := 1; j <= len(t); j++ {
			change := 1
			if s[i-1] == t[j-1] {
				change = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+change)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(t)]
}
