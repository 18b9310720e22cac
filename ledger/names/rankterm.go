package names

import (
	"strings"
	"unicode/utf8"
)

// addRank takes the token at i as an epithet of the rank m.
func (p *parser) addRank(m marker, w string, hybrid bool) {
	e := spellFigures(transcribe(strings.TrimRight(w, ",;")))
	if !m.rank.infrageneric() && m.set != "unr." {
		e = strings.ToLower(e)
	}
	t := &p.toks[p.i]
	t.kind = Italic
	if m.rank < Genus {
		t.kind = Upright
	}
	p.spelled(t, strings.TrimRight(w, ",;"), e)
	p.checkRank(m, e)
	p.n.Ranks = append(p.n.Ranks, Part{Rank: m.rank, Marker: m.set, Epithet: e, Hybrid: hybrid})
	p.n.Rank = m.rank
	c := e
	if hybrid {
		c = "× " + c
	}
	if m.set != "" {
		c = m.set + " " + c
	}
	p.canon = append(p.canon, c)
	p.i++
	p.startAuthors(1 + len(p.n.Ranks))
}

// rankTerm takes a rank term with its epithet. A term that no epithet follows
// is an author's f. (filius), or says that the rank is not named.
func (p *parser) rankTerm(w string) bool {
	bare := strings.Trim(w, "[].")
	m, ok := markers[bare]
	if !ok {
		if p.numbered(w) {
			return true
		}
		low := strings.ToLower(bare)
		if m, ok = markers[low]; !ok || !p.capitals && !(capitalTerms[low] && p.n.Species != "" && p.i+1 < len(p.toks) && isEpithet(strings.TrimRight(p.toks[p.i+1].text, ",;"))) {
			return false
		}
	}
	j := p.i + 1
	if (bare == "f" || bare == "forma") && j+1 < len(p.toks) && specialis[p.toks[j].text] && isEpithet(p.toks[j+1].text) {
		m, j = markers["f.sp"], j+1
	}
	below := !m.rank.infrageneric()
	for j < len(p.toks) && (isGreek(p.toks[j].text) || j+1 < len(p.toks) && newWords[p.toks[j].text]) {
		j++
	}
	doubtAt := -1
	if j < len(p.toks) && doubtWord(p.toks[j].text) != "" && j+1 < len(p.toks) {
		doubtAt, j = j, j+1
	}
	hybrid := j < len(p.toks) && p.toks[j].text == "×" && below
	if hybrid {
		j++
	}
	if j >= len(p.toks) || !p.rankEpithet(j, below) || below && p.n.Species == "" && m.rank != Infraspecific && !p.orphanRank(m, bare) {
		return p.bareTerm(w, m)
	}
	p.termSpelled(w, bare, m)
	for k := p.i; k < j; k++ {
		p.toks[k].kind = Upright
	}
	if doubtAt >= 0 {
		q := doubtWord(p.toks[doubtAt].text)
		p.toks[doubtAt].norm = q
		p.pending = append(p.pending, pending{word: q, part: len(p.canon)})
	}
	if hybrid {
		i := p.i
		p.i = j - 1
		p.cross()
		p.i, p.toks[j].glued = i, true
	}
	p.endAuthors()
	p.i = j
	p.addRank(m, p.toks[j].text, hybrid)
	return true
}

// orphanRank reports whether a rank below species may follow the genus at
// once, as after a cultivated hybrid or in shortened labels; f. may not.
func (p *parser) orphanRank(m marker, bare string) bool {
	return bare != "f" && p.n.Uninomial == "" && m.set != "st."
}

func isGreek(w string) bool {
	r, n := utf8.DecodeRuneInString(w)
	return r >= 'α' && r <= 'ω' && (len(w) == n || w[n:] == ".")
}

// rankEpithet reports whether the token at j can be the epithet after a rank
// term: lower case below species, a capital above.
func (p *parser) rankEpithet(j int, below bool) bool {
	w := strings.TrimRight(p.toks[j].text, ",;")
	if !below {
		if m := markers[strings.TrimSuffix(p.toks[p.i].text, ".")]; (m.rank < Genus) != (p.n.Uninomial != "") && m.rank != Tribe && m.rank != Subtribe {
			return false
		}
		return isGenus(w) || isEpithet(w) && !particles[w] && !joiners[w] && p.n.Uninomial == ""
	}
	if p.capitals && isCapitals(w) || isGenus(w) && capitalAfter[p.toks[p.i].text] {
		return true
	}
	if !isEpithet(w) || joiners[w] || trailers[w] || plainWords[w] || neverEpithets[w] {
		return false
	}
	if _, ok := markers[w]; ok {
		return false
	}
	return !particles[w] || j+1 >= len(p.toks)
}

// capitalTerms are the rank terms that may be written with a capital, since
// no author is called so.
var capitalTerms = wordSet("subsp ssp var subvar convar forma subspecies varietas nothosubsp nothovar")

// capitalAfter are the rank terms that can be no author's: an epithet after
// them may have a capital on old labels.
var capitalAfter = wordSet("subsp. subsp ssp. ssp var. var unr. unr [unr.] unranked [unranked] subvar.")

// bareTerm takes a rank term without epithet: "subsp.", "ssp. indet.". It is
// left to the authors when it is their f.
func (p *parser) bareTerm(w string, m marker) bool {
	if m.rank <= Species || m.rank == Form || p.n.Species == "" || w == "v" || w == "v." {
		return false
	}
	if p.i+1 < len(p.toks) {
		next := p.toks[p.i+1].text
		if !openWords[next] && next != "?" && next != "nov." && next[0] != '"' {
			return false
		}
	}
	p.endAuthors()
	p.qualify(p.takeRest(), p.whole(), false)
	return true
}

// numbered takes a Greek or Latin letter that numbers a variety without rank
// term, as old books do: "Viola tricolor β. arvensis", "b. arvensis".
func (p *parser) numbered(w string) bool {
	if p.n.Species == "" || p.i+1 >= len(p.toks) || !(isGreek(w) || w == "ß" || w == "ß." || len(w) == 2 && w[1] == '.' && w[0] >= 'a' && w[0] <= 'h' && w[0] != 'f') {
		return false
	}
	next := strings.TrimRight(p.toks[p.i+1].text, ",;")
	if !isEpithet(next) || len(next) < 4 || joiners[next] || trailers[next] || particles[next] || plainWords[next] || neverEpithets[next] {
		return false
	}
	p.endAuthors()
	p.toks[p.i].kind = Upright
	p.i++
	p.addRank(marker{rank: Infraspecific}, p.toks[p.i].text, false)
	p.warn("name-no-rank", "a letter and no rank stands before "+quote(next)+" (Art. 24.1); write for example var.")
	return true
}

// doubtWord is the normal spelling of a qualifier of doubt; "" when w is none.
func doubtWord(w string) string { return doubts[strings.TrimSuffix(w, ".")] }
