package people

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// assemble makes persons of the segments of a team.
func assemble(segments []string) []Person {
	var out []Person
	lone := 0 // segments of one family name
	for _, s := range segments {
		if !strings.Contains(s, " ") {
			lone++
		}
	}
	var waiting []Person // initials or a title whose family name comes later
	for _, s := range segments {
		for _, part := range commas(s, lone > 0 || strings.HasSuffix(s, ",")) {
			p, ok := person(part)
			if !ok {
				continue
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
			out = append(out, p)
		}
	}
	for _, w := range waiting { // signed with initials alone
		if w.Given != "" {
			w.Family, w.Given = w.Given, ""
			w.Text = w.String()
			out = append(out, w)
		}
	}
	return out
}

// commas cuts a segment at its commas and turns "Rask, S." into "S. Rask".
// team says that family names alone stand beside it.
func commas(s string, team bool) []string {
	var parts []string
	for _, p := range strings.Split(s, ",") {
		p = clean(p)
		if p == "" {
			continue
		}
		if suffixes[suffixKey(p)] && len(parts) > 0 {
			parts[len(parts)-1] += " " + p
			continue
		}
		parts = append(parts, p)
	}
	if len(parts) < 2 {
		return parts
	}
	if inverted(parts, team) {
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
	if n := len(f); n > 1 && suffixes[suffixKey(f[n-1])] {
		return given + " " + strings.Join(f[:n-1], " ") + " " + f[n-1]
	}
	return given + " " + family
}

// inverted reports whether parts are family names each followed by given
// names.
func inverted(parts []string, team bool) bool {
	if len(parts) == 2 && !team {
		return isFamily(parts[0]) && !isFull(parts[1])
	}
	for i := 1; i < len(parts); i += 2 {
		if !isGivenOnly(parts[i]) || !isFamily(parts[i-1]) {
			return false
		}
	}
	return true
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
		if isInitials(w) || i > 0 && !particles[fold(words[i-1])] && len(words) > 2 {
			return false
		}
	}
	return len(words) > 0 && (len(words) == 1 || particles[fold(words[0])] || suffixes[suffixKey(words[len(words)-1])])
}

// isFull reports whether s is given names and family name: initials before a
// word that is none.
func isFull(s string) bool {
	words := strings.Fields(s)
	return len(words) > 1 && isInitials(words[0]) && !isInitials(words[len(words)-1]) && !particles[fold(words[len(words)-1])]
}

// isInitials reports whether w is one initial or several: "S.", "J.-P.",
// "WJK", "S".
func isInitials(w string) bool {
	bare := strings.TrimRight(w, ".")
	dots := strings.ContainsAny(w, ".")
	n := utf8.RuneCountInString(bare)
	if n == 0 {
		return false
	}
	for _, part := range strings.FieldsFunc(bare, func(r rune) bool { return r == '.' || r == '-' }) {
		k := utf8.RuneCountInString(part)
		if !allUpper(part) && !(k == 2 && dots && upper(part)) || k > 3 {
			return false
		}
	}
	return n == 1 || dots || n <= 3 && allUpper(bare)
}

// clean leaves out figures, dates and stray signs of one person's words.
func clean(s string) string {
	var out []string
	words := strings.Fields(s)
	for i, w := range words {
		if strings.ContainsAny(w, "0123456789#") {
			if i == 0 {
				return "" // a number, a code
			}
			break
		}
		if strings.ContainsFunc(w, unicode.IsDigit) {
			break
		}
		w = strings.Trim(w, "'\"*:!?,“”")
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
	for len(words) > 0 && titles[strings.TrimSuffix(fold(words[0]), ".")] && (len(words) > 1 || strings.HasSuffix(words[0], ".")) {
		p.Title = strings.TrimSpace(p.Title + " " + words[0])
		words = words[1:]
	}
	for len(words) > 1 && suffixes[suffixKey(words[len(words)-1])] {
		last := words[len(words)-1]
		words = words[:len(words)-1]
		if degrees[suffixKey(last)] {
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

// divide finds given names, particle and family name.
func (p *Person) divide(words []string) {
	n := len(words)
	if i := strings.LastIndexByte(words[n-1], '-'); i > 0 && suffixes[suffixKey(words[n-1][i+1:])] && n > 1 {
		p.Suffix, words[n-1] = words[n-1][i+1:], words[n-1][:i]
	}
	if n > 1 && particles[words[n-1]] { // "F.W.H.A. Humboldt von" after turning
		words = words[:n-1]
		n--
	}
	allInitials := true
	for _, w := range words {
		allInitials = allInitials && isInitials(w) && (strings.Contains(w, ".") || utf8.RuneCountInString(w) <= 3)
	}
	switch {
	case allInitials:
		p.Given = strings.Join(words, " ")
		return
	case n > 1 && isInitials(words[n-1]) && !isInitials(words[0]):
		// "Groom Q.": family name first
		k := n - 1
		for k > 1 && isInitials(words[k-1]) {
			k--
		}
		if k == 1 || strings.Contains(words[n-1], ".") && k <= 2 && particles[fold(words[0])] {
			p.Given = strings.Join(words[k:], " ")
			words = words[:k]
			n = k
		}
	}
	if n > 2 && isInitials(words[0]) && isInitials(words[n-1]) && !isInitials(words[n-2]) {
		p.Given, p.Family = strings.Join(words[:n-2], " "), words[n-2]+" "+words[n-1] // "A. L. Reina G."
		return
	}
	k := n - 1
	for k > 0 && particles[words[k-1]] {
		k--
	}
	if p.Given == "" {
		g := k
		p.Given = strings.Join(words[:g], " ")
		p.Particle = strings.Join(words[g:n-1], " ")
	} else {
		p.Particle = strings.Join(words[:n-1], " ")
	}
	p.Family = strings.TrimRight(words[n-1], ".")
}
