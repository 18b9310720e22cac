package check

import (
	"testing"

	"blotter/ledger/book"
)

// TestDiffers: what speaks against two sheets being duplicates, and what does
// not.
func TestDiffers(t *testing.T) {
	at := func(lat, lon, metres float64, f book.Flags) *book.Entry {
		return &book.Entry{Positioned: true, Lat: lat, Lon: lon, Uncertainty: metres, Flags: f}
	}
	for _, c := range []struct {
		a, b *book.Entry
		want string
		why  string
	}{
		{&book.Entry{Dated: true, First: 10, Last: 10}, &book.Entry{Dated: true, First: 11, Last: 11}, "date", "two days"},
		{&book.Entry{Dated: true, First: 10, Last: 10}, &book.Entry{Dated: true, First: 1, Last: 30}, "", "a day within a month"},
		{at(60.70, 6.65, 8, book.Told), at(60.75, 6.65, 40, book.Told), "position", "5.6 km apart and known to metres"},
		{at(60.70, 6.65, 8, book.Told), at(60.75, 6.65, 140, 0), "", "5.6 km apart, and nobody says how good one is"},
		{at(60.70, 6.65, 8, book.Told), at(61.70, 6.65, 140, 0), "position", "111 km apart"},
		{at(60.70, 6.65, 8, book.Told), at(0, 0, 140, 0), "", "0, 0 is no position"},
		{&book.Entry{District: "Voss"}, &book.Entry{District: "voss "}, "", "one word"},
		{&book.Entry{District: "Voss"}, &book.Entry{District: "Ulvik"}, "place", "two districts"},
		{&book.Entry{District: "Voss"}, &book.Entry{District: "not recorded"}, "", "none on one label"},
	} {
		if got := differs(c.a, c.b); got != c.want {
			t.Errorf("%q, not %q: %s", got, c.want, c.why)
		}
		if got := differs(c.b, c.a); got != c.want {
			t.Errorf("%q, not %q the other way about: %s", got, c.want, c.why)
		}
	}
}
