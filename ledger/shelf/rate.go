package shelf

import (
	"blotter/ledger/book"
	"blotter/ledger/dates"
)

// rateYears is over how many whole years the growth is taken.
const rateYears = 10

// Rate is how many specimens came a year of late, and how that is known: those
// gathered in the last ten years, by the dates of gathering. Old collections
// that were taken in meanwhile are not in it, and what was gathered and not yet
// typed neither.
func Rate(b *book.Book, on dates.Day) (perYear float64, by string) {
	from, n := on-rateYears*365, 0
	for e := range b.All() {
		if e.Dated && e.Fate == "" && e.First > from && e.Last <= on {
			n++
		}
	}
	return float64(n) / rateYears, "gathered in the last ten years"
}
