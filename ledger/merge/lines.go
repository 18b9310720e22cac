package merge

import (
	"bytes"
	"strings"

	"blotter/ledger"
)

func lineEnd(text []byte) string {
	switch {
	case bytes.Contains(text, []byte("\r\n")):
		return "\r\n"
	case !bytes.Contains(text, []byte("\n")) && bytes.Contains(text, []byte("\r")):
		return "\r"
	}
	return "\n"
}

// lineCells bounds the table of common; longer texts, met only in files made
// to harm, count as having nothing in common between their ends.
const lineCells = 1 << 22

// common pairs the lines of a longest common subsequence.
func common(a, b []string) [][2]int {
	var out [][2]int
	head := 0
	for head < len(a) && head < len(b) && a[head] == b[head] {
		out = append(out, [2]int{head, head})
		head++
	}
	n, m := len(a), len(b)
	for n > head && m > head && a[n-1] == b[m-1] {
		n, m = n-1, m-1
	}
	if h, w := n-head, m-head; h > 0 && w > 0 && h <= lineCells/w {
		best := make([]int32, (h+1)*(w+1))
		for i := h - 1; i >= 0; i-- {
			for j := w - 1; j >= 0; j-- {
				if a[head+i] == b[head+j] {
					best[i*(w+1)+j] = best[(i+1)*(w+1)+j+1] + 1
				} else {
					best[i*(w+1)+j] = max(best[(i+1)*(w+1)+j], best[i*(w+1)+j+1])
				}
			}
		}
		for i, j := 0, 0; i < h && j < w; {
			switch {
			case a[head+i] == b[head+j]:
				out = append(out, [2]int{head + i, head + j})
				i, j = i+1, j+1
			case best[(i+1)*(w+1)+j] >= best[i*(w+1)+j+1]:
				i++
			default:
				j++
			}
		}
	}
	for n < len(a) {
		out = append(out, [2]int{n, m})
		n, m = n+1, m+1
	}
	return out
}

// lines3 merges two texts line by line as git would; false: both sides
// changed the same or neighbouring lines.
func lines3(base, ours, theirs []byte) ([]byte, bool) {
	b, o, t := ledger.CutLines(base), ledger.CutLines(ours), ledger.CutLines(theirs)
	toO, toT := partners(common(b, o), len(b)), partners(common(b, t), len(b))
	var out []byte
	i, j, k := 0, 0, 0 // next line of b, o, t
	for {
		if i < len(b) && toO[i] == j && toT[i] == k { // nobody touched it
			out = append(out, b[i]...)
			i, j, k = i+1, j+1, k+1
			continue
		}
		e := i // the next line that both sides kept
		for e < len(b) && (toO[e] < 0 || toT[e] < 0) {
			e++
		}
		x, y := len(o), len(t)
		if e < len(b) {
			x, y = toO[e], toT[e]
		}
		was, mine, other := strings.Join(b[i:e], ""), strings.Join(o[j:x], ""), strings.Join(t[k:y], "")
		switch {
		case mine == other, other == was:
			out = append(out, mine...)
		case mine == was:
			out = append(out, other...)
		default:
			return nil, false
		}
		if e == len(b) {
			return out, true
		}
		i, j, k = e, x, y
	}
}

func partners(pairs [][2]int, n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = -1
	}
	for _, p := range pairs {
		out[p[0]] = p[1]
	}
	return out
}
