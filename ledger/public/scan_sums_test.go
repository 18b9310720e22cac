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
		if _, ok := f.get(s); ok {
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
	f.without(&others)
	f.each(func(sum string, n int32) {
		if all[n] != sum {
			t.Errorf("%q has %d", sum, n)
		}
		got = append(got, sum)
	})
	if want := []string{"", all[2], all[4], all[3]}; !slices.Equal(got, want) || f.len() != 4 {
		t.Errorf("%q are left, not %q", got, want)
	}
}

// TestMarkedSums: a mark does not alter the number, and those that are not
// marked are left out, as often as one asks.
func TestMarkedSums(t *testing.T) {
	all := []string{"0123456789abcdef0123", "0123456789abcdef0124", "another", "one more"}
	var f fileSums
	for i, s := range all {
		f.put(s, int32(i))
	}
	for i := range 2 {
		f.mark(all[1])
		f.mark(all[2])
		f.mark("not there")
		if n, _ := f.get(all[1]); n != 1 {
			t.Errorf("marked %d times: %d", i+1, n)
		}
	}
	for range 2 {
		f.keepMarked()
		var got []string
		f.each(func(sum string, n int32) {
			if n != 0 {
				t.Errorf("%q has %d", sum, n)
			}
			got = append(got, sum)
		})
		if want := []string{all[1], all[2]}; !slices.Equal(got, want) {
			t.Errorf("%q are left, not %q", got, want)
		}
	}
}
