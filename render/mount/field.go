package mount

import (
	"cmp"
	"slices"

	"blotter/render/paper"
)

// tiny is less than any paper can show.
const tiny = 1e-6

// meets tells whether two boxes have more than an edge in common.
func meets(a, b paper.Box) bool {
	return a.X < b.Right()-tiny && b.X < a.Right()-tiny && a.Y < b.Bottom()-tiny && b.Y < a.Bottom()-tiny
}

func within(b, in paper.Box) bool {
	return b.X >= in.X-tiny && b.Y >= in.Y-tiny && b.Right() <= in.Right()+tiny && b.Bottom() <= in.Bottom()+tiny
}

func grown(b paper.Box, by float64) paper.Box {
	return paper.Box{X: b.X - by, Y: b.Y - by, W: b.W + 2*by, H: b.H + 2*by}
}

// common is what two boxes share; without width or height: nothing.
func common(a, b paper.Box) paper.Box {
	x, y := max(a.X, b.X), max(a.Y, b.Y)
	return paper.Box{X: x, Y: y, W: max(0, min(a.Right(), b.Right())-x), H: max(0, min(a.Bottom(), b.Bottom())-y)}
}

// share is how much of the plant has room in a rectangle: 1 all of it, 0.9 a
// plant of nine tenths of its height, or of its width where that is scarcer.
func share(b paper.Box, plant paper.Size) float64 {
	if b.W <= tiny || b.H <= tiny {
		return 0
	}
	s := 1.0
	if plant.W > b.W+tiny {
		s = b.W / plant.W
	}
	if plant.H > b.H+tiny {
		s = min(s, b.H/plant.H)
	}
	return s
}

// free is the best empty rectangle of the sheet: that in which most of the
// plant has room, and of those the largest; of several the uppermost, the leftmost.
func (in Input) free(placed []Placed) paper.Box {
	room := in.room()
	var taken []paper.Box
	edges := []float64{room.Y, room.Bottom()}
	for _, p := range placed {
		b := common(grown(p.Box, in.Gap), room)
		taken = append(taken, b)
		edges = append(edges, b.Y, b.Bottom())
	}
	slices.SortFunc(taken, func(a, b paper.Box) int { return cmp.Compare(a.X, b.X) })
	slices.Sort(edges)
	edges = slices.Compact(edges)
	var best paper.Box
	try := func(b paper.Box) {
		if b.W <= tiny || b.H <= tiny {
			return
		}
		if s, was := share(b, in.Plant), share(best, in.Plant); s > was+tiny || s > was-tiny && b.W*b.H > best.W*best.H+tiny {
			best = b
		}
	}
	// An empty rectangle that cannot grow touches an edge above and below, and
	// between these it reaches from one piece to the next.
	for i, top := range edges {
		for _, bottom := range edges[i+1:] {
			x := room.X
			for _, b := range taken {
				if b.Y < bottom-tiny && b.Bottom() > top+tiny {
					try(paper.Box{X: x, Y: top, W: b.X - x, H: bottom - top})
					x = max(x, b.Right())
				}
			}
			try(paper.Box{X: x, Y: top, W: room.Right() - x, H: bottom - top})
		}
	}
	return best
}
