package document

import "testing"

// BenchmarkPaper sets a list of 300 rows and writes its PDF.
func BenchmarkPaper(b *testing.B) {
	d := longTable(300)
	for b.Loop() {
		p, err := d.Paper(Options{Size: sizes[0]})
		if err != nil {
			b.Fatal(err)
		}
		if _, err := p.PDF(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(300*b.N)/b.Elapsed().Seconds(), "rows/s")
}
