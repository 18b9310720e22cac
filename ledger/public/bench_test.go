package public_test

import (
	"context"
	"strings"
	"testing"
)

// BenchmarkFind looks through a page of 6 KB.
func BenchmarkFind(b *testing.B) {
	v, _, load := view(b)
	s, err := v.Secrets(context.Background(), load)
	if err != nil {
		b.Fatal(err)
	}
	page := []byte(strings.Repeat("<li><a href=\"../../../names/ranunculus-acris.html\"><i lang=\"la\">Ranunculus acris</i> L.</a> LK7-0000482, Signe Rask 88; 14 July 1987, Voss, Vestland &amp; more</li>\n", 36))
	b.SetBytes(int64(len(page)))
	for b.Loop() {
		if len(s.Find(page)) > 0 {
			b.Fatal("a leak where there is none")
		}
	}
}
