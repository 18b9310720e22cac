package label

import (
	"fmt"
	"strings"
	"testing"
)

// BenchmarkLabels sets 2,000 labels of as many gatherings.
func BenchmarkLabels(b *testing.B) {
	ins := make([]*Input, 2000)
	for i := range ins {
		n := fmt.Sprintf("%07d", i+1)
		ins[i] = input(b, strings.NewReplacer("0000482", n, `"1207"`, `"`+n+`"`).Replace(sketch), "")
	}
	b.ResetTimer()
	for b.Loop() {
		made, refused := Labels(ins, Options{})
		if len(made) != len(ins) || len(refused) > 0 {
			b.Fatal(len(made), refused)
		}
	}
	b.ReportMetric(float64(len(ins)*b.N)/b.Elapsed().Seconds(), "labels/s")
}
