package names

// Distance is the number of letters put in, taken away or changed between a
// and b (Levenshtein), as far as it is below most; else most.
func Distance(a, b string, most int) int {
	if len(a) == len(b) && a == b {
		return 0
	}
	x, y := []rune(a), []rune(b)
	if len(x)-len(y) >= most || len(y)-len(x) >= most {
		return most
	}
	var short [40]int
	row := short[:]
	if len(y) >= len(short) {
		row = make([]int, len(y)+1)
	}
	for j := range len(y) + 1 {
		row[j] = j
	}
	for i := range x {
		diagonal, least := row[0], i+1
		row[0] = i + 1
		for j := range y {
			cost := diagonal
			if x[i] != y[j] {
				cost = 1 + min(diagonal, row[j], row[j+1])
			}
			diagonal, row[j+1] = row[j+1], cost
			least = min(least, cost)
		}
		if least >= most {
			return most
		}
	}
	return min(row[len(y)], most)
}

// Nearest is the word of list that differs least from word, by most letters
// at the most (see Distance); the first of several. It is "" when none is so
// near, and when word itself is in list.
func Nearest(word string, list []string, most int) string {
	best, least := "", most+1
	for _, w := range list {
		switch d := Distance(word, w, least); {
		case d == 0:
			return ""
		case d < least:
			best, least = w, d
		}
	}
	return best
}
