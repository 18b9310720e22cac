package people

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// divide finds given names, particle and family name.
func (p *Person) divide(words []string) {
	n := len(words)
	if i := strings.LastIndexByte(words[n-1], '-'); i > 0 && isSuffix(words[n-1][i+1:], false) && n > 1 {
		p.Suffix, words[n-1] = words[n-1][i+1:], words[n-1][:i]
	}
	trailing := n // particles behind initials: "Humboldt A. von"
	for trailing > 1 && particles[words[trailing-1]] {
		trailing--
	}
	behind := words[trailing:]
	words = words[:trailing]
	n = trailing
	switch {
	case n == 2 && utf8.RuneCountInString(words[0]) == 3 && allUpper(words[0]) && strings.HasSuffix(words[1], ".") && isInitials(words[1]):
		p.Given, p.Family = words[1], words[0] // "LID J."
		p.Particle = strings.Join(behind, " ")
		return
	case allInitials(words):
		p.Given = strings.Join(words, " ")
		return
	case n > 1 && isInitials(words[n-1]) && !isInitials(words[0]) && p.familyFirst(words):
		p.Particle = strings.Join(nonEmpty(p.Particle, strings.Join(behind, " ")), " ")
		return
	case n > 2 && slices.ContainsFunc(words[:n-2], isInitials) && isInitials(words[n-1]) && !isInitials(words[n-2]):
		p.Given, p.Family = strings.Join(words[:n-2], " "), words[n-2]+" "+words[n-1] // "A. L. Reina G.", "José M. Aguilar C."
		return
	}
	family := n - 1
	if family > 0 && has(saints, words[family-1], ".") && (family > 1 || strings.HasSuffix(words[0], ".") || words[0] == "St") {
		family-- // "H. St. John"
	}
	k := family
	for k > 0 && isParticle(words, k-1) {
		k--
	}
	p.Given, p.Particle = strings.Join(words[:k], " "), strings.Join(words[k:family], " ")
	p.Family = strings.ReplaceAll(strings.TrimRight(strings.Join(words[family:], " "), "."), oneWord, " ")
}

// familyFirst takes "Groom Q.", "van der Berg J.", "Smith JB".
func (p *Person) familyFirst(words []string) bool {
	k := len(words) - 1
	for k > 1 && isInitials(words[k-1]) {
		k--
	}
	start := 0
	for start < k-1 && isParticle(words, start) {
		start++
	}
	if k-start != 1 {
		return false
	}
	p.Given = strings.Join(words[k:], " ")
	p.Particle, p.Family = strings.Join(words[:start], " "), strings.TrimRight(words[start], ".")
	return true
}

// isParticle reports whether the word at i is a particle: in small letters, or
// with a capital before another particle or a family name.
func isParticle(words []string, i int) bool {
	w := words[i]
	if particles[w] {
		return true
	}
	if i > 0 && len(w) > 1 && i+1 < len(words) && allUpper(w) && allUpper(words[len(words)-1]) && len(words[len(words)-1]) > 3 && has(particles, w, "") {
		return true // "T. R. VAN DEVENDER"
	}
	return capitalParticles[w] && i+1 < len(words) && (particles[words[i+1]] || capitalParticles[words[i+1]] || i > 0)
}

// capitalParticles are particles that many write with a capital.
var capitalParticles = wordSet("La Le Da Di Van Von De Del Della Der Den Dos Du Ter Ten Zur Vander Vande")

func allInitials(words []string) bool {
	for _, w := range words {
		if !isInitials(w) || !strings.Contains(w, ".") && utf8.RuneCountInString(w) > 3 {
			return false
		}
	}
	return true
}
