package names

import "strings"

// orJoins reports whether "or" at i stands between two names.
func (p *parser) orJoins() bool {
	if p.i == 0 || p.i+1 >= len(p.toks) {
		return false
	}
	if p.toks[p.i].text == "vel" && doubtWord(p.toks[p.i+1].text) != "" {
		return false // "vel aff." doubts
	}
	if doubtWord(p.toks[p.i-1].text) != "" {
		return false
	}
	w := p.toks[p.i+1].text
	return isGenus(w) || isShort(w) || isEpithet(w) || w == "×" || doubtWord(w) != ""
}

// orWords join alternatives.
var orWords = wordSet("or vel seu sive oder eller ou /")

// andWords join two plants on one slip.
var andWords = wordSet("with mit med avec con together plus")

const twoNames = `two names; enter each by itself, or join them by "or"`

// secondName reports whether a second plant's name begins at i, or behind the
// "and" at i: a genus and an epithet that are no authors.
func (p *parser) secondName(w string) bool {
	if p.n.Genus == "" {
		return false
	}
	j := p.i
	joined := joiners[w] && w != "ex" && w != "in" || andWords[w]
	if joined {
		j++
	}
	if j+1 >= len(p.toks) {
		return false
	}
	g, e := p.toks[j].text, strings.TrimRight(p.toks[j+1].text, ",;.")
	_, rank := markers[e]
	if !isGenus(g) && !(joined && isShort(g) && p.n.Species != "" && g[0] == p.n.Genus[0]) || !isEpithet(e) || rank || particles[e] || joiners[e] || trailers[e] || notes[e] || orWords[e] {
		return false
	}
	switch {
	case genusForm(g) == p.n.Genus || andWords[w]:
		return true
	case joined:
		return p.i == p.from || isShort(g)
	}
	return p.i > 0 && strings.HasSuffix(p.toks[p.i-1].text, ",")
}
