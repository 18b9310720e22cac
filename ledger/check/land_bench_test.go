package check_test

import (
	"testing"

	"blotter/ledger"
	"blotter/ledger/check"
	"blotter/ledger/reading"
)

// BenchmarkOne is the rules about one record alone, by records a second; beside
// it what decoding and reading the same records takes.
func BenchmarkOne(b *testing.B) {
	const n = 1000
	src := makeBig(n)
	var all []*ledger.Record
	read := reading.NewReader(reading.Conventions{})
	var ds []*reading.Reading
	for _, f := range src.files {
		if _, ok := ledger.NumberOfPath(f.Path); ok {
			r, _ := ledger.Decode(f.Path, src.text[f.Path])
			all = append(all, r)
			ds = append(ds, read.Of(r))
		}
	}
	perRecord := func(b *testing.B) {
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/record")
	}
	b.Run("decode", func(b *testing.B) {
		for b.Loop() {
			for _, f := range src.files {
				ledger.Decode(f.Path, src.text[f.Path])
			}
		}
		perRecord(b)
	})
	b.Run("read", func(b *testing.B) {
		for b.Loop() {
			for _, r := range all {
				read.Of(r)
			}
		}
		perRecord(b)
	})
	b.Run("judge", func(b *testing.B) {
		for b.Loop() {
			for _, d := range ds {
				check.One(d, &standard)
			}
		}
		perRecord(b)
	})
}
