package public

import (
	"bytes"
	"encoding/hex"
	"maps"
	"slices"
)

// fileSums are checksums of files, each with a number. A checksum is any text,
// but the site's are twenty hexadecimal digits, and a million sheets have three
// million of them: these take ten bytes each. A number may be marked, which is
// kept as its complement. The zero fileSums are empty.
type fileSums struct {
	short map[[10]byte]int32
	long  map[string]int32
}

// shortSum is a text of twenty hexadecimal digits in small letters, as bytes.
func shortSum(sum string) (s [10]byte, ok bool) {
	if len(sum) != 2*len(s) {
		return s, false
	}
	for i := range sum {
		if c := sum[i]; (c < '0' || c > '9') && (c < 'a' || c > 'f') {
			return s, false
		}
	}
	_, err := hex.Decode(s[:], []byte(sum))
	return s, err == nil
}

func (f *fileSums) get(sum string) (n int32, ok bool) {
	if s, is := shortSum(sum); is {
		n, ok = f.short[s]
	} else {
		n, ok = f.long[sum]
	}
	return max(n, ^n), ok
}

// mark marks one that is there.
func (f *fileSums) mark(sum string) {
	if s, is := shortSum(sum); is {
		if n, ok := f.short[s]; ok {
			f.short[s] = min(n, ^n)
		}
	} else if n, ok := f.long[sum]; ok {
		f.long[sum] = min(n, ^n)
	}
}

// keepMarked leaves those that are marked, all with the number 0. They stay
// marked.
func (f *fileSums) keepMarked() {
	keepMarked(f.short)
	keepMarked(f.long)
}

func keepMarked[K comparable](m map[K]int32) {
	for k, n := range m {
		if n >= 0 {
			delete(m, k)
		} else if n != ^0 {
			m[k] = ^0
		}
	}
}

// room makes room for n checksums of the site.
func (f *fileSums) room(n int) {
	if f.short == nil {
		f.short = make(map[[10]byte]int32, n)
	}
}

func (f *fileSums) put(sum string, n int32) {
	if s, is := shortSum(sum); is {
		if f.short == nil {
			f.short = map[[10]byte]int32{}
		}
		f.short[s] = n
		return
	}
	if f.long == nil {
		f.long = map[string]int32{}
	}
	f.long[sum] = n
}

// without takes others out.
func (f *fileSums) without(others *fileSums) {
	for s := range others.short {
		delete(f.short, s)
	}
	for s := range others.long {
		delete(f.long, s)
	}
}

func (f *fileSums) len() int { return len(f.short) + len(f.long) }

// each yields all of them, always in the same order.
func (f *fileSums) each(yield func(sum string, n int32)) {
	short := slices.AppendSeq(make([][10]byte, 0, len(f.short)), maps.Keys(f.short))
	slices.SortFunc(short, func(a, b [10]byte) int { return bytes.Compare(a[:], b[:]) })
	var text [20]byte
	for _, s := range short {
		hex.Encode(text[:], s[:])
		n := f.short[s]
		yield(string(text[:]), max(n, ^n))
	}
	for _, s := range slices.Sorted(maps.Keys(f.long)) {
		n := f.long[s]
		yield(s, max(n, ^n))
	}
}
