package paper

import "fmt"

// Sizes of paper by name.
var Sizes = []Size{{"A4", 210, 297}, {"Letter", 215.9, 279.4}, {"A3", 297, 420}, {"A5", 148, 210}, {"Legal", 215.9, 355.6}}

// Imposition is how blocks are laid on paper to be cut apart.
type Imposition struct {
	Size  Size
	Start int   // the first place used, from 1; 0: the first
	Skip  []int // places left out: already cut off, or spoilt
	Place Box   // W and H of one place; blocks are as wide and one or more places (or halves of one) high
	Foot  Foot
	Title string
	Draft bool // DRAFT across every block
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
	Next   int // first free place of the last page; 0: it is full
}

// Impose lays the blocks out in order, down the first column, then the next.
// Blocks of other heights than a place take what they need of a column. The
// paper is to be cut down between the columns first, then across.
func Impose(blocks []*Block, im Imposition) (*Paper, Used, error) {
	return nil, Used{}, fmt.Errorf("impose: not built yet")
}
