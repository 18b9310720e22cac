package public

import (
	"slices"
	"testing"
)

// TestFileSums: every text is a checksum of its own, however much two look
// alike.
func TestFileSums(t *testing.T) {
	all := []string{"", "0123456789abcdef0123", "0123456789ABCDEF0123", "0123456789abcdef012g", "0123456789abcdef01234", "another"}
	var f, others fileSums
	for i, s := range all {
		if f.has(s) {
			t.Errorf("%q is there before it was put", s)
		}
		f.put(s, int32(i))
	}
	for i, s := range all {
		if n, ok := f.get(s); !ok || n != int32(i) {
			t.Errorf("%q has %d", s, n)
		}
	}
	others.put(all[1], 0)
	others.put(all[5], 0)
	var got []string
	left := f.without(&others)
	left.each(func(sum string, n int32) {
		if all[n] != sum {
			t.Errorf("%q has %d", sum, n)
		}
		got = append(got, sum)
	})
	if want := []string{"", all[2], all[4], all[3]}; !slices.Equal(got, want) || left.len() != 4 {
		t.Errorf("%q are left, not %q", got, want)
	}
}
