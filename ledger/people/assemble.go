package people

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// assemble makes persons of the segments of a team.
func assemble(segments, ids []string) []Person {
	var out []Person
	lone := 0       // segments of one family name
	turned := false // the last person stands as "Rask, S."
	direct := false // some segment has given and family name in reading order
	for _, s := range segments {
		if !strings.Contains(s, " ") {
			lone++
		} else if !strings.Contains(s, ",") {
			direct = true
		}
	}
	var waiting []Person // initials or a title whose family name comes later
	for i, s := range segments {
		s, id := takeID(s)
		if id >= 0 && s == "" && len(out) > 0 && id < len(ids) {
			out[len(out)-1].ORCID = ids[id]
			continue
		}
		for _, part := range commas(s, context{lone > 0 || strings.HasSuffix(s, ","), direct}) {
			p, ok := person(part)
			if !ok {
				continue
			}
			if id >= 0 && id < len(ids) {
				p.ORCID = ids[id]
			}
			if p.Given == "" && i+1 < len(segments) && sharesFamily(part, segments[i+1]) {
				p.Given, p.Family = p.Family, "" // "Ellen & Mark Smith"
			}
			if p.Family == "" {
				waiting = append(waiting, p)
				continue
			}
			for _, w := range waiting {
				w.Particle, w.Family = p.Particle, p.Family
				if w.Given == "" {
					w.Given = p.Given
				}
				w.Text = w.String()
				out = append(out, w)
			}
			waiting = nil
			out, turned = append(out, p), strings.Contains(s, ",")
		}
	}
	return append(out, initialled(waiting, out, turned)...)
}

// initialled is who is named by initials alone, at the end: of the family of
// the last of before when that one is turned, "Rask, S. & O.".
func initialled(waiting, before []Person, turned bool) []Person {
	var out []Person
	for _, w := range waiting {
		switch {
		case w.Given == "":
			continue
		case turned && strings.HasSuffix(w.Given, "."):
			last := before[len(before)-1]
			w.Particle, w.Family = last.Particle, last.Family
		default:
			w.Family, w.Given = w.Given, ""
		}
		w.Text = w.String()
		out = append(out, w)
	}
	return out
}

// context is what the other segments of a team tell of one.
type context struct {
	lone   bool // family names alone stand beside it
	direct bool // names in reading order stand beside it
}

// commas cuts a segment at its commas and turns "Rask, S." into "S. Rask".
func commas(s string, beside context) []string {
	var parts []string
	for _, p := range strings.Split(s, ",") {
		p = clean(p)
		if p == "" {
			continue
		}
		if len(parts) > 0 && isSuffix(p, !strings.Contains(parts[len(parts)-1], " ")) {
			k := len(parts) - 1
			if k == 1 && !strings.Contains(parts[0], " ") {
				k = 0 // "Smith, John, Jr."
			}
			parts[k] += " " + p
			continue
		}
		parts = append(parts, p)
	}
	if len(parts) < 2 {
		return parts
	}
	if inverted(parts, beside) {
		var out []string
		for i := 0; i+1 < len(parts); i += 2 {
			out = append(out, turn(parts[i], parts[i+1]))
		}
		if len(parts)%2 == 1 {
			out = append(out, parts[len(parts)-1])
		}
		return out
	}
	return parts
}

// turn is "given particle family" from the two sides of a comma.
func turn(family, given string) string {
	f := strings.Fields(family)
	suffix := ""
	if n := len(f); n > 1 && isSuffix(f[n-1], false) {
		f, suffix = f[:n-1], " "+f[n-1]
	}
	k := 0
	for k < len(f)-1 && isParticle(f, k) {
		k++
	}
	return given + " " + strings.Join(append(f[:k:k], strings.Join(f[k:], oneWord)), " ") + suffix
}

// oneWord joins the words of one family name while it is read.
const oneWord = "\ue0ff"

// inverted reports whether parts are family names each followed by given
// names.
func inverted(parts []string, beside context) bool {
	if len(parts) == 2 && isGivenOnly(parts[1]) && isFamilyName(parts[0]) {
		return true
	}
	if len(parts) == 2 && beside.direct && isFamily(parts[0]) {
		return hasGiven(parts[1])
	}
	if len(parts) == 2 && (!beside.lone || suffixed(parts[0])) {
		return isFamily(parts[0]) && (!isFull(parts[1]) || endsGiven(parts[1]))
	}
	if len(parts)%2 == 0 && givenEverySecond(parts) {
		return true
	}
	for i := 1; i < len(parts); i += 2 {
		if !isGivenOnly(parts[i]) || !isFamily(parts[i-1]) {
			return false
		}
	}
	return true
}

// hasGiven reports whether s begins with a given name that is known, or ends
// with initials.
func hasGiven(s string) bool {
	words := strings.Fields(s)
	return has(givenNames, words[0], "") && !isFull(s) || len(words) > 1 && isInitials(words[len(words)-1])
}

// endsGiven reports whether s ends with a given name that is known: "R. Doug".
func endsGiven(s string) bool { return has(givenNames, s[strings.LastIndexByte(s, ' ')+1:], "") }

// suffixed reports whether s ends with Jr. or the like.
func suffixed(s string) bool {
	words := strings.Fields(s)
	return len(words) > 1 && isSuffix(words[len(words)-1], false)
}

// isFamilyName reports whether s is a family name of up to four words: no
// initials, no given name that is known.
func isFamilyName(s string) bool {
	words := strings.Fields(s)
	for _, w := range words {
		if isInitials(w) {
			return false
		}
	}
	return len(words) > 0 && len(words) <= 4 && (len(words) == 1 || !has(givenNames, words[0], ""))
}

// givenEverySecond reports whether every second part is a given name that is
// known, behind a single word that is none: "Smith, John, Jones, Mary".
func givenEverySecond(parts []string) bool {
	for i := 1; i < len(parts); i += 2 {
		first, _, _ := strings.Cut(parts[i], " ")
		last := parts[i][strings.LastIndexByte(parts[i], ' ')+1:]
		if !has(givenNames, first, "") || !has(givenNames, last, "") && !isInitials(last) || strings.Contains(parts[i-1], " ") || has(givenNames, parts[i-1], "") {
			return false
		}
	}
	return true
}

// sharesFamily reports whether a lone given name shares the family name of
// the segment after it: "Ellen & Mark Smith".
func sharesFamily(lone, next string) bool {
	words := strings.Fields(next)
	return has(givenNames, lone, "") && len(words) == 2 && has(givenNames, words[0], "") && !strings.HasSuffix(words[0], ",")
}

// isGivenOnly reports whether s is initials, perhaps with particles after
// them: "W.J.K.", "A. von".
func isGivenOnly(s string) bool {
	for i, w := range strings.Fields(s) {
		if !isInitials(w) && (i == 0 || !particles[w]) {
			return false
		}
	}
	return s != ""
}

// isFamily reports whether s holds no initials.
func isFamily(s string) bool {
	words := strings.Fields(s)
	for i, w := range words {
		if isInitials(w) || i > 0 && !has(particles, words[i-1], "") && len(words) > 2 {
			return false
		}
	}
	return len(words) > 0 && (len(words) == 1 || has(particles, words[0], "") || has(saints, words[0], ".") || isSuffix(words[len(words)-1], false))
}

// isFull reports whether s is given names and family name: initials before a
// word that is none.
func isFull(s string) bool {
	words := strings.Fields(s)
	return len(words) > 1 && isInitials(words[0]) && !isInitials(words[len(words)-1]) && !has(particles, words[len(words)-1], "")
}

// isInitials reports whether w is one initial or several: "S.", "J.-P.",
// "WJK", "S".
func isInitials(w string) bool {
	bare := strings.TrimRight(w, ".")
	if bare == "" {
		return false
	}
	if !strings.Contains(w, ".") {
		return len(w) <= 12 && utf8.RuneCountInString(w) <= 3 && allUpper(w) && !roman[w]
	}
	part, letters := 0, 0 // letters of the part at hand, and whether they are capitals
	lower := false
	for _, r := range bare {
		switch {
		case r == '.' || r == '-':
			if lower && part != 2 || part > 3 {
				return false
			}
			part, lower = 0, false
			continue
		case unicode.IsUpper(r):
		case part == 0:
			return false
		default:
			lower = true
		}
		part++
		letters++
	}
	if lower && part != 2 || part > 3 {
		return false
	}
	return letters == 1 || !isSuffix(w, true) && !has(saints, bare, "")
}

// clean leaves out figures, dates and stray signs of one person's words.
func clean(s string) string {
	var out []string
	words := strings.Fields(s)
	for i, w := range words {
		if strings.ContainsAny(w, "0123456789#") || strings.ContainsFunc(w, unicode.IsDigit) {
			if i == 0 {
				return "" // a number, a code
			}
			break
		}
		if w == "née" || w == "nee" || w == "geb." {
			break // her name before she married
		}
		if w == "s.n." || w == "s.n" {
			continue
		}
		if i > 0 && i+1 < len(words) && isNickname(w) {
			continue
		}
		w = strings.Trim(w, "'\"*:!?,“”<>")
		w = strings.Map(func(r rune) rune {
			if unicode.Is(unicode.So, r) || unicode.IsControl(r) {
				return -1
			}
			return r
		}, w)
		if strings.ContainsFunc(w, unicode.IsLetter) {
			out = append(out, w)
		}
	}
	return strings.Join(out, " ")
}

// isNickname reports whether w is in quotes: John "Jack" Smith.
func isNickname(w string) bool {
	return len(w) > 2 && strings.IndexByte("'\"", w[0]) >= 0 && w[len(w)-1] == w[0]
}

// saints are words that begin a family name: St. John, San Martín.
var saints = wordSet("st saint ste sainte san santa sao sta")

// isSuffix reports whether s is Jr., III, Ph.D. or the like. alone says that
// nothing but a family name stands before it, so that J.R. and M.D. are
// initials.
func isSuffix(s string, alone bool) bool {
	if len(s) > 8 || !has(suffixes, s, ".") {
		return false
	}
	inner := strings.Contains(strings.TrimSuffix(s, "."), ".")
	switch {
	case has(degrees, s, ".") && strings.EqualFold(strings.Trim(s, "."), "ph.d"):
		return true
	case alone && (inner || !strings.ContainsFunc(s, unicode.IsLower)):
		return roman[s]
	}
	return !inner || has(degrees, s, ".")
}

var roman = wordSet("II III IV")

// isTitle reports whether w is Dr., Prof., Miss or the like.
func isTitle(w string) bool { return has(titles, strings.TrimSuffix(w, "."), "") }

func suffixKey(s string) string {
	return strings.ReplaceAll(strings.ToLower(s), ".", "")
}

// person reads one person; a title or initials without family name come back
// with Family empty. False when nothing is left.
func person(s string) (Person, bool) {
	if n, ok := noneOf(s); ok && n != Stated {
		return Person{}, false
	}
	words := strings.Fields(spread(s))
	if !strings.ContainsFunc(s, unicode.IsUpper) && strings.ContainsFunc(s, unicode.IsLower) {
		return Person{}, false // "local", "a friend"
	}
	var p Person
	for len(words) > 0 && isTitle(words[0]) && (len(words) > 1 || strings.HasSuffix(words[0], ".") || loneTitles[words[0]]) {
		p.Title = strings.TrimSpace(p.Title + " " + words[0])
		words = words[1:]
	}
	for len(words) > 1 && isSuffix(words[len(words)-1], false) {
		last := words[len(words)-1]
		words = words[:len(words)-1]
		if has(degrees, last, ".") {
			p.Title = strings.TrimSpace(p.Title + " " + last)
		} else {
			p.Suffix = strings.TrimSpace(last + " " + p.Suffix)
		}
	}
	if len(words) == 0 {
		return p, p.Title != ""
	}
	p.divide(words)
	if p.Family == "" && p.Given != "" && !strings.ContainsAny(p.Given, ".") && len(words) == 1 && len(p.Given) < 2 {
		return p, false
	}
	p.Text = p.String()
	return p, true
}

// loneTitles are titles without a stop that no name is: "Mr & Mrs Smith".
var loneTitles = wordSet("Mr Mrs Ms Dr Prof")

// spread parts initials from the word set against them: "J.R.Smith".
func spread(s string) string {
	if !strings.Contains(s, ".") {
		return s
	}
	words := strings.Fields(s)
	for i, w := range words {
		j := strings.LastIndexByte(strings.TrimRight(w, "."), '.')
		if j > 0 && utf8.RuneCountInString(strings.TrimRight(w[j+1:], ".")) > 2 && isInitials(w[:j+1]) && !strings.HasPrefix(w[j+1:], "-") {
			words[i] = w[:j+1] + " " + w[j+1:]
		}
	}
	return strings.Join(words, " ")
}
