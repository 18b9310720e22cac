package reading

import "testing"

// TestReadNumber: what is bounded by words for more and less; ours, no source.
func TestReadNumber(t *testing.T) {
	for words, want := range map[string]Number{
		"60": {60, 60, true}, "about 60": {60, 60, true}, "20-30": {20, 30, true}, "30 to 20": {20, 30, true}, "1,200": {1200, 1200, true},
		"more than 100": {100, 0, true}, ">100": {100, 0, true}, "100+": {100, 0, true}, "fewer than 20": {0, 20, true}, "< 5": {0, 5, true},
		"many": {}, "": {}, "5 %": {},
	} {
		if got := ReadNumber(words); got != want {
			t.Errorf("%q: %+v, want %+v", words, got, want)
		}
	}
}

// FuzzReadNumber: no words make it fall over, and Least is never above a Most
// that bounds it.
func FuzzReadNumber(f *testing.F) {
	f.Add("20-30")
	f.Add("> 999999999")
	f.Fuzz(func(t *testing.T, s string) {
		if n := ReadNumber(s); n.Least < 0 || n.Most != 0 && n.Least > n.Most || !n.Known && n != (Number{}) {
			t.Errorf("%q: %+v", s, n)
		}
	})
}
