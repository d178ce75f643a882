package script

// nearest returns the candidate closest to word by letters put in, taken out
// or changed, if no more than a third of the word differs, else "".
func nearest(word string, candidates []string) string {
	best, least := "", len(word)/3+1
	for _, c := range candidates {
		if d := letters(word, c); d < least {
			best, least = c, d
		}
	}
	return best
}

func letters(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		corner := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := corner
			if a[i] != b[j] {
				change++
			}
			corner = row[j+1]
			row[j+1] = min(change, row[j]+1, corner+1)
		}
	}
	return row[len(b)]
}
