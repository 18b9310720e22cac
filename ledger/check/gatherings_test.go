package check

import (
	"testing"

	"blotter/ledger/book"
)

// entry is the entry that shows s.
func entry(s book.Shown) *book.Entry {
	e := s.Entry()
	return &e
}

// TestDiffers: what speaks against two sheets being duplicates, and what does
// not.
func TestDiffers(t *testing.T) {
	at := func(lat, lon, metres float64, f book.Flags) *book.Entry {
		return entry(book.Shown{Positioned: true, Lat: lat, Lon: lon, Uncertainty: metres, Flags: f})
	}
	for _, c := range []struct {
		a, b *book.Entry
		want string
		why  string
	}{
		{entry(book.Shown{Dated: true, First: 10, Last: 10}), entry(book.Shown{Dated: true, First: 11, Last: 11}), "date", "two days"},
		{entry(book.Shown{Dated: true, First: 10, Last: 10}), entry(book.Shown{Dated: true, First: 1, Last: 30}), "", "a day within a month"},
		{at(60.70, 6.65, 8, book.Told), at(60.75, 6.65, 40, book.Told), "position", "5.6 km apart and known to metres"},
		{at(60.70, 6.65, 8, book.Told), at(60.75, 6.65, 140, 0), "", "5.6 km apart, and nobody says how good one is"},
		{at(60.70, 6.65, 8, book.Told), at(61.70, 6.65, 140, 0), "position", "111 km apart"},
		{at(60.70, 6.65, 8, book.Told), at(0, 0, 140, 0), "", "0, 0 is no position"},
		{entry(book.Shown{District: "Voss"}), entry(book.Shown{District: "voss "}), "", "one word"},
		{entry(book.Shown{District: "Voss"}), entry(book.Shown{District: "Ulvik"}), "place", "two districts"},
		{entry(book.Shown{District: "Voss"}), entry(book.Shown{District: "not recorded"}), "", "none on one label"},
	} {
		if got := differs(c.a, c.b); got != c.want {
			t.Errorf("%q, not %q: %s", got, c.want, c.why)
		}
		if got := differs(c.b, c.a); got != c.want {
			t.Errorf("%q, not %q the other way about: %s", got, c.want, c.why)
		}
	}
}
