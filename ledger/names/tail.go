package names

import "strings"

// tail takes the words from i to the end, which cannot be read as part of the
// name: they are set aside with a warning. It gives a reason when not even
// what stands before them can be the name of one plant.
func (p *parser) tail(w string) string {
	first := p.toks[p.i].text
	bare := p.i == p.from && p.authors == [8]string{}
	if bare && (p.small || vernacular[w]) || p.n.Species == "" && p.i == p.from && !latinGenus(p.n.Genus+p.n.Uninomial) {
		return "cannot read " + quote(first) + " as part of a name"
	}
	for j := p.i; j+1 < len(p.toks); j++ {
		g, e := p.toks[j].text, strings.TrimRight(p.toks[j+1].text, ",;.")
		if isGenus(g) && genusForm(g) == p.n.Genus && isEpithet(e) && !particles[e] && !joiners[e] {
			return twoNames
		}
	}
	p.cutPublication()
	p.endAuthors()
	start := p.i
	for ; p.i < len(p.toks); p.i++ {
		p.toks[p.i].kind = Upright
	}
	p.from = p.i
	p.n.Tail = textOf(p.toks[start:])
	p.warn("name-tail", "cannot read "+quote(p.n.Tail)+" as part of the name; it is left out")
	return ""
}

// latinGenus reports whether each part of w, as its hyphens part it, has a
// vowel: Ph-echinodermata is none.
func latinGenus(w string) bool {
	for _, part := range strings.Split(w, "-") {
		if !strings.ContainsAny(part, "aeiouyAEIOUY") {
			return false
		}
	}
	return true
}

// cutPublication takes the title of a work from the end of the authors, when
// a volume or page follows: "(L.) Reichard, Fl. Moeno-Francof. 2: 96".
func (p *parser) cutPublication() {
	if c := p.toks[p.i].text[0]; c < '0' || c > '9' {
		return
	}
	for j := p.i - 1; j > p.from; j-- {
		switch w := p.toks[j-1].text; {
		case p.toks[j].text == "&" || p.toks[j].text == "et":
			return
		case strings.HasSuffix(w, ","):
			p.i = j
			return
		}
	}
}

// newSpecies reports whether "sp. nov.", "n. sp." or the like begins at i,
// behind a name that has its epithet.
func (p *parser) newSpecies(bare string) bool {
	if p.n.Species == "" {
		return false
	}
	next := ""
	if p.i+1 < len(p.toks) {
		next = strings.Trim(p.toks[p.i+1].text, "().,;")
	}
	switch strings.TrimSuffix(bare, ".") {
	case "n.sp", "sp.nov", "sp.n":
		return true
	case "n":
		return next == "sp" || next == "spec" || next == "comb"
	case "sp", "spec", "species", "gen":
		return next == "nov" || next == "n" || next == "nova" || next == "ined" || next == "et"
	}
	return false
}

// inHerbarium reports whether "in litt.", "in sched.", "in herb." stands at i:
// a remark where the name was found, not an author's work.
func (p *parser) inHerbarium(bare string) bool {
	if bare != "in" || p.i+1 >= len(p.toks) {
		return false
	}
	next := p.toks[p.i+1].text
	return lowerAt(next, 0) && !particles[strings.TrimRight(next, ".,")] && !strings.ContainsAny(next, "'’")
}

// bracketFormula takes the parents of a hybrid that stand in brackets behind
// its name: "Salix × multinervis Döll (aurita × cinerea)".
func (p *parser) bracketFormula(w string) bool {
	if (w[0] != '(' && w[0] != '[') || p.n.Species == "" {
		return false
	}
	crossed := false
	for j := p.i; j < len(p.toks); j++ {
		t := p.toks[j].text
		crossed = crossed || t == "×"
		if !strings.ContainsAny(t, ")]") {
			continue
		}
		if !crossed {
			return false
		}
		p.endAuthors()
		start := p.i
		for ; p.i <= j; p.i++ {
			p.toks[p.i].kind = Upright
		}
		p.from = p.i
		p.n.Note = strings.TrimSpace(p.n.Note + " " + textOf(p.toks[start:p.i]))
		return true
	}
	return false
}

// leadingRanks are rank terms that stand before a name of one word: "fam.
// Rosaceae", "Genus Carex".
var leadingRanks = map[string]Rank{"fam": Family, "fam.": Family, "family": Family, "familia": Family, "familie": Family, "ord": Order, "ord.": Order, "ordo": Order,
	"order": Order, "genus": Genus, "gen": Genus, "gen.": Genus}

// leadingFamily takes a family that stands before the name of a plant: "Poaceae:
// Poa annua".
func (p *parser) leadingFamily(w, next string) bool {
	if p.i > 0 || p.i+2 >= len(p.toks) || !isGenus(next) || rankOfWord(genusForm(w)) != Family {
		return false
	}
	e := strings.TrimRight(p.toks[p.i+2].text, ",;")
	if !isEpithet(e) || particles[e] || joiners[e] || trailers[e] || neverEpithets[e] || openWords[e] || notes[e] {
		return false
	}
	p.toks[p.i].kind = Upright
	p.i++
	return true
}

// unnamedFamily reports whether the words are "Indet. Poaceae" or the like: a
// family, and a word that says that no more is known.
func unnamedFamily(toks []token) bool {
	return len(toks) == 2 && has(notNamed, toks[0].text) && isGenus(toks[1].text) && rankOfWord(genusForm(toks[1].text)) == Family
}

var notNamed = wordSet("indet. indet unidentified undetermined undet. unknown indeterminate ubestemt unbestimmt")

// leadingRank takes a rank term before the first word, if the word is of that
// rank by its ending.
func (p *parser) leadingRank(w, next string) bool {
	if p.i == 0 && unnamedFamily(p.toks) {
		p.toks[0].kind = Upright
		p.qualify(w, genusForm(next), false)
		p.i++
		return true
	}
	r := leadingRanks[strings.ToLower(strings.TrimSuffix(w, "."))]
	if r == 0 || p.i > 0 || !isGenus(next) || rankOfWord(genusForm(next)) != r {
		return false
	}
	p.toks[p.i].kind = Upright
	p.i++
	return true
}
