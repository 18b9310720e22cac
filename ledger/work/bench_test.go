package work_test

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/disk"
	"blotter/ledger/ledgertest"
	"blotter/ledger/work"
)

// yearly is a ledger of n records and m works of thirty lines.
func yearly(n, m int) map[string]string {
	files := map[string]string{"blotter.yaml": museumFile}
	for i := range n {
		record(files, i+1, "collector: "+[]string{"Signe Rask", "Ove Bannister", "Tiril Aune", "H. Viken"}[i%4], fmt.Sprintf("coll_no: %q", fmt.Sprint(i/4+1)), "date: 2020-06-01")
	}
	kinds := []string{"press", "freezer", "mounting", "loan", "shelf"}
	for i := range m {
		var lines []string
		first := i*30%n + 1
		span := fmt.Sprintf("sheets: [LK7-%07d..LK7-%07d]", first, first+29)
		for j := range 30 {
			on := dates.DayOf(2021, 1, 1) + dates.Day(i/3+j)
			verbs := map[string][]string{"press": {"pressed", "papers", "dried"}, "freezer": {"in", "out", "unpacked"}, "mounting": {"glued", "lifted", "filed"}, "loan": {"packed", "sent", "returned"}, "shelf": {"taken", "back", "filed"}}[kinds[i%5]]
			what := ""
			if j == 0 {
				what = ", " + span
				if i%5 == 0 {
					what = fmt.Sprintf(", gatherings: [Signe Rask %d..%d]", first/4+1, first/4+30)
				}
			}
			verb := verbs[1]
			switch {
			case j == 0 || kinds[i%5] == "shelf":
				verb = verbs[0]
			case j == 29:
				verb = verbs[2]
			}
			if kinds[i%5] == "shelf" {
				what = fmt.Sprintf(", sheets: [LK7-%07d]", first+j)
			}
			lines = append(lines, fmt.Sprintf("date: %s, event: %s%s, by: Tiril Aune, note: as usual", on, verb, what))
		}
		put(files, ledger.WorkNumber(fmt.Sprintf("%s-%d-%03d", kinds[i%5], 2021+i/1000, i%1000+1)), "title: as usual", lines...)
	}
	return files
}

// BenchmarkState reads 3,000 works of 30 lines and gives the state of each of
// 10,000 records, from scratch and with what the cache kept.
func BenchmarkState(b *testing.B) {
	files := yearly(10_000, 3_000)
	ctx, src := context.Background(), ledgertest.MapSource(files)
	bk, err := book.Load(ctx, src, book.Options{})
	if err != nil {
		b.Fatal(err)
	}
	for _, c := range []struct {
		name  string
		cache *disk.Cache
	}{{"scratch", nil}, {"kept", disk.NewCache(filepath.Join(b.TempDir(), "cache"))}} {
		b.Run(c.name, func(b *testing.B) {
			if _, err := work.LoadKept(ctx, src, bk, c.cache); err != nil {
				b.Fatal(err)
			}
			b.ResetTimer()
			for range b.N {
				start := time.Now()
				w, err := work.LoadKept(ctx, src, bk, c.cache)
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(float64(time.Since(start).Milliseconds()), "load-ms")
				start = time.Now()
				n := 0
				w.Each(dates.DayOf(2023, 1, 1), func(_ *book.Entry, s work.State) bool { n += len(s.Done); return true })
				b.ReportMetric(float64(time.Since(start).Milliseconds()), "each-ms")
				start = time.Now()
				w.Check()
				b.ReportMetric(float64(time.Since(start).Milliseconds()), "check-ms")
			}
		})
	}
}
