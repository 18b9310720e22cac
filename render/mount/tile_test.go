package mount

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"blotter/render/paper"
)

func boxes(p Plan) (all []paper.Box) {
	for _, o := range p.Placed {
		all = append(all, o.Box)
	}
	return all
}

// TestTilesReassemble: for any sheet and paper the pages cover the sheet, two
// neighbours share 10 mm exactly, every line comes together from its pieces,
// every word stands whole on one page, and nothing is drawn within 5 mm of the
// paper's edge.
func TestTilesReassemble(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anInput(t)
		size := paper.Size{W: float64(rapid.IntRange(80, 450).Draw(t, "paper width")), H: float64(rapid.IntRange(90, 500).Draw(t, "paper height"))}
		p := Lay(in)
		tiles, err := tileSheet(in.Sheet, size, boxes(p))
		if err != nil {
			return
		}
		if !tiles.whole {
			cover(t, in.Sheet, tiles)
			marked(t, tiles, boxes(p))
		}
		g := &guide{Plan: p, Head: Head{Language: "en", Number: "LK7-0000482", From: "14 July 2026, revision 3f2a91c"}, words: words["en"], tiles: tiles}
		g.outline()
		g.field()
		for _, o := range p.Placed {
			g.piece(o)
		}
		pages := pagesOf(t, p, size, g.Head)
		if again := pagesOf(t, p, size, g.Head); !reflect.DeepEqual(pages, again) {
			t.Error("the same again is not the same")
		}
		for _, r := range g.rules {
			together(t, tiles, r)
		}
		for _, w := range g.texts {
			on := 0
			for _, one := range tiles.tiles {
				if within(ink(w), one.core) {
					on++
				}
			}
			if on != 1 {
				t.Errorf("%q at %v stands on %d pages", w.Runs[0].Text, ink(w), on)
			}
		}
		for i, a := range g.texts {
			for _, b := range g.texts[:i] {
				if meets(ink(a), ink(b)) {
					t.Errorf("%q meets %q", a.Runs[0].Text, b.Runs[0].Text)
				}
			}
			for _, r := range g.rules {
				if meets(ink(a), r.Box()) {
					t.Errorf("%q at %v meets a line %v", a.Runs[0].Text, ink(a), r.Box())
				}
			}
		}
		for i, page := range pages {
			for _, it := range page.Items {
				b := it.Box()
				if words, ok := it.(paper.Text); ok {
					b = ink(words)
				}
				if !tiles.whole && !within(b, grown(paper.Box{W: page.Size.W, H: page.Size.H}, 0.4-edge)) {
					t.Errorf("page %d: %v is too near to the edge of %v", i+1, b, page.Size)
				}
			}
		}
	})
}

// cover: the tiles of a row lie from one edge to the other, 10 mm shared.
func cover(t *rapid.T, s Sheet, tiles *tiling) {
	at := map[[2]int]tile{}
	for _, one := range tiles.tiles {
		at[[2]int{one.col, one.row}] = one
		if !within(one.at, paper.Box{X: edge, Y: edge, W: tiles.page.W - 2*edge, H: tiles.page.H - 2*edge - footHeight}) {
			t.Errorf("%v is larger than a page shows", one.at)
		}
		if one.at.W != one.shows.W || one.at.H != one.shows.H {
			t.Errorf("not at true size: %v %v", one.at, one.shows)
		}
	}
	for _, one := range tiles.tiles {
		right, hasRight := at[[2]int{one.col + 1, one.row}]
		below, hasBelow := at[[2]int{one.col, one.row + 1}]
		if hasRight && math.Abs(one.shows.Right()-right.shows.X-overlap) > tiny || !hasRight && math.Abs(one.shows.Right()-s.W) > tiny {
			t.Errorf("to the right of %v: %v", one.shows, right.shows)
		}
		if hasBelow && math.Abs(one.shows.Bottom()-below.shows.Y-overlap) > tiny || !hasBelow && math.Abs(one.shows.Bottom()-s.H) > tiny {
			t.Errorf("below %v: %v", one.shows, below.shows)
		}
		if one.col == 0 && one.shows.X != 0 || one.row == 0 && one.shows.Y != 0 {
			t.Errorf("does not begin at the sheet's edge: %v", one.shows)
		}
	}
}

// marked: whatever lines there are, every two neighbours share a cross, and no
// two crosses meet.
func marked(t *rapid.T, tiles *tiling, lines []paper.Box) {
	marks := tiles.crosses(lines)
	for i, a := range marks {
		on := 0
		for _, one := range tiles.tiles {
			if within(a.box(), one.shows) {
				on++
			}
		}
		if on != 2 {
			t.Errorf("cross %s is on %d pages", a.Letter, on)
		}
		for _, b := range marks[:i] {
			if meets(a.box(), b.box()) {
				t.Errorf("crosses %s and %s meet", a.Letter, b.Letter)
			}
		}
	}
	for i, one := range tiles.tiles {
		for _, other := range tiles.tiles[:i] {
			beside := one.row == other.row && one.col == other.col+1 || one.col == other.col && one.row == other.row+1
			shared := common(one.shows, other.shows)
			if beside && !slices.ContainsFunc(marks, func(c cross) bool { return within(c.box(), shared) }) {
				t.Errorf("%v and %v share no cross", one.shows, other.shows)
			}
		}
	}
}

// together: the pieces of a line on all pages make it up.
func together(t *rapid.T, tiles *tiling, r paper.Rule) {
	type span struct{ from, to float64 }
	var all []span
	across := r.Y1 == r.Y2
	for _, one := range tiles.tiles {
		c, ok := clipped(r, one.shows)
		switch {
		case ok && across:
			all = append(all, span{c.X1, c.X2})
		case ok:
			all = append(all, span{c.Y1, c.Y2})
		}
	}
	slices.SortFunc(all, func(a, b span) int { return int(math.Copysign(1, a.from-b.from)) })
	from, to := r.Y1, r.Y2
	if across {
		from, to = r.X1, r.X2
	}
	for _, s := range all {
		if s.from > from+0.2 { // half the width of a line may be cut off at the edge of the sheet
			break
		}
		from = max(from, s.to)
	}
	if from < to-0.2 {
		t.Errorf("of %+v the pages show %v", r, all)
	}
}

// TestJoins: as few pages as can be, joins away from the pieces.
func TestJoins(t *testing.T) {
	p := Lay(Input{Sheet: standard, Pieces: usual(1)})
	for _, c := range []struct {
		size   paper.Size
		pages  int
		whole  bool
		reason string
	}{
		{a4, 4, false, "two beside and two below each other"},
		{letter, 4, false, "the same"},
		{a3, 1, true, "A3 is larger by 5 x 1 mm"},
		{paper.Size{W: 419, H: 292}, 1, true, "the paper turned"},
		{paper.Sizes[3], 8, false, "A5 turned: two beside and four below each other; upright it would be nine"},
	} {
		tiles, err := tileSheet(standard, c.size, boxes(p))
		if err != nil || len(tiles.tiles) != c.pages || tiles.whole != c.whole {
			t.Errorf("%v (%s): %v, %+v", c.size, c.reason, err, tiles)
			continue
		}
		for _, x := range tiles.cols {
			if n := cut(boxes(p), paper.Box{X: x - 5, W: 10, H: 419}); n > 0 && c.pages == 4 {
				t.Errorf("%v: the join at %g cuts %d pieces", c.size, x, n)
			}
		}
	}
	if _, err := tileSheet(standard, paper.Size{W: 60, H: 60}, nil); err == nil {
		t.Error("paper of 60 x 60 mm shows too little")
	}
}
