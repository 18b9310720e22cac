package annual_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"

	"blotter/ledger"
	"blotter/ledger/annual"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/ledgertest"
	"blotter/ledger/work"
)

const museum = "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\nnumbering:\n  prefix: LK7-\n  digits: 7\n"

func number(n int) ledger.Number { return ledger.Number(fmt.Sprintf("LK7-%07d", n)) }

// ledgerOf is a ledger in a map of files: records by their further lines,
// works by their text.
func ledgerOf(records map[int]string, works map[string]string) map[string]string {
	files := map[string]string{ledger.MuseumFile: museum}
	for n, more := range records {
		files[number(n).Path()] = "specimen: " + string(number(n)) + "\nentry: full\n" + more
	}
	for name, text := range works {
		files[ledger.WorkNumber(name).Path()] = "work: " + name + "\n" + text
	}
	return files
}

func reportOf(t interface {
	Helper()
	Fatal(...any)
}, files map[string]string, year int, on dates.Day) *annual.Report {
	t.Helper()
	ctx, src := context.Background(), ledgertest.MapSource(files)
	b, err := book.Load(ctx, src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w, err := work.Load(ctx, src, b)
	if err != nil {
		t.Fatal(err)
	}
	loader := b.Loader(src, nil)
	r, err := annual.Of(ctx, annual.Source{Works: w, Load: func(ctx context.Context, e *book.Entry) (*ledger.Record, error) { return loader.Record(ctx, e) }, Entered: true}, year, on)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// season is two years of a small museum, counted by hand below.
func season() map[string]string {
	old := "collector: Signe Rask\ncoll_no: \"%d\"\ndate: 1931-07-04\nplace: {country: Norway}\nfamily: Ranunculaceae\n"
	spring := "collector: Signe Rask\ncoll_no: \"%d\"\ndate: 2026-05-02\nplace: {country: Norway}\nfamily: Violaceae\n"
	records := map[int]string{}
	for n := 1; n <= 5; n++ { // five old sheets in no lot
		records[n] = fmt.Sprintf(old, n)
	}
	records[5] += "fate:\n  - {is: lost, by: Tiril Aune, date: 2026-03-01, why: water}\n"
	records[4] += "determinations:\n  - {name: Ranunculus acris L., by: Signe Rask, date: 1931-07-04, from: label}\n  - {name: Ranunculus repens L., by: M. Ostrander, date: 2026-06-01}\n  - {name: Ranunculus repens L., kind: conf, by: Tiril Aune, date: 2026-06-02}\n"
	for n := 6; n <= 9; n++ { // four collected in 2026
		records[n] = fmt.Sprintf(spring, n)
	}
	records[9] += "parts:\n  - {part: sheet 1 of 2}\n  - {part: sheet 2 of 2}\n"
	for n := 10; n <= 12; n++ { // three of a gift, two of one gathering
		records[n] = "collector: Ove Bannister\ncoll_no: \"" + fmt.Sprint(min(n, 11)) + "\"\ndate: 1988-08-01\nplace: {country: Sweden}\n"
	}
	records[20] = "collector: Ove Bannister\ncoll_no: \"20\"\ndate: 1990-08-01\nplace: {country: Sweden}\n"
	return ledgerOf(records, map[string]string{
		"press-2026-001":     "lines:\n  - {date: 2026-05-02, event: pressed, gatherings: [Signe Rask 6..9], hours: 1.5, by: x}\n  - {date: 2026-05-09, event: dried, by: x}\n",
		"mounting-2026-001":  "lines:\n  - {date: 2026-05-20, event: mounted, sheets: [LK7-0000006..LK7-0000007], hours: \"2\", by: x}\n",
		"accession-2026-001": "source: gift\npartner: FJ3\nlines:\n  - {date: 2026-04-01, event: received, sheets: [LK7-0000010..LK7-0000012], by: x}\n",
		"accession-2026-002": "source: bequest\nlines:\n  - {date: 2026-04-02, event: received, count: 400 sheets, how: estimated, what: box 1, by: x}\n  - {date: 2026-09-02, event: counted, count: 387 sheets, by: x}\n",
		"accession-2026-003": "source: gift\nstanding: teaching\nlines:\n  - {date: 2026-04-03, event: received, sheets: [LK7-0000020], by: x}\n",
		"loan-2026-001":      "partner: FJ3\nlines:\n  - {date: 2026-02-01, event: requested, sheets: [LK7-0000001..LK7-0000003], by: x}\n  - {date: 2026-02-10, event: sent, by: x}\n  - {date: 2026-08-10, event: returned, sheets: [LK7-0000001], by: x}\n",
		"gift-2026-001":      "partner: FJ3\nlines:\n  - {date: 2026-11-01, event: sent, sheets: [LK7-0000012], by: x}\n",
		"traps-2026-001":     "place: cellar\nlines:\n  - {date: 2026-06-01, event: read, trap: T1, insect: Anthrenus, stage: larva, count: \"2\", by: x}\n  - {date: 2026-07-01, event: read, trap: T1, by: x}\n",
		"climate-2026-001":   "place: cellar\nlines:\n  - {date: 2026-06-01, event: measured, temperature: 20 °C, humidity: 60 %, by: x}\n  - {date: 2026-06-02, event: measured, temperature: 24.5 °C, humidity: 50 %, by: x}\n",
	})
}

func TestYear(t *testing.T) {
	r := reportOf(t, season(), 2026, dates.DayOf(2027, 2, 1))
	for _, c := range []struct {
		section, key string
		n            int
		why          string
	}{
		{"holdings", "opening", 5, "numbers 1 to 5"},
		{"holdings", "in", 7, "four collected, three of the gift; 20 is teaching material"},
		{"holdings", "in.collected", 4, "they were pressed"},
		{"holdings", "in.gift", 3, "the lot of the gift"},
		{"holdings", "out", 2, "5 lost, 12 given"},
		{"holdings", "out.lost", 1, "the record's fate"},
		{"holdings", "out.gift", 1, "the gift's sending"},
		{"holdings", "closing", 10, "5 + 7 - 2"},
		{"kinds", "sheets", 11, "9 has two sheets"},
		{"kinds", "gatherings", 10, "1 to 4, 6 to 9, 10, 11"},
		{"kinds", "teaching", 1, "20"},
		{"lots", "counted.sheets", 387, "counted in September, after an estimate of 400"},
		{"done", "mounted", 2, "6 and 7"},
		{"done", "dried", 4, "6 to 9"},
		{"named", "anew", 1, "4"},
		{"named", "confirmed", 1, "4"},
		{"lending", "loans", 1, "one loan"},
		{"lending", "loans.sheets", 3, "1 to 3"},
		{"lending", "loans.returned", 1, "1"},
		{"lending", "loans.out", 2, "2 and 3"},
		{"lending", "gifts.sheets", 1, "12"},
		{"waiting", "unmounted", 4, "8, 9 of the press, 10 and 11 of the gift"},
		{"families", "Violaceae", 4, "6 to 9"},
		{"countries", "Sweden", 2, "10, 11"},
		{"decades", "1930s", 4, "1 to 4"},
		{"collectors", "Signe Rask", 8, "1 to 4, 6 to 9"},
		{"traps", "reads", 2, "two readings"},
		{"traps", "caught.cellar, T1, Anthrenus, larva", 2, "in June"},
		{"climate", "temperature.out.cellar", 1, "24.5 °C"},
		{"climate", "humidity.out.cellar", 1, "60 %"},
	} {
		row, ok := r.Find(c.section, c.key)
		if !ok || row.N != c.n {
			t.Errorf("%s %s: %d (found %v), not %d: %s", c.section, c.key, row.N, ok, c.n, c.why)
		}
	}
	if row, _ := r.Find("done", "hours.press"); row.Words != "1.5 h" {
		t.Errorf("hours in the press: %q", row.Words)
	}
	if row, _ := r.Find("waiting", "hours.mounting"); row.Words != "1.0 h" {
		t.Errorf("four sheets at four an hour: %q", row.Words)
	}
	if early := reportOf(t, season(), 2026, dates.DayOf(2026, 6, 30)); early.Whole || early.To != dates.DayOf(2026, 6, 30) {
		t.Error("the year is not over on 30 June")
	} else if row, _ := early.Find("lots", "estimated.sheets"); row.N != 400 {
		t.Errorf("by June the bequest was estimated at %d", row.N)
	}
}

// TestBalance: whatever happens, opening + in - out = closing, the opening of
// a year is the closing of the one before, and the closing is a plain count.
func TestBalance(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		records, works := map[int]string{}, map[string]string{}
		dated := func(label string) string {
			return dates.Day(rapid.Int64Range(int64(dates.DayOf(2024, 1, 1)), int64(dates.DayOf(2026, 12, 31))).Draw(rt, label)).String()
		}
		many := rapid.IntRange(1, 8).Draw(rt, "records")
		for n := 1; n <= many; n++ {
			records[n] = "collector: A\ncoll_no: \"" + fmt.Sprint(n) + "\"\ndate: " + dated("collected") + "\n"
			if rapid.Bool().Draw(rt, "fate") {
				records[n] += "fate:\n  - {is: lost, by: A, date: " + dated("lost") + ", why: water}\n"
			}
			for _, verb := range []string{"received", "sent"} {
				if rapid.Bool().Draw(rt, verb) {
					kind := map[string]string{"received": "accession", "sent": "gift"}[verb]
					works[fmt.Sprintf("%s-2024-%03d", kind, n)] = "lines:\n  - {date: " + dated(verb) + ", event: " + verb + ", sheets: [" + string(number(n)) + "], by: A}\n"
				}
			}
		}
		files := ledgerOf(records, works)
		last := -1
		for year := 2024; year <= 2026; year++ {
			r := reportOf(rt, files, year, dates.DayOf(2027, 1, 1))
			get := func(key string) int { row, _ := r.Find("holdings", key); return row.N }
			if get("opening")+get("in")-get("out") != get("closing") {
				rt.Fatalf("%d: %d + %d - %d is not %d", year, get("opening"), get("in"), get("out"), get("closing"))
			}
			if last >= 0 && get("opening") != last {
				rt.Fatalf("%d opens with %d, the year before closed with %d", year, get("opening"), last)
			}
			last = get("closing")
			ins, outs := 0, 0
			for _, s := range r.Sections {
				for _, row := range s.Rows {
					if s.Key == "holdings" && strings.HasPrefix(row.Key, "in.") {
						ins += row.N
					} else if s.Key == "holdings" && strings.HasPrefix(row.Key, "out.") {
						outs += row.N
					}
				}
			}
			if ins != get("in") || outs != get("out") {
				rt.Fatalf("%d: the parts %d and %d are not the wholes %d and %d", year, ins, outs, get("in"), get("out"))
			}
		}
	})
}
