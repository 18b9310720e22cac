package paper

import (
	"fmt"
	"math"
	"slices"
	"strconv"
)

// Sizes of paper by name: ISO 216, and ANSI/ASME Y14.1 for Letter; Legal from
// memory of common practice (8.5 x 14 inches).
var Sizes = []Size{{"A4", 210, 297}, {"Letter", 215.9, 279.4}, {"A3", 297, 420}, {"A5", 148, 210}, {"Legal", 215.9, 355.6}}

// Imposition is how blocks are laid on paper to be cut apart.
type Imposition struct {
	Size  Size
	Start int   // the first place used of the first page, from 1; 0: the first
	Skip  []int // places of the first page left out: already cut off, or spoilt
	Place Box   // W and H of one place; blocks are at most as wide, and of any height that a column takes
	Foot  Foot
	Title string
	Lang  string // of the words; "": English
	Draft bool   // DRAFT across every block
}

// Foot is what stands in the strip below the last cut of every page.
type Foot struct {
	File     string // name of the file
	Day      string // of the revision, in words
	Revision string
}

// Used says which places of the pages were taken.
type Used struct {
	Pages  int
	Places int // on a page
	First  int // place of the first block
	Last   int // last place that is taken, on the last page
	Next   int // first free place of the last page; 0: it is full
}

// sheet is how the places lie on every page: columns from the left edge of the
// paper, so that one long cut parts two of them, rows from its upper edge.
type sheet struct {
	im         Imposition
	cols, rows int
	top        float64 // of the first row
	foot       *footer
}

// placed is a block on a page.
type placed struct {
	block *Block
	Box
}

// Impose lays the blocks out in order, down the first column, then down the
// next. A block of another height than a place takes what it needs of a
// column, so that 4 x 68 = 2 x 136 = 102 + 102 + 68 mm fill one. The paper is
// to be cut down between the columns first, then across. A block that fits on
// no page, and a first page on which nothing is left, are errors.
func Impose(blocks []*Block, im Imposition) (*Paper, Used, error) {
	s, err := newSheet(blocks, im)
	if err != nil {
		return nil, Used{}, err
	}
	pages, used, err := s.place(blocks)
	if err != nil {
		return nil, Used{}, err
	}
	p := &Paper{Title: im.Title, Lang: im.Lang}
	if p.Lang == "" {
		p.Lang = "en"
	}
	for _, on := range pages {
		p.Pages = append(p.Pages, s.draw(on))
	}
	return p, used, nil
}

// newSheet finds how many places fit beside and below each other.
func newSheet(blocks []*Block, im Imposition) (*sheet, error) {
	place, size := im.Place, im.Size
	if place.W <= 0 || place.H <= 0 {
		return nil, fmt.Errorf("impose: a place has no size")
	}
	s := &sheet{im: im, foot: newFooter(im.Foot, size)}
	room := size.H - s.foot.reserve()
	s.cols, s.rows = int((size.W+epsilon)/place.W), int((room+epsilon)/place.H)
	if s.cols < 1 || s.rows < 1 {
		return nil, fmt.Errorf("%s does not fit on paper of %s with %s mm for its foot", measures(place.W, place.H), measures(size.W, size.H), number(s.foot.reserve()))
	}
	for _, b := range blocks {
		if b.W > place.W+epsilon || b.H > s.height()+epsilon {
			return nil, fmt.Errorf("%s%s fits on no page: a column of this paper, %s, is %s", prefixed(b.Of), measures(b.W, b.H), measures(size.W, size.H), measures(place.W, s.height()))
		}
	}
	s.top = max(0, min(printerEdge-inkTop(blocks), room-s.height()))
	if s.top < 0.1 {
		s.top = 0
	}
	return s, s.checkPlaces()
}

// checkPlaces finds places that the paper does not have.
func (s *sheet) checkPlaces() error {
	n := s.cols * s.rows
	if s.im.Start > n {
		return fmt.Errorf("start at place %d: this paper has places 1 to %d", s.im.Start, n)
	}
	for _, k := range s.im.Skip {
		if k < 1 || k > n {
			return fmt.Errorf("leave out place %d: this paper has places 1 to %d", k, n)
		}
	}
	return nil
}

// height is that of a column.
func (s *sheet) height() float64 { return float64(s.rows) * s.im.Place.H }

// cursor is where the next block may stand: a column, and how far down it.
type cursor struct {
	page, col int
	y         float64
}

// place gives every block its box; page by page.
func (s *sheet) place(blocks []*Block) ([][]placed, Used, error) {
	used := Used{Places: s.cols * s.rows}
	if len(blocks) == 0 {
		return nil, used, nil
	}
	first := max(s.im.Start, 1) - 1
	at := cursor{col: first / s.rows, y: float64(first%s.rows) * s.im.Place.H}
	var pages [][]placed
	for i, b := range blocks {
		at = s.find(at, b.H)
		if i == 0 && at.page > 0 {
			return nil, used, fmt.Errorf("nothing of %s fits in the places left of the first page", measures(b.W, b.H))
		}
		if i == 0 {
			used.First = s.number(at)
		}
		if at.page == len(pages) {
			pages = append(pages, nil)
		}
		pages[at.page] = append(pages[at.page], placed{b, Box{float64(at.col) * s.im.Place.W, s.top + at.y, b.W, b.H}})
		at.y += b.H
	}
	used.Pages, used.Last = len(pages), s.number(cursor{at.page, at.col, at.y - s.im.Place.H/100})
	if next := s.find(cursor{at.page, at.col, s.grid(at.y)}, s.im.Place.H); next.page == at.page {
		used.Next = s.number(next)
	}
	return pages, used, nil
}

// find is the first place from at where a block of height h may stand.
func (s *sheet) find(at cursor, h float64) cursor {
	for {
		switch below, skipped := s.skipped(at, h); {
		case at.y+h > s.height()+epsilon:
			at.y, at.col = 0, at.col+1
			if at.col == s.cols {
				at.page, at.col = at.page+1, 0
			}
		case skipped:
			at.y = below
		default:
			return at
		}
	}
}

// skipped tells whether h from at meets a place that is left out, and where
// the last of those ends.
func (s *sheet) skipped(at cursor, h float64) (below float64, meets bool) {
	if at.page > 0 {
		return 0, false
	}
	for _, k := range s.im.Skip {
		col, y := (k-1)/s.rows, float64((k-1)%s.rows)*s.im.Place.H
		if col == at.col && y < at.y+h-epsilon && at.y < y+s.im.Place.H-epsilon {
			below, meets = max(below, y+s.im.Place.H), true
		}
	}
	return below, meets
}

// grid is y, or the next place's below it.
func (s *sheet) grid(y float64) float64 {
	return math.Ceil(y/s.im.Place.H-epsilon) * s.im.Place.H
}

// number is the place that at lies in, counted from 1 down the columns.
func (s *sheet) number(at cursor) int {
	return at.col*s.rows + int(at.y/s.im.Place.H+epsilon) + 1
}

// printerEdge is how near to the edge of the paper a block may have ink, in
// millimetres: labels are drawn with 4 mm above their words. Those that have
// less, slips, are moved down on the page as far as its foot lets them, since
// few printers reach closer (from memory of common practice: 3 to 4.2 mm).
const printerEdge = 4

// inkTop is the least distance from the upper edge of a block to what it draws.
func inkTop(blocks []*Block) float64 {
	top := float64(printerEdge)
	var seen []*Block
	for _, b := range blocks {
		if n := len(seen); n > 0 && seen[n-1] == b {
			continue
		}
		seen = append(seen[:0], b)
		for _, it := range b.Items {
			if t, turned := it.(Text); turned && t.Turn != 0 {
				continue
			}
			top = min(top, it.Box().Y)
		}
	}
	return max(top, 0)
}

// measures is "105 x 68 mm".
func measures(w, h float64) string { return number(w) + " x " + number(h) + " mm" }

// number is v with at most two places.
func number(v float64) string {
	return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64)
}

func prefixed(of string) string {
	if of == "" {
		return ""
	}
	return of + ": "
}

// draw is one page: the blocks, the marks to cut by, the foot.
func (s *sheet) draw(on []placed) Page {
	page := Page{Size: s.im.Size}
	for _, b := range on {
		if s.im.Draft {
			page.Put(&Block{Items: []Item{draft(b.W, b.H)}}, b.X, b.Y)
		}
		page.Put(b.block, b.X, b.Y)
	}
	foot := s.foot.items(s.top + s.height())
	page.Items = append(page.Items, slices.Concat(cutMarks(s.im.Size, on, foot), foot)...)
	return page
}
