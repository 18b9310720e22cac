package names

import "strings"

// parser reads the tokens of one text, name by name.
type parser struct {
	toks    []token
	i       int
	inherit string // genus of the name before, in a formula or after "or"
	species string // its species

	n        Name
	canon    []string
	pending  []pending // doubts met, with the part that they stand before
	authors  [8]string // of genus, species and each rank below
	level    int       // whose authors are being read
	from     int       // first token of the authors being read
	unranked int
	capitals bool // the words are all in capitals
	small    bool // the genus is in small letters, so that a name is told from English with care
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
		case w == "(" || w == ")": // of a formula
			p.endAuthors()
			t.kind = Upright
			p.i++
			p.from = p.i
		case t.text == "×" || t.text == "+":
			if !p.speciesHybrid() {
				return p.finish()
			}
		case w == "." || w == "†" || w == ":" && t.glued: // a stop after the name; the sign of what died out
			p.endAuthors()
			t.kind = Upright
			p.i++
			p.from = p.i
		case orWords[w] && p.orJoins():
			return p.finish()
		case p.openEnd(w):
		case p.sense(w):
		case p.doubt(w):
		case p.rankTerm(w):
		case p.cultivar():
		case p.bracketEpithet(w):
		case p.note(w) || w != "" && (p.bracketFormula(w) || p.bracketRemark(w)):
		case p.subgenus(t.text):
		case p.secondName(w):
			return Name{}, twoNames
		case p.epithet(w) || p.capitalEpithet(w):
		case p.author(w):
		default:
			if reason := p.tail(w); reason != "" {
				return Name{}, reason
			}
		}
		if p.level >= len(p.authors) {
			return Name{}, "too many ranks"
		}
	}
	return p.finish()
}

// genus reads the first word, with × and doubts before it.
func (p *parser) genus() string {
	p.skipMarks()
	for p.i < len(p.toks) {
		w := p.toks[p.i].text
		bare := strings.TrimSuffix(w, ".")
		if bare == "Cf" || bare == "Aff" {
			bare = strings.ToLower(bare)
		}
		if (w == "×" || w == "+") && !p.n.GenusHybrid {
			p.n.GenusHybrid, p.n.sign = true, w
			p.cross()
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
	case p.inherit != "" && openWords[w]: // "Salix repens × sp."
		p.setGenus(p.inherit)
		return ""
	case isShort(w):
		g := w
		if strings.HasPrefix(p.inherit, strings.TrimSuffix(w, ".")) {
			g = p.inherit
			t.norm = g
		} else {
			p.warn("name-genus-short", "the genus is shortened; write it in full")
		}
		p.setGenus(g)
		p.i++
		return ""
	case p.leadingRank(w, next) || p.leadingFamily(w, next):
		return p.firstWord()
	case p.inherit != "" && p.species != "" && markers[strings.TrimSuffix(w, ".")].rank > Species && isEpithet(next):
		p.setGenus(p.inherit) // "Poa annua subsp. exilis × subsp. annua"
		p.n.Species, p.n.Rank = p.species, Species
		p.canon = append(p.canon, p.species)
		p.startAuthors(1)
		return ""
	case isCapitals(w) && (next == "" || len(w) >= 4 || isEpithet(next) && !particles[next] || isCapitals(strings.TrimRight(next, ",;"))):
		p.capitals = isCapitals(strings.TrimRight(next, ",;"))
		w = title(w)
	case isGenus(w):
	case isEpithet(w) && w[0] > '9' && !particles[w] && !plainWords[w] && !vernacular[w] && (isEpithet(next) || next == "×" || doubts[strings.TrimSuffix(next, ".")] != "" || openWords[next]) && p.inherit == "":
		p.small = true
		p.warn("name-genus-small", "the genus is written with a capital: "+genusForm(w))
	default:
		return "cannot read " + quote(t.text) + " as a genus or a name of higher rank"
	}
	p.i++
	t.kind = Italic
	g := genusForm(w)
	p.spelled(t, strings.TrimRight(t.text, ",;:"), g)
	if r := rankOfWord(g); r < Genus && (r == Family || !isEpithet(next) || openWords[next] || particles[next] || doubtWord(next) != "") {
		t.kind = Upright
		p.n.Uninomial, p.n.Rank = g, r
		p.familyEnding(g, next)
		p.canon = append(p.canon, g)
		p.startAuthors(0)
		return ""
	}
	p.familyEnding(g, next)
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
	p.n.Warnings = append(p.n.Warnings, Warning{code, message, false})
}

func (p *parser) startAuthors(level int) { p.level, p.from = level, p.i }

// speciesHybrid takes × before the epithet of a species; false when the sign
// joins two names.
func (p *parser) speciesHybrid() bool {
	if p.n.Species != "" || p.n.Uninomial != "" || p.n.Rank == CultivarRank || p.i+1 >= len(p.toks) || p.toks[p.i].text == "+" {
		return false
	}
	next := strings.TrimRight(p.toks[p.i+1].text, ",;")
	if !isEpithet(next) && doubtWord(next) == "" || next == "?" {
		return false
	}
	p.cross()
	p.toks[p.i+1].glued = true
	p.n.SpeciesHybrid = true
	p.i++
	if isEpithet(next) {
		p.setSpecies(next)
	}
	return true
}

// setSpecies takes the token at i as the epithet of the species.
func (p *parser) setSpecies(w string) {
	e := spellFigures(strings.ToLower(transcribe(w)))
	t := &p.toks[p.i]
	t.kind = Italic
	p.n.Species, p.n.Rank = e, Species
	if p.level == 0 && len(p.n.Ranks) == 0 && p.authorsSince() {
		p.warn("name-genus-author", "no author stands between genus and epithet")
	}
	p.spelled(t, w, e)
	if len(p.n.Ranks) > 0 && len(p.canon) > 1 { // the name of a species has no section in it (Art. 23.1)
		p.canon = p.canon[:1]
		for i := range p.pending {
			p.pending[i].part = min(p.pending[i].part, 1)
		}
	}
	if p.i+1 < len(p.toks) && (e == "pseudo" || wordPairs[e] != nil) {
		e = p.joinedWords(e)
	}
	p.checkEpithet(e)
	if p.n.SpeciesHybrid {
		p.canon = append(p.canon, "× "+e)
	} else {
		p.canon = append(p.canon, e)
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
	if !isEpithet(w) || p.n.Uninomial != "" || p.isParticle(w) || neverEpithets[w] {
		return false
	}
	if p.n.Species == "" {
		if plainWords[w] && (w != "not" || p.i+1 >= len(p.toks) || !upperAt(p.toks[p.i+1].text, 0)) || vernacular[w] {
			return false
		}
		p.setSpecies(w)
		return true
	}
	if joiners[w] || trailers[w] || plainWords[w] || particles[w] || vernacular[w] || p.unranked > 1 || p.small && p.unranked > 0 || len(p.n.Ranks) > 5 || len(w) < 3 {
		return false
	}
	if _, rank := markers[w]; rank || strings.HasSuffix(p.toks[p.i-1].text, ",") || strings.HasSuffix(p.toks[p.i-1].text, ";") {
		return false // a remark follows the comma
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
