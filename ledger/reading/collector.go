package reading

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"blotter/ledger/people"
)

// who is the family name and the first initial of the collector named first,
// folded: "rask s". A series of collecting numbers is that person's. Empty
// when nobody is named.
func (x *Reader) who(words string) string {
	w, ok := x.whos[words]
	if !ok {
		w = Who(words)
		if len(x.whos) < remembered {
			x.whos[words] = w
		}
	}
	return w
}

// Who is the family name and the first initial of the first person that words
// name, folded; empty when they name nobody.
func Who(words string) string {
	if AbsenceOf(words) != Present {
		return ""
	}
	team := people.Read(words)
	if len(team) == 0 {
		return ""
	}
	p := team[0]
	given := people.Person{Family: p.Given}.Key()
	p.Given = ""
	w := p.Key()
	if r, size := utf8.DecodeRuneInString(given); size > 0 {
		w += " " + string(r)
	}
	return w
}

// CollNo is a collector's number as read: 97-12a is Prefix "97-", Serial 12,
// Suffix "a".
type CollNo struct {
	Prefix string // folded, what stands before the last run of figures
	Serial uint32
	Suffix string // letters after it, folded: a mixed gathering that was split
}

// maxSerial is the greatest number that is taken for one of a series.
const maxSerial = 9_999_999

// ReadCollNo reads a collector's number; false when it has no running number:
// s.n., words, figures too many or followed by more than some letters.
func ReadCollNo(text string) (CollNo, bool) {
	if n, ok := plainSerial(text); ok {
		return CollNo{Serial: n}, true
	}
	s := strings.ToLower(strings.TrimSpace(text))
	for _, mark := range []string{"no.", "nr.", "n°", "nº", "№", "#", "no ", "nr "} {
		s = strings.TrimSpace(strings.TrimPrefix(s, mark))
	}
	end := len(s)
	for end > 0 && !figure(s[end-1]) {
		end--
	}
	start := end
	for start > 0 && figure(s[start-1]) {
		start--
	}
	suffix := strings.Trim(s[end:], " .-")
	if start == end || end-start > 7 || len(suffix) > 3 || strings.IndexFunc(suffix, func(r rune) bool { return !unicode.IsLetter(r) }) >= 0 {
		return CollNo{}, false
	}
	n, err := strconv.ParseUint(s[start:end], 10, 32)
	if err != nil || n > maxSerial || n == 0 {
		return CollNo{}, false
	}
	return CollNo{Prefix: strings.TrimSpace(s[:start]), Serial: uint32(n), Suffix: suffix}, true
}

// plainSerial reads a number of figures alone, as nearly all are.
func plainSerial(text string) (uint32, bool) {
	if len(text) == 0 || len(text) > 7 {
		return 0, false
	}
	n := uint32(0)
	for i := range len(text) {
		if !figure(text[i]) {
			return 0, false
		}
		n = n*10 + uint32(text[i]-'0')
	}
	return n, n > 0
}

func figure(c byte) bool { return '0' <= c && c <= '9' }
