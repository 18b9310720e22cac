package ledger

import (
	"cmp"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"
)

// Number is a specimen's permanent number, for example LK7-0000482. It is the
// base name of its file and never changes; two numbers that differ only by
// case are the same number (see Number.Key).
type Number string

// deviceNames are base names that Windows keeps for devices, in any case and
// with any ending; a record of that name could not be checked out there.
var deviceNames = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)^(con|prn|aux|nul|conin\$|conout\$|com[1-9¹²³]|lpt[1-9¹²³])(\.|$)`)
})

// Valid reports whether n can be a number: letters, digits, dot, hyphen and
// underline, beginning with a letter or digit, and no Windows device name
// (FORMAT.md, "Numbers").
func (n Number) Valid() bool {
	for i := range len(n) {
		c := n[i]
		letter := c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || isDigit(c)
		switch {
		case letter:
		case i == 0 || c != '.' && c != '_' && c != '-':
			return false
		case c == '.' && (i+1 == len(n) || n[i+1] == '.'):
			return false
		}
	}
	return n != "" && !n.device()
}

// device reports whether n is a Windows device's name, with any ending.
func (n Number) device() bool {
	head, _, _ := strings.Cut(string(n), ".")
	return len(head) >= 3 && len(head) <= 4 && deviceNames().MatchString(head)
}

// Key is n folded for comparison: numbers are unique ignoring case.
func (n Number) Key() string { return strings.ToLower(string(n)) }

// CompareKey is strings.Compare(n.Key(), key), in no memory of its own: a
// number is looked for among a million by twenty such.
func (n Number) CompareKey(key string) int {
	for i := range min(len(n), len(key)) {
		a, b := n[i], key[i]
		if a >= utf8.RuneSelf || b >= utf8.RuneSelf {
			return strings.Compare(n.Key(), key)
		}
		if 'A' <= a && a <= 'Z' {
			a += 'a' - 'A'
		}
		if a != b {
			return cmp.Compare(a, b)
		}
	}
	return cmp.Compare(len(n), len(key))
}

// Serial is the value of n's last run of digits; false when it has none or
// more digits than fit.
func (n Number) Serial() (uint64, bool) {
	end := len(n)
	for end > 0 && !isDigit(n[end-1]) {
		end--
	}
	start := end
	for start > 0 && isDigit(n[start-1]) {
		start--
	}
	v, err := strconv.ParseUint(string(n[start:end]), 10, 64)
	return v, err == nil
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// Folder is the folder of n below specimens/: n/10000 in at least three
// digits, then n/100 mod 100 in two, so that no folder holds more than a
// hundred records of one series; "other" for a number without digits.
func (n Number) Folder() string {
	v, ok := n.Serial()
	if !ok {
		return "other"
	}
	return fmt.Sprintf("%03d/%02d", v/10000, v/100%100)
}

// Path is where the record of n lies in the ledger, with forward slashes.
func (n Number) Path() string {
	return SpecimensDir + "/" + n.Folder() + "/" + string(n) + ".yaml"
}

// NumberOfPath is the number that a record's path gives it: its base name
// without .yaml. False when p is not a .yaml file below specimens/.
func NumberOfPath(p string) (Number, bool) {
	if !strings.HasPrefix(p, SpecimensDir+"/") || !strings.HasSuffix(p, ".yaml") {
		return "", false
	}
	return Number(strings.TrimSuffix(p[strings.LastIndexByte(p, '/')+1:], ".yaml")), true
}
