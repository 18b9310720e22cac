package people

import "strings"

// firstID is the first of the private runes that stand for the ORCID iDs of a
// text while it is read.
const firstID = '\ue000'

// strip leaves out addresses and takes ORCID iDs out of a text: each is put
// down as one rune of its own, which the person it follows gets.
func strip(text string) (string, []string, []Warning) {
	if !strings.ContainsAny(text, "@0") || !strings.ContainsAny(text, "@-") {
		return text, nil, nil
	}
	var ids []string
	var warnings []Warning
	words := strings.Fields(text)
	out := words[:0]
	for _, w := range words {
		core := strings.Trim(w, "()[]<>,;")
		id, ok := ORCID(core)
		switch {
		case strings.Contains(w, "@"):
			if tail := w[len(strings.TrimRight(w, ",;")):]; tail != "" {
				out = append(out, tail)
			}
		case ok && len(ids) < 100:
			w = string(rune(firstID+len(ids))) + w[len(strings.TrimRight(w, ",;")):]
			ids = append(ids, id)
			if n := len(out); n > 0 && strings.EqualFold(strings.Trim(out[n-1], "([:"), "orcid") {
				out = out[:n-1]
			}
			out = append(out, w)
		case isORCIDForm(core):
			warnings = append(warnings, Warning{"orcid-check", core + " is no ORCID iD: its last character does not fit the others (ISO/IEC 7064, MOD 11-2)"})
		default:
			out = append(out, w)
		}
	}
	return strings.Join(out, " "), ids, warnings
}

// takeID takes the rune of an ORCID iD out of the words of one person.
func takeID(s string) (string, int) {
	for i, r := range s {
		if r >= firstID && r < firstID+100 {
			return strings.TrimSpace(s[:i] + s[i+len(string(r)):]), int(r - firstID)
		}
	}
	return s, -1
}

// isORCIDForm reports whether s has the form of an ORCID iD, right or wrong.
func isORCIDForm(s string) bool {
	if i := strings.LastIndexByte(s, '/'); i >= 0 {
		s = s[i+1:]
	}
	if len(s) != 19 {
		return false
	}
	for i := range len(s) {
		if c := s[i]; i%5 == 4 && c != '-' || i%5 != 4 && (c < '0' || c > '9') && (i != 18 || c != 'X' && c != 'x') {
			return false
		}
	}
	return true
}
