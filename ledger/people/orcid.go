package people

import "strings"

// ORCID is the plain form of an ORCID iD, 0000-0002-1825-0097, from that form
// or its https address; false when its check character is wrong (ISO/IEC
// 7064:2003, MOD 11-2) or the form is another.
func ORCID(s string) (string, bool) {
	s = strings.TrimSpace(s)
	for _, prefix := range []string{"https://orcid.org/", "http://orcid.org/", "orcid.org/"} {
		s = strings.TrimPrefix(s, prefix)
	}
	if len(s) != 19 {
		return "", false
	}
	total, n := 0, 0
	for i := range len(s) {
		c := s[i]
		switch {
		case i%5 == 4:
			if c != '-' {
				return "", false
			}
			continue
		case i == 18:
			want := (12 - total%11) % 11
			if want == 10 && (c == 'X' || c == 'x') || want < 10 && c == byte('0'+want) {
				return strings.ToUpper(s), true
			}
			return "", false
		case c < '0' || c > '9':
			return "", false
		}
		total = (total + int(c-'0')) * 2
		n++
	}
	return "", false
}
