package history

import "blotter/ledger"

// Pair says which entry of a new list an entry of the old list became: -1 on
// either side where there is none.
type Pair struct {
	Old, New int
	Same     bool // every word is the same
}

// alignCells bounds the table of Align: larger gaps, met only in files made to
// harm, are paired in order instead.
const alignCells = 1 << 20

// Align matches two versions of a list: a longest common subsequence of equal
// entries, and between those the entries that share most fields, in order.
func Align(old, new []ledger.Entry) []Pair {
	var out []Pair
	head := 0
	for head < len(old) && head < len(new) && old[head].Equal(new[head]) {
		out = append(out, Pair{head, head, true})
		head++
	}
	tail := 0
	for tail < len(old)-head && tail < len(new)-head && old[len(old)-1-tail].Equal(new[len(new)-1-tail]) {
		tail++
	}
	out = appendGap(out, old[:len(old)-tail], new[:len(new)-tail], head)
	for ; tail > 0; tail-- {
		out = append(out, Pair{len(old) - tail, len(new) - tail, true})
	}
	return out
}

// appendGap pairs what is left of two lists from head on.
func appendGap(out []Pair, old, new []ledger.Entry, head int) []Pair {
	n, m := len(old)-head, len(new)-head
	if n == 0 || m == 0 || n > alignCells/m {
		for k := range max(n, m) {
			switch {
			case k >= n:
				out = append(out, Pair{-1, head + k, false})
			case k >= m:
				out = append(out, Pair{head + k, -1, false})
			default:
				out = append(out, Pair{head + k, head + k, old[head+k].Equal(new[head+k])})
			}
		}
		return out
	}
	// best[i][j] is the worth of the best pairing of old[i:] and new[j:]; one
	// equal entry is worth more than all shared fields together.
	const equal = 1 << 32
	worth := make([]int64, n*m)
	best := make([]int64, (n+1)*(m+1))
	for i := n - 1; i >= 0; i-- {
		for j := m - 1; j >= 0; j-- {
			w := int64(shared(old[head+i], new[head+j]))
			if old[head+i].Equal(new[head+j]) {
				w = equal
			}
			worth[i*m+j] = w
			b := max(best[(i+1)*(m+1)+j], best[i*(m+1)+j+1])
			if w > 0 {
				b = max(b, w+best[(i+1)*(m+1)+j+1])
			}
			best[i*(m+1)+j] = b
		}
	}
	i, j := 0, 0
	for i < n && j < m {
		b, w := best[i*(m+1)+j], worth[i*m+j]
		switch {
		case w > 0 && b == w+best[(i+1)*(m+1)+j+1]:
			out = append(out, Pair{head + i, head + j, w == equal})
			i, j = i+1, j+1
		case b == best[(i+1)*(m+1)+j]:
			out = append(out, Pair{head + i, -1, false})
			i++
		default:
			out = append(out, Pair{-1, head + j, false})
			j++
		}
	}
	for ; i < n; i++ {
		out = append(out, Pair{head + i, -1, false})
	}
	for ; j < m; j++ {
		out = append(out, Pair{-1, head + j, false})
	}
	return out
}

// shared counts the fields that two entries have with the same words.
func shared(a, b ledger.Entry) int {
	n := 0
	for _, kv := range a.Fields {
		if kv.Value != "" && b.Get(kv.Key) == kv.Value {
			n++
		}
	}
	return n
}
