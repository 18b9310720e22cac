package names

import (
	"strings"
	"unicode/utf8"
)

// noWords is the normal spelling of a word that is left out.
const noWords = "\x00"

// Codes are the codes of all warnings that Read gives.
var Codes = []string{"name-author-epithet", "name-autonym-author", "name-capitals", "name-epithet-capital", "name-epithet-words", "name-family-ending", "name-genitive",
	"name-genus-author", "name-genus-short", "name-genus-small", "name-letter-x", "name-letters", "name-no-rank", "name-rank-ending", "name-rank-term",
	"name-subgenus-brackets", "name-tail", "name-tautonym", "name-typical"}

// spell warns of a habit of writing that is no fault on an old label.
func (p *parser) spell(code, message string) {
	p.n.Warnings = append(p.n.Warnings, Warning{code, message, true})
}

// cross takes the token at i for the sign of a hybrid.
func (p *parser) cross() {
	t := &p.toks[p.i]
	t.kind = Cross
	if t.letter {
		p.spell("name-letter-x", "the sign of a hybrid is ×, not the letter x (Art. H.3A)")
	}
}

// spelled notes the normal spelling of a genus or epithet and says where
// letters that the Code does not know were written.
func (p *parser) spelled(t *token, as, normal string) {
	if as == normal {
		if as != t.text {
			t.norm = normal
		}
		return
	}
	t.norm = normal
	switch {
	case !isASCII(as) && !onlyDiaeresis(as):
		p.spell("name-letters", quote(as)+" is written "+quote(normal)+" in a name (Art. 60.7)")
	case strings.ContainsAny(as, "'.`"):
		p.spell("name-letters", quote(as)+" is written "+quote(normal)+" in a name (Art. 60.13)")
	case as[0] >= '0' && as[0] <= '9':
		p.spell("name-letters", quote(as)+" is written in letters: "+quote(normal)+" (Art. 23.3)")
	case p.capitals || isCapitals(as) && len(as) > 2:
		if p.level == 0 && p.n.Species == "" {
			p.spell("name-capitals", "a name is written with one capital, at its first word")
		}
	}
}

// onlyDiaeresis reports whether the letters beyond ASCII are vowels whose
// diaeresis the Code allows (Art. 60.7): Isoëtes.
func onlyDiaeresis(w string) bool {
	for _, r := range w {
		if r >= utf8.RuneSelf && r != 'ë' && r != 'ï' {
			return false
		}
	}
	return true
}

// termSpelled notes the normal spelling of the rank term at i (Rec. 5A).
func (p *parser) termSpelled(w, bare string, m marker) {
	t := &p.toks[p.i]
	t.norm = m.set
	if m.set == "f.sp." && t.text == "f." {
		t.norm = ""
		return
	}
	if w != m.set && bare+"." != m.set && !p.capitals && m.set != "unr." {
		p.spell("name-rank-term", quote(w)+" is written "+quote(m.set)+" (Rec. 5A)")
	} else if w != m.set && bare != m.set && !p.capitals && m.set != "unr." {
		p.spell("name-rank-term", "a full stop follows "+quote(w))
	}
}

// typicalWords may not be the epithet of the part that holds the type, but in
// an autonym (Art. 24.3).
var typicalWords = wordSet("typicus typica typicum genuinus genuina genuinum verus vera verum originalis originale originarius originaria originarium veridicus veridica veridicum")

// endings of the ranks between family and genus (Art. 19).
var rankEnding = map[Rank]string{Subfamily: "oideae", Tribe: "eae", Subtribe: "inae"}

// checkRank warns of an epithet that its rank does not allow.
func (p *parser) checkRank(m marker, e string) {
	if end := rankEnding[m.rank]; end != "" && p.n.Uninomial != "" && !strings.HasSuffix(e, end) && m.set != "supertrib." {
		p.warn("name-rank-ending", "the name of a "+m.rank.String()+" ends in -"+end+" (Art. 19)")
	}
	if m.rank > Species && typicalWords[e] {
		p.warn("name-typical", quote(e)+" may not name the part that holds the type; that one repeats the epithet of the species (Art. 24.3)")
	}
	if m.rank > Species {
		p.checkEpithet(e)
	}
}

// checkEpithet warns of an epithet that repeats its genus, and of an ending
// made from a person's name that the Code corrects.
func (p *parser) checkEpithet(e string) {
	if len(e) == len(p.n.Genus) && strings.EqualFold(e, p.n.Genus) {
		p.warn("name-tautonym", "the epithet repeats the genus (Art. 23.4)")
	}
	n := len(e)
	if n < 6 || e[n-1] != 'i' {
		return
	}
	switch {
	case strings.HasSuffix(e, "erii"):
		p.spell("name-genitive", "from a person's name in -er the epithet ends in -eri, not -erii (Art. 60.8)")
	case consonant(e[n-2]) && consonant(e[n-3]) && e[n-2] != 'l':
		p.spell("name-genitive", "from a person's name in a consonant the epithet ends in -ii (Art. 60.8), if it is one")
	}
}

func consonant(c byte) bool { return c > 'a' && c <= 'z' && strings.IndexByte("aeiouy", c) < 0 }

// familyEnding warns of a word that is nearly the name of a family.
func (p *parser) familyEnding(w, next string) {
	n := len(w)
	if n < 9 || p.n.Rank == Family || isEpithet(next) && !openWords[next] {
		return
	}
	i := strings.LastIndex(w, "ac")
	if i < n-6 || i > n-3 || w[i:] == "aceae" || w[i:] == "acea" || w[i:] == "aceus" || w[i:] == "aceum" {
		return
	}
	if Distance(w[i:], "aceae", 2) < 2 {
		p.warn("name-family-ending", "the name of a family ends in -aceae (Art. 18.1); is "+w[:i]+"aceae meant?")
	}
}

// wordPairs are epithets of two words (Art. 23.1) that labels write without
// their hyphen.
var wordPairs = pairs("bursa pastoris|filix mas|filix femina|filix foemina|capillus veneris|crus galli|noli tangere|uva ursi|uva crispa|vitis idaea|flos cuculi|flos jovis|flos aquae|" +
	"pes caprae|pes avis|caput medusae|caput galli|spica venti|morsus ranae|nidus avis|nasturtium aquaticum|ruta muraria|adiantum nigrum|plantago aquatica|anagallis aquatica|" +
	"novae angliae|novi belgii|novae zelandiae|novae caledoniae|cornu cervi|speculum veneris|pecten veneris|crista galli|lacryma jobi|lacrima jobi|ficus indica|dens canis|dens leonis|" +
	"rosa sinensis|pseudo acorus|pseudo platanus|pseudo cyperus|pseudo narcissus|herba venti|lingua cervina|palma christi|hydropiper minus|unguis cati|barba jovis|sancti johannis")

func pairs(s string) map[string]map[string]bool {
	out := map[string]map[string]bool{}
	for _, p := range strings.Split(s, "|") {
		a, b, _ := strings.Cut(p, " ")
		if out[a] == nil {
			out[a] = map[string]bool{}
		}
		out[a][b] = true
	}
	return out
}

// joinedWords takes the second word of an epithet of two, if it stands behind
// the first at i.
func (p *parser) joinedWords(e string) string {
	next := strings.TrimRight(p.toks[p.i+1].text, ",;")
	if !wordPairs[e][next] {
		return e
	}
	p.i++
	t := &p.toks[p.i]
	t.kind = Italic
	sep := "-"
	if e == "pseudo" {
		sep = ""
	}
	p.toks[p.i-1].norm, t.norm = noWords, e+sep+next
	e = t.norm
	p.spell("name-epithet-words", "an epithet of two words is joined: "+e+" (Art. 23.1)")
	p.n.Species = e
	return e
}
