package ledger

import (
	"fmt"
	"strings"
)

// CutSpan parts a span of numbers, LK7-0001180..LK7-0001201, round the number of a key: what stands before and behind
// it, "" for nothing; of one number both are "". False when it is not there.
func CutSpan(s, key string) (before, after string, ok bool) {
	first, last, span := strings.Cut(s, "..")
	first, last = strings.TrimSpace(first), strings.TrimSpace(last)
	if !span {
		return "", "", strings.EqualFold(first, key)
	}
	prefix, width, from, ok1 := spanParts(first)
	_, _, to, ok2 := spanParts(last)
	head, _, v, ok3 := spanParts(key)
	if !ok1 || !ok2 || !ok3 || !strings.EqualFold(head, prefix) || v < from || v > to {
		return "", "", false
	}
	number := func(v uint64) string { return fmt.Sprintf("%s%0*d", prefix, width, v) }
	run := func(a, b uint64) string {
		if a > b {
			return ""
		}
		if a == b {
			return number(a)
		}
		return number(a) + ".." + number(b)
	}
	if v > from {
		before = run(from, v-1)
	}
	return before, run(v+1, to), true
}

// spanParts are what stands before a number's figures, how many those are, and
// their value.
func spanParts(n string) (prefix string, width int, serial uint64, ok bool) {
	prefix = strings.TrimRight(n, "0123456789")
	serial, ok = Number(n).Serial()
	return prefix, len(n) - len(prefix), serial, ok && len(n) > len(prefix)
}
