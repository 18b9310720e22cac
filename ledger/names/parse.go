package names

import (
	"strings"
	"unicode/utf8"
)

// parser reads the tokens of one text, name by name.
type parser struct {
	toks    []token
	i       int
	inherit string // genus of the name before, in a formula or after "or"

	n        Name
	canon    []string
	pending  []pending // doubts met, with the part that they stand before
	authors  [8]string // of genus, species and each rank below
	level    int       // whose authors are being read
	from     int       // first token of the authors being read
	unranked int
	capitals bool // the words are all in capitals
}

type pending struct {
	word string
	part int  // index into canon of the first part governed
	only bool // governs that part alone
}

// name reads one name from the token at i to the end, or to the × or "or"
// that joins it to the next.
func (p *parser) name() (Name, string) {
	p.n, p.canon, p.pending, p.level, p.unranked = Name{}, nil, nil, 0, 0
	p.authors = [8]string{}
	p.n.Rank = Genus
	if reason := p.genus(); reason != "" {
		return Name{}, reason
	}
	for p.i < len(p.toks) {
		t := &p.toks[p.i]
		w := strings.TrimRight(t.text, ",;")
		switch {
		case t.text == "×" || t.text == "+":
			if !p.speciesHybrid() {
				return p.finish()
			}
		case w == "." && p.i+1 == len(p.toks): // a stop after the name
			p.endAuthors()
			t.kind = Upright
			p.i++
			p.from = p.i
		case w == "or" && p.orJoins():
			return p.finish()
		case p.openEnd(w):
		case p.sense(w):
		case p.doubt(w):
		case p.rankTerm(w):
		case p.cultivar():
		case p.note(w) || w != "" && p.bracketRemark(w):
		case p.subgenus(t.text):
		case p.secondName(w):
			return Name{}, "two names; enter each by itself, or join them by \"or\""
		case p.epithet(w) || p.capitalEpithet(w):
		case p.author(w):
		default:
			return Name{}, "cannot read " + quote(t.text) + " as part of a name"
		}
		if p.level >= len(p.authors) {
			return Name{}, "too many ranks"
		}
	}
	return p.finish()
}

// genus reads the first word, with × and doubts before it.
func (p *parser) genus() string {
	for p.i < len(p.toks) {
		w := p.toks[p.i].text
		bare := strings.ToLower(strings.TrimSuffix(w, "."))
		if (w == "×" || w == "+") && !p.n.GenusHybrid {
			p.n.GenusHybrid, p.n.sign = true, w
			p.toks[p.i].kind = Cross
			if p.i+1 < len(p.toks) {
				p.toks[p.i+1].glued = true
			}
		} else if q := doubts[bare]; q != "" && bare != "conf" {
			p.toks[p.i].kind = Upright
			p.pending = append(p.pending, pending{word: q, part: 0})
		} else {
			break
		}
		p.i++
	}
	if p.i >= len(p.toks) {
		return "no genus"
	}
	return p.firstWord()
}

func (p *parser) firstWord() string {
	t := &p.toks[p.i]
	w := strings.TrimRight(t.text, ",;:")
	next := ""
	if p.i+1 < len(p.toks) {
		next = p.toks[p.i+1].text
	}
	switch {
	case p.inherit != "" && isEpithet(w) && !particles[w]:
		p.setGenus(p.inherit)
		return "" // the epithet is read by the loop
	case isShort(w):
		g := w
		if strings.HasPrefix(p.inherit, strings.TrimSuffix(w, ".")) {
			g = p.inherit
		} else {
			p.warn("name-genus-short", "the genus is shortened; write it in full")
		}
		p.setGenus(g)
		p.i++
		return ""
	case isCapitals(w) && (next == "" || len(w) >= 4):
		p.capitals = isCapitals(strings.TrimRight(next, ",;"))
		w = title(w)
	case isGenus(w):
	case isEpithet(w) && !particles[w] && (isEpithet(next) || next == "×" || doubts[strings.TrimSuffix(next, ".")] != "" || openWords[next]) && p.inherit == "":
		p.warn("name-genus-small", "the genus is written with a capital: "+genusForm(w))
	default:
		return "cannot read " + quote(t.text) + " as a genus or a name of higher rank"
	}
	p.i++
	t.kind = Italic
	g := genusForm(w)
	if r := rankOfWord(g); r < Genus && (r == Family || !isEpithet(next) || openWords[next] || particles[next]) {
		t.kind = Upright
		p.n.Uninomial, p.n.Rank = g, r
		p.canon = append(p.canon, g)
		p.startAuthors(0)
		return ""
	}
	p.setGenus(g)
	return ""
}

func (p *parser) setGenus(g string) {
	p.n.Genus = g
	if p.n.GenusHybrid {
		g = p.n.sign + " " + g
	}
	p.canon = append(p.canon, g)
	p.startAuthors(0)
}

// isShort reports whether w is a shortened genus: Q. or Mo.
func isShort(w string) bool {
	n := len(w) - 1
	return n >= 1 && n <= 3 && w[n] == '.' && w[0] >= 'A' && w[0] <= 'Z' && strings.Trim(w[1:n], "abcdefghijklmnopqrstuvwxyz") == ""
}

func (p *parser) warn(code, message string) {
	p.n.Warnings = append(p.n.Warnings, Warning{code, message})
}

func (p *parser) startAuthors(level int) { p.level, p.from = level, p.i }

// speciesHybrid takes × before the epithet of a species; false when the sign
// joins two names.
func (p *parser) speciesHybrid() bool {
	if p.n.Species != "" || p.n.Uninomial != "" || p.n.Rank == CultivarRank || p.i+1 >= len(p.toks) || p.toks[p.i].text == "+" {
		return false
	}
	next := strings.TrimRight(p.toks[p.i+1].text, ",;")
	if !isEpithet(next) && doubts[strings.TrimSuffix(next, ".")] == "" || next == "?" {
		return false
	}
	p.toks[p.i].kind = Cross
	p.toks[p.i+1].glued = true
	p.n.SpeciesHybrid = true
	p.i++
	if isEpithet(next) {
		p.setSpecies(next)
	}
	return true
}

// orJoins reports whether "or" at i stands between two names.
func (p *parser) orJoins() bool {
	if p.i == 0 || p.i+1 >= len(p.toks) {
		return false
	}
	w := p.toks[p.i+1].text
	return isGenus(w) || isShort(w) || isEpithet(w) || w == "×" || doubts[strings.TrimSuffix(w, ".")] != ""
}

// setSpecies takes the token at i as the epithet of the species.
func (p *parser) setSpecies(w string) {
	e := spellFigures(strings.ToLower(transcribe(w)))
	p.toks[p.i].kind = Italic
	p.n.Species, p.n.Rank = e, Species
	if p.n.SpeciesHybrid {
		p.canon = append(p.canon, "× "+e)
	} else {
		p.canon = append(p.canon, e)
	}
	if e == strings.ToLower(p.n.Genus) {
		p.warn("name-tautonym", "the epithet repeats the genus (Art. 23.4)")
	}
	p.i++
	p.startAuthors(1)
}

// epithet takes a Latin word in lower case: the species, or below it an
// epithet without its rank.
func (p *parser) epithet(w string) bool {
	if p.capitals && p.n.Species == "" && isCapitals(w) && p.from == p.i {
		p.setSpecies(strings.ToLower(w))
		return true
	}
	if !isEpithet(w) || p.n.Uninomial != "" || p.isParticle(w) {
		return false
	}
	if p.n.Species == "" {
		if plainWords[w] && (w != "not" || p.i+1 >= len(p.toks) || !upperAt(p.toks[p.i+1].text, 0)) {
			return false
		}
		p.setSpecies(w)
		return true
	}
	if joiners[w] || trailers[w] || plainWords[w] || p.unranked > 0 || len(p.n.Ranks) > 5 {
		return false
	}
	p.unranked++
	p.addRank(marker{rank: Infraspecific}, w, false)
	p.warn("name-no-rank", "no rank stands before "+quote(w)+" (Art. 24.1); write for example subsp. or var.")
	return true
}

// isParticle reports whether the lower-case word at i belongs to an author's
// name: it is a particle or joiner and a word with a capital follows.
func (p *parser) isParticle(w string) bool {
	if trailers[w] && p.i > p.from {
		return true
	}
	if !particles[w] && !joiners[w] {
		return false
	}
	if joiners[w] && p.i > p.from {
		return true
	}
	for j := p.i + 1; j < len(p.toks); j++ {
		next := strings.TrimLeft(p.toks[j].text, "(['’‘")
		if next == "" {
			return false
		}
		if upperAt(next, 0) {
			return true
		}
		if !particles[strings.TrimRight(next, ",;")] {
			return false
		}
	}
	return false
}

// addRank takes the token at i as an epithet of the rank m.
func (p *parser) addRank(m marker, w string, hybrid bool) {
	e := spellFigures(transcribe(strings.TrimRight(w, ",;")))
	if !m.rank.infrageneric() && m.set != "unr." {
		e = strings.ToLower(e)
	}
	p.toks[p.i].kind = Italic
	if m.rank < Genus {
		p.toks[p.i].kind = Upright
	}
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
	bare := strings.TrimSuffix(w, ".")
	m, ok := markers[bare]
	if !ok {
		if m, ok = markers[strings.ToLower(bare)]; !ok || !p.capitals {
			return false
		}
	}
	below := !m.rank.infrageneric()
	j := p.i + 1
	for j < len(p.toks) && isGreek(p.toks[j].text) {
		j++
	}
	doubtAt := -1
	if j < len(p.toks) && doubts[strings.TrimSuffix(p.toks[j].text, ".")] != "" && j+1 < len(p.toks) {
		doubtAt, j = j, j+1
	}
	hybrid := j < len(p.toks) && p.toks[j].text == "×" && below
	if hybrid {
		j++
	}
	if j >= len(p.toks) || !p.rankEpithet(j, below) || below && p.n.Species == "" && m.rank != Infraspecific && !p.orphanRank(m) {
		return p.bareTerm(w, m)
	}
	for k := p.i; k < j; k++ {
		p.toks[k].kind = Upright
	}
	if doubtAt >= 0 {
		q := doubts[strings.TrimSuffix(p.toks[doubtAt].text, ".")]
		p.pending = append(p.pending, pending{word: q, part: len(p.canon)})
	}
	if hybrid {
		p.toks[j-1].kind, p.toks[j].glued = Cross, true
	}
	p.endAuthors()
	p.i = j
	p.addRank(m, p.toks[j].text, hybrid)
	return true
}

// orphanRank reports whether a rank below species may follow the genus at
// once, as after a cultivated hybrid or in shortened labels; f. may not.
func (p *parser) orphanRank(m marker) bool {
	return m.rank != Form && p.n.Uninomial == "" && m.set != "st."
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
	if !isEpithet(w) || joiners[w] || trailers[w] {
		return false
	}
	if _, ok := markers[w]; ok {
		return false
	}
	return !particles[w] || j+1 >= len(p.toks)
}

// capitalAfter are the rank terms that can be no author's: an epithet after
// them may have a capital on old labels.
var capitalAfter = wordSet("subsp. subsp ssp. ssp var. var unr. subvar.")

// bareTerm takes a rank term without epithet: "subsp.", "ssp. indet.". It is
// left to the authors when it is their f.
func (p *parser) bareTerm(w string, m marker) bool {
	if m.rank != Subspecies && m.rank != Variety || p.n.Species == "" || w == "v" || w == "v." {
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
