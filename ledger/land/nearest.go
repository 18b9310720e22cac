package land

// nearest is the one among names that is at most two slips from s (one when s
// is short), a slip being a letter too many, missing, wrong or changed with its
// neighbour. alike says that two names mean the same, so that both being as
// near is no doubt. False when none is near or two of different meaning are.
func nearest(s string, names []string, alike func(a, b string) bool) (string, bool) {
	most := 2
	if len(s) < 6 {
		most = 1
	}
	if len(s) < 4 {
		return "", false
	}
	best, at, doubt := "", most+1, false
	var w workings
	for _, n := range names {
		if len(n)-len(s) > most || len(s)-len(n) > most {
			continue
		}
		switch d := w.slips(s, n); {
		case d < at:
			best, at, doubt = n, d, false
		case d == at && d <= most && !alike(best, n):
			doubt = true
		}
	}
	return best, at <= most && !doubt
}

// workings are the rows of a count of slips, kept from one to the next.
type workings struct{ before, last, row []int }

// slips counts them: the optimal string alignment distance over bytes.
func (w *workings) slips(a, b string) int {
	for len(w.row) <= len(b) {
		w.before, w.last, w.row = append(w.before, 0), append(w.last, 0), append(w.row, 0)
	}
	before, last, row := w.before, w.last, w.row
	for j := range len(b) + 1 {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
