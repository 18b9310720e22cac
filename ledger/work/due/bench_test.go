package due_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"blotter/ledger/work/due"
)

// BenchmarkList is the list of a museum with many loads in the press; the time
// a work ("ns/work") would be four times as long for 2,000 as for 500 if it were
// quadratic.
func BenchmarkList(b *testing.B) {
	for _, n := range []int{500, 2000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			works := map[string]string{}
			for i := 1; i <= n; i++ {
				works[fmt.Sprintf("press-2026-%03d", i)] = fmt.Sprintf("lines:\n  - {date: 2026-06-%02d, event: pressed, gatherings: [Olav Myhre %d], by: Tiril Aune}\n", i%28+1, i)
			}
			w, record := museum(b, "", works, nil)
			on := due.On{Day: day(b, "2026-06-29"), Within: 14, Zone: time.UTC, Record: record}
			b.ResetTimer()
			for range b.N {
				things, err := due.List(context.Background(), w, on)
				if err != nil || len(things) < n {
					b.Fatalf("%d things, %v; want at least one a work", len(things), err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/work")
		})
	}
}
