package places

import "strings"

// LengthAt reads the distance that text begins with, a figure or two and a
// unit: "10 km NE of ...", "2-3 miles", "1½ km". n is how many bytes it took; 0
// when text begins otherwise or no unit stands there.
func LengthAt(text string) (l Length, n int) {
	a, n := lengthFigure(text)
	if n == 0 {
		return Length{}, 0
	}
	q := quantity{figures: [2]figure{a}, n: 1}
	rest := strings.TrimLeft(text[n:], " ")
	for _, to := range [...]string{"-", "–", "—", "to ", "til ", "bis "} {
		if after, ok := strings.CutPrefix(rest, to); ok {
			after = strings.TrimLeft(after, " ")
			if b, m := lengthFigure(after); m > 0 {
				q.figures[1], q.n, rest = b, 2, strings.TrimLeft(after[m:], " ")
			}
			break
		}
	}
	end := wordEnd(rest, 0)
	u, ok := unitOf(strings.ToLower(strings.ReplaceAll(rest[:end], ".", "")))
	if !ok {
		return Length{}, 0
	}
	if end < len(rest) && rest[end] == '.' {
		end++
	}
	q.figures[q.n-1].unit = u
	r := lengthReader{use: forDistance, quantities: [2]quantity{q}}
	return r.finish(), len(text) - len(rest) + end
}
