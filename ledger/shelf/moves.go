package shelf

import (
	"cmp"
	"slices"

	"blotter/ledger/book"
)

// Move is one specimen that lies in another cover than before.
type Move struct {
	Was  *book.Entry // as it was
	Now  *book.Entry // as it is
	From Place
	To   Place
	Out  bool // it has no place any more: withdrawn
}

// Moves are the specimens that had a place before and have another cover now,
// or none, in walking order of where they are pulled from. Those that are new
// are none of them: they come from the tray.
func Moves(before, after *Shelves, now *book.Book) []Move {
	var moves []Move
	for i := range before.sheets {
		was, from := before.At(i)
		e := now.ByPath(was.Path)
		if e == nil {
			e = now.Find(was.Number)
		}
		if e == nil {
			continue // a draft that was taken back
		}
		to, ok := after.Of(e)
		if !ok || !from.Same(to) {
			moves = append(moves, Move{Was: was, Now: e, From: from, To: to, Out: !ok})
		}
	}
	slices.SortStableFunc(moves, func(a, b Move) int { return cmp.Compare(a.From.Turn, b.From.Turn) })
	return moves
}

// Need is a cover that is to be made.
type Need struct {
	Cover  *Cover
	Place  Place
	Sheets int // that go into it
}

// Needed are the covers that did not lie in the cabinets before and do now.
func Needed(before, after *Shelves) []Need {
	had := map[Cover]bool{}
	for i := range before.Covers {
		had[before.Covers[i].bare()] = true
	}
	var need []Need
	for i := range after.Covers {
		if c := &after.Covers[i]; !had[c.bare()] {
			need = append(need, Need{c, after.place(c.start), c.Sheets})
		}
	}
	return need
}

// NewGenera are those of needed covers whose genus had none before.
func NewGenera(before *Shelves, need []Need) []Need {
	had := map[[3]string]bool{}
	for i := range before.Covers {
		c := &before.Covers[i]
		had[[3]string{c.Series, c.Family, c.Genus}] = true
	}
	var out []Need
	for _, n := range need {
		k := [3]string{n.Cover.Series, n.Cover.Family, n.Cover.Genus}
		if n.Cover.Genus != "" && !had[k] {
			had[k] = true
			out = append(out, n)
		}
	}
	return out
}

// bare is what tells covers of two versions apart.
func (c *Cover) bare() Cover {
	return Cover{Series: c.Series, Family: c.Family, Name: c.Name, Region: c.Region, Planted: c.Planted, Types: c.Types}
}
