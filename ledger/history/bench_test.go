package history

import (
	"context"
	"testing"

	"blotter/ledger/reading"
)

// BenchmarkAccount is one record of one revision, as most of a large ledger
// are, and one of three.
func BenchmarkAccount(b *testing.B) {
	for name, bodies := range map[string][]string{"one": {acris}, "three": {acris, "habitat: meadow\n" + acris, "habitat: meadow\n" + acris + pumilus}} {
		b.Run(name, func(b *testing.B) {
			s := newTale(b)
			for _, body := range bodies {
				s.step("step", body)
			}
			v := view(b, &s.x, s.tip)
			now := s.versions[s.head].Record
			b.ReportAllocs()
			for b.Loop() {
				if _, err := v.AccountOf(context.Background(), "LK7-0000482", s.head, now, reading.Conventions{}, s.read); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
