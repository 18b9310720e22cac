package shelf

import (
	"cmp"
	"slices"

	"blotter/ledger/book"
	"blotter/ledger/dates"
)

// Rescue is one specimen with what makes it go before others.
type Rescue struct {
	Entry *book.Entry
	Place Place
	Rank  int    // place in the museum's order, from 0
	Why   string // the word of that order: types, unique, historic, condition, families, rest
}

// Salvage is in which order to carry specimens out: by the museum's order
// (habits.salvage), within it in walking order. frail reports whether a
// specimen was graded as in a bad state; it may be nil.
func Salvage(s *Shelves, order []string, historic int, families []string, frail func(*book.Entry) bool) []Rescue {
	first := dates.DayOf(max(historic, 1), 1, 1)
	favoured := map[string]bool{}
	for _, f := range families {
		favoured[fold(f)] = true
	}
	of := map[string]int{} // specimens of a name
	for _, c := range s.Covers {
		if c.Name != "" {
			of[c.Name] += c.Sheets
		}
	}
	all := make([]Rescue, 0, s.Len())
	for i := range s.Len() {
		e, p := s.At(i)
		is := map[string]bool{
			"types":     len(e.Types) > 0,
			"unique":    p.Cover.Name != "" && p.Cover.Name != p.Cover.Genus && p.Cover.Name != p.Cover.Family && of[p.Cover.Name] == 1,
			"historic":  e.Dated && e.Last < first,
			"condition": frail != nil && frail(e),
			"families":  favoured[fold(p.Cover.Family)],
			"rest":      true,
		}
		r := Rescue{Entry: e, Place: p, Rank: len(order), Why: "rest"}
		for k, word := range order {
			if is[word] {
				r.Rank, r.Why = k, word
				break
			}
		}
		all = append(all, r)
	}
	slices.SortStableFunc(all, func(a, b Rescue) int { return cmp.Compare(a.Rank, b.Rank) })
	return all
}
