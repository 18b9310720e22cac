package names

import "strings"

// bracketRemark takes a remark in brackets, such as (female) or (in fruit),
// with all that follows.
func (p *parser) bracketRemark(w string) bool {
	in := strings.Trim(w, "(),;.:")
	if in := strings.Trim(w, "()[],;."); p.n.Species != "" && in != "" && (w[0] == '(' || w[0] == '[') && isGenus(in) && rankOfWord(in) == Family {
		p.endAuthors()
		p.n.Note = strings.TrimSpace(p.n.Note + " " + p.takeRest())
		return true
	}
	if w[0] == '[' && len(w) > 2 && lowerAt(w, 1) && !(p.n.Species == "" && p.i+2 < len(p.toks)) && !trailers[strings.Trim(w, "[]")] {
		p.endAuthors()
		p.n.Note = strings.TrimSpace(p.n.Note + " " + p.takeRest())
		return true
	}
	if p.bracketDoubt(w) {
		return true
	}
	if first := strings.Trim(w, "(),;:"); w[0] == '(' && len(first) > 3 && first[0] >= 'a' && first[0] <= 'z' && innerCapital(first) && strings.Contains(first, "-") && !particles[first] {
		p.endAuthors() // "(murorum-Gruppe)"
		p.n.Note = strings.TrimSpace(p.n.Note + " " + p.takeRest())
		return true
	}
	if w[0] != '(' || len(in) < 3 || !isEpithet(in) || particles[in] || trailers[in] || trailers[in+"."] || p.i+1 < len(p.toks) && upperAt(p.toks[p.i+1].text, 0) {
		return false
	}
	p.endAuthors()
	p.n.Note = strings.TrimSpace(p.n.Note + " " + p.takeRest())
	return true
}

// bracketDoubt takes a doubt in brackets with the epithet that it names:
// "Poa (cf. annua)". The epithet is no part of the name.
func (p *parser) bracketDoubt(w string) bool {
	q := ""
	if w[0] == '(' {
		q = doubtWord(w[1:])
	}
	if q == "" || p.i+1 >= len(p.toks) || !strings.HasSuffix(p.toks[p.i+1].text, ")") || !isEpithet(strings.TrimRight(p.toks[p.i+1].text, ")")) {
		return false
	}
	p.endAuthors()
	p.toks[p.i].kind, p.toks[p.i+1].kind = Upright, Upright
	p.i += 2
	p.from = p.i
	p.qualify(textOf(p.toks[p.i-2:p.i]), p.whole(), false)
	return true
}

// subgenus takes a subgenus or section in brackets between genus and epithet.
func (p *parser) subgenus(w string) bool {
	if p.sectionInBrackets(w) {
		return true
	}
	if p.n.Species != "" || p.n.Genus == "" || p.i != p.from || len(p.n.Ranks) > 0 || len(w) < 3 || w[0] != '(' || w[len(w)-1] != ')' {
		return false
	}
	in := w[1 : len(w)-1]
	if !isGenus(in) && !isShort(in) || p.i+1 >= len(p.toks) {
		return false
	}
	next := strings.TrimRight(p.toks[p.i+1].text, ",;")
	p.i++
	follows := isEpithet(next) && !p.isParticle(next) || next == "×" && p.i+1 < len(p.toks) && isEpithet(p.toks[p.i+1].text)
	p.i--
	if !follows && !isOpen(next) {
		return false
	}
	p.spell("name-subgenus-brackets", "the name of a species has no subgenus in it (Art. 23.1)")
	p.toks[p.i].kind = Italic
	if isGenus(in) {
		p.n.Ranks = append(p.n.Ranks, Part{Rank: Subgenus, Epithet: genusForm(in)})
	}
	p.i++
	p.startAuthors(0)
	return true
}

// bracketEpithet passes over an aggregate or section in small letters that
// stands in brackets between genus and epithet: "Rubus (fruticosus) plicatus".
func (p *parser) bracketEpithet(w string) bool {
	n := len(w) - 1
	if n < 5 || w[0] != '(' || w[n] != ')' || p.n.Species != "" || p.n.Genus == "" || p.i != p.from || len(p.n.Ranks) > 0 || p.i+1 >= len(p.toks) {
		return false
	}
	in, next := w[1:n], strings.TrimRight(p.toks[p.i+1].text, ",;")
	if !isEpithet(in) || !isEpithet(next) || p.knownWord(in) || p.knownWord(next) {
		return false
	}
	p.toks[p.i].kind = Upright
	p.i++
	p.startAuthors(0)
	return true
}

// knownWord reports whether w has a meaning of its own, so that it is no
// epithet.
func (p *parser) knownWord(w string) bool {
	_, rank := markers[w]
	return rank || particles[w] || joiners[w] || trailers[w] || neverEpithets[w] || notes[w] || openWords[w] || plainWords[w] || vernacular[w] || doubts[w] != "" || senses[w] != ""
}

// sectionInBrackets takes "(sect. Acutae)" or "[subg. Vignea]" between genus
// and epithet.
func (p *parser) sectionInBrackets(w string) bool {
	if p.n.Species != "" || p.n.Genus == "" || p.i != p.from || len(p.n.Ranks) > 0 || len(w) < 4 || w[0] != '(' && w[0] != '[' || p.i+2 >= len(p.toks) {
		return false
	}
	m, ok := markers[strings.TrimSuffix(w[1:], ".")]
	next := p.toks[p.i+1].text
	in := strings.TrimRight(next, ")]")
	if e := strings.TrimRight(p.toks[p.i+2].text, ",;"); !ok || !m.rank.infrageneric() || in == next || !isGenus(in) || !isEpithet(e) || particles[e] || joiners[e] {
		return false
	}
	p.toks[p.i].kind, p.toks[p.i+1].kind = Upright, Italic
	p.n.Ranks = append(p.n.Ranks, Part{Rank: m.rank, Marker: m.set, Epithet: genusForm(in)})
	p.i += 2
	p.startAuthors(0)
	return true
}
