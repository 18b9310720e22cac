package paper

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

// named is a block with its own word, so that it is found on a page.
func named(w, h float64, word string) *Block {
	b := &Block{W: w, H: h, Of: word}
	b.Add(Text{X: 5, Y: 4 + Ascent*9*Point, Runs: []Run{{Style: Style{Size: 9}, Text: word}}})
	return b
}

func blocksOf(w float64, heights ...float64) []*Block {
	var out []*Block
	for i, h := range heights {
		out = append(out, named(w, h, fmt.Sprintf("b%d", i+1)))
	}
	return out
}

func repeat(n int, h float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = h
	}
	return out
}

var (
	a4, letter = Sizes[0], Sizes[1]
	labelPlace = Box{W: 105, H: 68}
	slipPlace  = Box{W: 105, H: 27}
)

// cornersOf are the upper left corners of blocks by their words, page by page.
func cornersOf(p *Paper) map[string]string {
	out := map[string]string{}
	for i, page := range p.Pages {
		for _, it := range page.Items {
			if t, ok := it.(Text); ok && strings.HasPrefix(t.Runs[0].Text, "b") {
				out[t.Runs[0].Text] += fmt.Sprintf("%d: %s, %s", i+1, number(t.X-5), number(t.Y-4-Ascent*9*Point))
			}
		}
	}
	return out
}

// TestImposePlaces: where blocks come to stand and what is told of it. The
// measures are those of interface.md section 3.
func TestImposePlaces(t *testing.T) {
	for _, c := range []struct {
		name    string
		size    Size
		place   Box
		heights []float64
		start   int
		skip    []int
		want    map[string]string
		used    Used
	}{
		{"eight labels on A4", a4, labelPlace, repeat(8, 68), 0, nil, map[string]string{"b1": "1: 0, 0", "b4": "1: 0, 204", "b5": "1: 105, 0", "b8": "1: 105, 204"}, Used{1, 8, 1, 8, 0}},
		{"eight labels on Letter, at the same places", letter, labelPlace, repeat(9, 68), 0, nil, map[string]string{"b4": "1: 0, 204", "b5": "1: 105, 0", "b9": "2: 0, 0"}, Used{2, 8, 1, 1, 2}},
		{"twenty slips", a4, slipPlace, repeat(21, 27), 0, nil, map[string]string{"b10": "1: 0, 243", "b11": "1: 105, 0", "b20": "1: 105, 243", "b21": "2: 0, 0"}, Used{2, 20, 1, 1, 2}},
		{"twenty slips on Letter", letter, slipPlace, repeat(20, 27), 0, nil, map[string]string{"b20": "1: 105, 243"}, Used{1, 20, 1, 20, 0}},
		{"2 x 136 and 102 + 102 + 68 fill a column", a4, labelPlace, []float64{136, 136, 102, 102, 68}, 0, nil, map[string]string{"b2": "1: 0, 136", "b3": "1: 105, 0", "b4": "1: 105, 102", "b5": "1: 105, 204"}, Used{1, 8, 1, 8, 0}},
		{"what does not fit below goes to the next column", a4, labelPlace, []float64{68, 136, 102, 68}, 0, nil, map[string]string{"b2": "1: 0, 68", "b3": "1: 105, 0", "b4": "1: 105, 102"}, Used{1, 8, 1, 7, 8}},
		{"half a place is not free", a4, labelPlace, []float64{102}, 0, nil, map[string]string{"b1": "1: 0, 0"}, Used{1, 8, 1, 2, 3}},
		{"from place 4", a4, labelPlace, repeat(2, 68), 4, nil, map[string]string{"b1": "1: 0, 204", "b2": "1: 105, 0"}, Used{1, 8, 4, 5, 6}},
		{"places left out, on the first page alone", a4, labelPlace, repeat(7, 68), 2, []int{3, 5}, map[string]string{"b1": "1: 0, 68", "b2": "1: 0, 204", "b3": "1: 105, 68", "b6": "2: 0, 0", "b7": "2: 0, 68"}, Used{2, 8, 2, 2, 3}},
		{"a tall one steps over what is left out", a4, labelPlace, []float64{136}, 0, []int{2}, map[string]string{"b1": "1: 0, 136"}, Used{1, 8, 3, 4, 5}},
		{"the next place is none that was left out", a4, labelPlace, []float64{68}, 0, []int{2, 3}, map[string]string{"b1": "1: 0, 0"}, Used{1, 8, 1, 1, 4}},
		{"A3", Sizes[2], labelPlace, repeat(12, 68), 0, nil, map[string]string{"b6": "1: 0, 340", "b7": "1: 105, 0", "b12": "1: 105, 340"}, Used{1, 12, 1, 12, 0}},
		{"A5", Sizes[3], labelPlace, repeat(3, 68), 0, nil, map[string]string{"b2": "1: 0, 68", "b3": "2: 0, 0"}, Used{2, 2, 1, 1, 2}},
		{"Legal", Sizes[4], labelPlace, repeat(11, 68), 0, nil, map[string]string{"b5": "1: 0, 272", "b6": "1: 105, 0", "b11": "2: 0, 0"}, Used{2, 10, 1, 1, 2}},
		{"paper of one label", Size{W: 105, H: 80}, labelPlace, repeat(2, 68), 0, nil, map[string]string{"b2": "2: 0, 0"}, Used{2, 1, 1, 1, 0}},
	} {
		p, used, err := Impose(blocksOf(105, c.heights...), Imposition{Size: c.size, Place: c.place, Start: c.start, Skip: c.skip})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		got := cornersOf(p)
		for word, want := range c.want {
			if got[word] != want {
				t.Errorf("%s: %s at %q, want %q", c.name, word, got[word], want)
			}
		}
		if used != c.used {
			t.Errorf("%s: used %+v, want %+v", c.name, used, c.used)
		}
	}
}

func TestImposeRefusals(t *testing.T) {
	for _, c := range []struct {
		name   string
		size   Size
		place  Box
		blocks []*Block
		start  int
		skip   []int
		want   string
	}{
		{"too high", a4, labelPlace, []*Block{named(105, 280, "b1")}, 0, nil, "b1: 105 x 280 mm fits on no page: a column of this paper, 210 x 297 mm, is 105 x 272 mm"},
		{"too wide", a4, labelPlace, []*Block{named(106, 68, "b1")}, 0, nil, "b1: 106 x 68 mm fits on no page: a column of this paper, 210 x 297 mm, is 105 x 272 mm"},
		{"small paper", Size{W: 100, H: 60}, labelPlace, blocksOf(105, 68), 0, nil, "105 x 68 mm does not fit on paper of 100 x 60 mm with 9.8 mm for its foot"},
		{"no such place", a4, labelPlace, blocksOf(105, 68), 9, nil, "start at place 9: this paper has places 1 to 8"},
		{"no such place left out", a4, labelPlace, blocksOf(105, 68), 0, []int{12}, "leave out place 12: this paper has places 1 to 8"},
		{"nothing left", a4, labelPlace, blocksOf(105, 68), 7, []int{7, 8}, "nothing of 105 x 68 mm fits in the places left of the first page"},
		{"no place", a4, Box{}, blocksOf(105, 68), 0, nil, "impose: a place has no size"},
	} {
		_, _, err := Impose(c.blocks, Imposition{Size: c.size, Place: c.place, Start: c.start, Skip: c.skip})
		if err == nil || err.Error() != c.want {
			t.Errorf("%s: %v\nwant %s", c.name, err, c.want)
		}
	}
}

// TestCutMarks: crosses of 3 mm at inner corners, no ink of ours within 5 mm
// of the paper's edge, none in a block, none over ink.
func TestCutMarks(t *testing.T) {
	rules := func(size Size, blocks []*Block) (out []Rule) {
		p, _, err := Impose(blocks, Imposition{Size: size, Place: labelPlace})
		if err != nil {
			t.Fatal(err)
		}
		for _, it := range p.Pages[0].Items {
			if r, ok := it.(Rule); ok && r.Width == markWidth {
				out = append(out, r)
			}
		}
		return out
	}
	if got := rules(a4, blocksOf(105, repeat(8, 68)...)); len(got) != 8 {
		t.Errorf("%d rules for eight labels, want those of four crosses: %v", len(got), got)
	}
	for _, r := range rules(a4, blocksOf(105, 136, 136, 68, 68, 68, 68)) {
		if r.Y1 == r.Y2 && r.Y1 == 68 && (r.X1 != 105 || r.X2 != 106.5) {
			t.Errorf("a mark at %v runs into a label of two places", r)
		}
	}
	framed := blocksOf(105, repeat(8, 68)...)
	framed[0].Add(Frame{Box{0, 0, 105, 68}, 0.3})
	for _, r := range rules(a4, framed) {
		if r.Y1 == r.Y2 && r.Y1 == 68 && r.X1 < 105 {
			t.Errorf("a mark at %v lies on a frame", r)
		}
	}
	for _, size := range Sizes {
		for _, r := range rules(size, blocksOf(105, repeat(8, 68)...)) {
			if min(r.X1, r.X2) < edge || max(r.X1, r.X2) > size.W-edge+epsilon || min(r.Y1, r.Y2) < edge || max(r.Y1, r.Y2) > size.H-edge+epsilon {
				t.Errorf("%s: %v is nearer than 5 mm to the edge", size.Name, r)
			}
		}
	}
}

// TestFoot: the line is 50 mm long, all within the margins and below the last
// cut, nothing over another, on paper of any width.
func TestFoot(t *testing.T) {
	long := Foot{File: strings.Repeat("labels-of-the-expedition-", 6) + "2026.pdf", Day: "14 September 2026", Revision: "8c1d0fe"}
	for _, foot := range []Foot{{}, {File: "labels.pdf", Day: "3 November 2026", Revision: "8c1d0fe"}, long} {
		for _, size := range append([]Size{{W: 60, H: 100}, {W: 70, H: 100}, {W: 95, H: 100}, {W: 55, H: 100}, {W: 140, H: 100}}, Sizes...) {
			f := newFooter(foot, size)
			items := f.items(size.H - f.reserve())
			for i, it := range items {
				b := it.Box()
				if b.X < edge-epsilon || b.Right() > size.W-edge+epsilon || b.Bottom() > size.H-edge+epsilon || b.Y < size.H-f.reserve()-0.1 {
					t.Errorf("%v %q: %+v does not stand in the foot of %v mm", size, foot.File, it, f.reserve())
				}
				if r, ok := it.(Rule); ok && i == 0 && math.Abs(r.X2-r.X1-50) > epsilon {
					t.Errorf("the line is %v mm long", r.X2-r.X1)
				}
				for _, other := range items[:i] {
					_, a := it.(Text)
					if a && meets(b, other.Box()) {
						t.Errorf("%v %q: %+v and %+v meet", size, foot.File, it, other)
					}
				}
			}
			if size.W >= 60 != f.line {
				t.Errorf("%v: line %v", size, f.line)
			}
		}
	}
}

// TestImposeAnything: every block once, in order, within the paper, and no two
// of them meet; nothing in a place that is left out; no page empty.
func TestImposeAnything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.SampledFrom(Sizes).Draw(t, "size")
		place := rapid.SampledFrom([]Box{labelPlace, slipPlace, {W: 50, H: 30}, {W: 70, H: 12.5}}).Draw(t, "place")
		factors := rapid.SliceOfN(rapid.SampledFrom([]float64{1, 1, 1, 1.5, 2}), 1, 60).Draw(t, "heights")
		var heights []float64
		for _, f := range factors {
			heights = append(heights, f*place.H)
		}
		im := Imposition{Size: size, Place: place, Start: rapid.IntRange(0, 4).Draw(t, "start"), Skip: rapid.SliceOfN(rapid.IntRange(1, 4), 0, 2).Draw(t, "skip")}
		blocks := blocksOf(place.W, heights...)
		s, err := newSheet(blocks, im)
		if err != nil {
			return // more asked than the paper has
		}
		pages, used, err := s.place(blocks)
		if err != nil {
			return
		}
		n := 0
		for i, on := range pages {
			if len(on) == 0 {
				t.Fatalf("page %d is empty", i+1)
			}
			for k, b := range on {
				if b.block != blocks[n] {
					t.Fatalf("block %d stands where %d should", n, k)
				}
				n++
				if b.X < 0 || b.Y < 0 || b.Right() > size.W+epsilon || b.Bottom() > size.H-s.foot.reserve()+epsilon {
					t.Fatalf("%v is not on the paper", b.Box)
				}
				for _, other := range on[:k] {
					if meets(b.Box, other.Box) {
						t.Fatalf("%v and %v meet", b.Box, other.Box)
					}
				}
			}
		}
		if n != len(blocks) || used.Pages != len(pages) || used.Next > used.Places || used.First < max(1, im.Start) {
			t.Fatalf("%d of %d blocks, %+v", n, len(blocks), used)
		}
	})
}

// TestSlipsMoveDown: what has ink nearer to its upper edge than printers reach
// is moved down, on A4 and Letter alike; labels are not.
func TestSlipsMoveDown(t *testing.T) {
	slips := func() []*Block {
		b := &Block{W: 105, H: 27}
		b.Add(Text{X: 5, Y: 2.5 + Ascent*11.5*Point, Runs: []Run{{Style: Style{Size: 11.5}, Text: "slip"}}})
		return []*Block{b}
	}
	for _, size := range []Size{a4, letter} {
		if s, err := newSheet(slips(), Imposition{Size: size, Place: slipPlace}); err != nil || math.Abs(s.top-1.5) > epsilon || s.rows != 10 {
			t.Errorf("%s: slips: %+v, %v", size.Name, s, err)
		}
		if s, err := newSheet(blocksOf(105, 68), Imposition{Size: size, Place: labelPlace}); err != nil || s.top != 0 {
			t.Errorf("%s: labels: %+v, %v", size.Name, s, err)
		}
	}
}

// TestDraft: the word lies within its block, whatever its shape.
func TestDraft(t *testing.T) {
	for _, b := range []Size{{W: 105, H: 68}, {W: 105, H: 27}, {W: 105, H: 136}, {W: 30, H: 12}, {W: 290, H: 400}} {
		d := draft(b.W, b.H)
		sin, cos := math.Sincos(d.Turn * math.Pi / 180)
		wide, high := Width(d.Runs...)-d.Runs[0].Spread*d.Runs[0].Size*Point, 0.64*d.Runs[0].Size*Point
		for _, c := range [][2]float64{{0, 0}, {wide, 0}, {0, high}, {wide, high}} {
			x, y := d.X+c[0]*cos-c[1]*sin, d.Y-c[0]*sin-c[1]*cos
			if x < 0 || y < 0 || x > b.W || y > b.H {
				t.Errorf("%v: %v, %v lies outside", b, x, y)
			}
		}
	}
}
