package public_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger"
	"blotter/ledger/geodesy"
	"blotter/ledger/public"
	"blotter/ledger/reading"
)

// TestNothingExact: of random records, withheld for random reasons, the public
// record and entry never hold the position, the locality or a picture, nor of
// category 1 and 2 the day and the number; what is shown covers the place.
func TestNothingExact(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		x := drawSecret(r)
		v, full := policyView(t, x.record, x.settings)
		shown, w := v.Record(full)
		published, _ := v.Published(full)
		if w == nil {
			t.Fatalf("not withheld:\n%s", x.record)
		}
		entry := fmt.Sprintf("%+v", *v.Book.Find("LK7-0000001"))
		for what, text := range map[string]string{"record": flat(shown), "published record": flat(published), "entry": entry} {
			for _, s := range x.always {
				if strings.Contains(text, s) {
					t.Fatalf("the %s tells %q (category %s):\n%s", what, s, w.Class.Category(), text)
				}
			}
			for _, s := range x.dated {
				if !w.Class.Dated() && strings.Contains(text, s) {
					t.Fatalf("the %s tells %q (category %s):\n%s", what, s, w.Class.Category(), text)
				}
			}
		}
		covers(t, v, full, published, w)
	})
}

func flat(r *ledger.Record) string {
	var b strings.Builder
	for _, kv := range ledger.Flatten(r) {
		b.WriteString(kv.Key + "=" + kv.Value + "\n")
	}
	return b.String()
}

// covers holds the published position to that of the full record.
func covers(t *testing.T, v *public.View, full, published *ledger.Record, w *public.Withheld) {
	t.Helper()
	exact, coarse := reading.Of(full, reading.Conventions{}).Position, reading.Of(published, reading.Conventions{}).Position
	if !exact.Known || w.Class == public.Extreme {
		if coarse.Known || w.Cell != nil {
			t.Fatalf("a position is shown: %v", coarse)
		}
		return
	}
	if !coarse.Known || math.Abs(coarse.Lat-w.Cell.Lat) > 1e-9 || math.Abs(coarse.Lon-w.Cell.Lon) > 1e-9 {
		t.Fatalf("the published record is read as %v %v, the square is %v", coarse.Lat, coarse.Lon, w.Cell)
	}
	if d := geodesy.Distance(exact.Lat, exact.Lon, coarse.Lat, coarse.Lon) + exact.Radius(); coarse.Radius() < d {
		t.Fatalf("published with %v m, the circle reaches %v m", coarse.Radius(), d)
	}
	e := v.Book.Find("LK7-0000001")
	if c := v.Book.Square(e); c == nil || c.Lat != w.Cell.Lat || c.Lon != w.Cell.Lon || e.Uncertainty != w.Cell.Metres {
		t.Fatalf("the entry's square is %v, the record's %v", c, w.Cell)
	}
}

// secret is a record that is withheld and the texts that must not be told.
type secret struct {
	record, settings string
	always, dated    []string
}

func drawSecret(r *rapid.T) secret {
	lat, lon := rapid.Float64Range(-89, 89).Draw(r, "lat"), rapid.Float64Range(-179, 179).Draw(r, "lon")
	position := fmt.Sprintf("%.5f, %.5f", lat, lon)
	year, day := rapid.IntRange(1850, 2020).Draw(r, "year"), rapid.IntRange(1, 28).Draw(r, "day")
	date := fmt.Sprintf("%d-07-%02d", year, day)
	number := "no" + rapid.StringMatching(`[0-9]{5}`).Draw(r, "number")
	word := "Q" + rapid.StringMatching(`[a-z]{7}`).Draw(r, "word")
	locality := word + " hollow by the grey stone"
	hint := rapid.SampledFrom([]string{locality, position, "at " + word})
	x := secret{always: []string{fmt.Sprintf("%.5f", lat), fmt.Sprintf("%.5f", lon), word, "images/label"}, dated: []string{date, number, fmt.Sprintf("%d July %d", day, year), "Trondsen"}}
	var b strings.Builder
	fmt.Fprintf(&b, "with: [Trondsen]\ncoll_no: %s\ndate: %s\n", number, date)
	private := rapid.IntRange(0, 4).Draw(r, "private") == 0
	fmt.Fprintf(&b, "place: {country: Norway, province: Vestland, district: Voss, locality: %q, position: %q", locality, position)
	if rapid.Bool().Draw(r, "datum") {
		b.WriteString(", datum: ED50")
	}
	if rapid.Bool().Draw(r, "stated") {
		fmt.Fprintf(&b, ", uncertainty: %d m", rapid.IntRange(1, 20000).Draw(r, "metres"))
	}
	if private {
		b.WriteString(", private: \"yes\"")
	}
	b.WriteString("}\n")
	for _, f := range []string{"habitat", "garden", "source_place", "project", "remarks", "permit", "accession"} {
		if rapid.Bool().Draw(r, f) {
			fmt.Fprintf(&b, "%s: %q\n", f, hint.Draw(r, f+" words"))
		}
	}
	name := "Ranunculus acris"
	marked := rapid.IntRange(0, 2).Draw(r, "by")
	if marked == 0 {
		name = rapid.SampledFrom([]string{"Cypripedium calceolus", "Orchis maculata", "Pseudorchis albida", "Epipogium aphyllum", "Opuntia sp."}).Draw(r, "name")
	}
	fmt.Fprintf(&b, "determinations:\n  - {name: %s, by: Rask, date: %s, from: label}\n  - {name: Ranunculus acris, by: Rask, date: 2024-01-01}\n", name, date)
	fmt.Fprintf(&b, "annotations:\n  - {kind: photographed, what: %q, by: Rask, date: %s}\n", hint.Draw(r, "what"), date)
	fmt.Fprintf(&b, "images:\n  - {file: images/label.jpg, date: %s, checksum: \"sha256:%s\"}\n  - {file: images/flower.jpg, safe: \"yes\", date: %s}\n", date, strings.Repeat("0", 64), date)
	fmt.Fprintf(&b, "writings:\n  - {text: %q}\nduplicates:\n  - {sent: FM, number: %s}\n", locality, number)
	if rapid.Bool().Draw(r, "read") {
		fmt.Fprintf(&b, "read:\n  position: {is: %q, by: Rask, date: %s}\n  date: {is: %s, by: Rask, date: 2024-01-01}\n", position, date, date)
	}
	if marked == 1 || marked == 2 && !private {
		fmt.Fprintf(&b, "sensitive: {why: at risk, category: %q}\n", rapid.SampledFrom([]string{"1", "2", "3", "4", "9"}).Draw(r, "category"))
	}
	if rapid.Bool().Draw(r, "stricter") {
		x.settings = "sensitive: {categories: [{category: \"4\", as: \"3\"}, {category: \"3\", as: \"2\"}]}\n"
	}
	x.record = b.String()
	return x
}
