package names

import "strings"

// whole is all of the name read so far, without authors.
func (p *parser) whole() string { return strings.Join(p.canon, " ") }

func (p *parser) qualify(word, governs string, doubt bool) {
	p.n.Qualifiers = append(p.n.Qualifiers, Qualifier{word, governs, doubt})
}

// takeRest takes everything up to the next × or the end as upright words.
func (p *parser) takeRest() string {
	start := p.i
	for p.i < len(p.toks) && (p.toks[p.i].text != "×" || p.i == start) {
		p.toks[p.i].kind = Upright
		p.i++
	}
	p.from = p.i
	return textOf(p.toks[start:p.i])
}

// openEnd takes "sp.", "sp. 3", "indet." and the like with all that follows.
func (p *parser) openEnd(w string) bool {
	if nearWords[w] && p.n.Species == "" && p.i+1 < len(p.toks) && p.toks[p.i+1].text != "×" {
		p.endAuthors()
		p.qualify(p.takeRest(), p.whole(), true)
		return true
	}
	if (w == "n." || w == "nov.") && p.n.Species == "" && p.i+1 < len(p.toks) && isOpen(p.toks[p.i+1].text) { // "n. sp."
		p.endAuthors()
		p.qualify(p.takeRest(), p.whole(), false)
		return true
	}
	if !isOpen(w) || p.i > p.from && w[0] == 'S' || p.n.Species != "" && !strings.HasPrefix(w, "indet") && w != "spp." {
		return false
	}
	if w == "species" && p.i+1 < len(p.toks) && isEpithet(p.toks[p.i+1].text) {
		return false
	}
	p.endAuthors()
	if p.n.Uninomial == "" && p.i+1 < len(p.toks) && doubtWord(p.toks[p.i+1].text) != "" && p.i+2 < len(p.toks) {
		p.toks[p.i].kind = Upright // "sp. cf. acris": the doubt is read next
		p.qualify(p.toks[p.i].text, p.whole(), false)
		p.i++
		p.from = p.i
		return true
	}
	p.qualify(p.takeRest(), p.whole(), false)
	return true
}

// isOpen reports whether w is "sp." or the like, perhaps with its figure or
// letter set against it: sp.2.
func isOpen(w string) bool {
	if has(openWords, w) {
		return true
	}
	rest, ok := strings.CutPrefix(w, "sp")
	if rest == "" || !ok {
		return false
	}
	if rest[0] == '.' || rest[0] == '-' || rest[0] == '_' {
		rest = rest[1:]
	}
	return len(rest) > 0 && (rest[0] == '?' || rest[0] >= '0' && rest[0] <= '9' || rest[0] >= 'A' && rest[0] <= 'Z')
}

// doubt takes cf., aff. and ? standing alone.
func (p *parser) doubt(w string) bool {
	bare := strings.TrimSuffix(strings.Trim(w, "()"), ".")
	q, n := doubts[bare], 1
	if w == "vel" && p.i+1 < len(p.toks) {
		if q = doubtWord(p.toks[p.i+1].text); q != "" {
			q, n = "vel "+q, 2
		}
	}
	if w == "ex" && p.i+2 < len(p.toks) && strings.HasPrefix(p.toks[p.i+1].text, "gr") && isEpithet(p.toks[p.i+2].text) {
		q, n = "ex gr.", 2
	}
	if (w == "gr." || w == "gr") && p.i == p.from && p.n.Species == "" && p.i+1 < len(p.toks) && isEpithet(p.toks[p.i+1].text) {
		q = "gr."
	}
	if q == "" || strings.HasPrefix(w, "(") && p.i+1 < len(p.toks) && !(p.i == p.from && isEpithet(p.toks[p.i+1].text)) {
		return false
	}
	last := p.i+n >= len(p.toks)
	afterAuthors := p.i > p.from
	if bare == "conf" && (last || !isEpithet(p.toks[p.i+1].text)) {
		return false
	}
	p.endAuthors()
	t := &p.toks[p.i]
	t.norm = q
	for range n {
		p.toks[p.i].kind = Upright
		p.i++
	}
	if n > 1 {
		t.norm, p.toks[p.i-1].norm = "", q[strings.IndexByte(q, ' ')+1:]
	}
	p.from = p.i
	if p.n.Species == "" && p.i+1 < len(p.toks) && isShort(p.toks[p.i].text) && strings.HasPrefix(p.n.Genus, strings.TrimSuffix(p.toks[p.i].text, ".")) && isEpithet(p.toks[p.i+1].text) {
		p.toks[p.i].kind, p.toks[p.i].norm = Italic, noWords // "Poa cf. P. annua"
		p.i++
		p.from = p.i
	}
	switch {
	case q == "?" && (t.glued || last || !p.partFollows()):
		part := len(p.canon) - 1
		if afterAuthors {
			part = 0
		}
		p.pending = append(p.pending, pending{word: q, part: part, only: !afterAuthors})
	case last:
		p.qualify(q, p.whole(), true)
	default:
		p.pending = append(p.pending, pending{word: q, part: len(p.canon)})
	}
	return true
}

// partFollows reports whether an epithet or a rank term stands at i.
func (p *parser) partFollows() bool {
	w := strings.TrimRight(p.toks[p.i].text, ",;")
	_, rank := markers[strings.TrimSuffix(w, ".")]
	return rank || isEpithet(w) && !p.isParticle(w) && !joiners[w] && w != "or" || w == "×"
}

// sense takes agg., s.l., s.str., sensu lato and the like, of one word or two.
func (p *parser) sense(w string) bool {
	if len(p.canon) == 0 {
		return false
	}
	key, words := senseKey(w), 1
	q := senses[key]
	if (w == "species" || w == "sp.") && p.n.Species != "" && p.i+2 == len(p.toks) {
		if next := senseKey(p.toks[p.i+1].text); next == "complex" || next == "group" || next == "agg" {
			key, q, words = next, senses[next], 2
		}
	}
	if q == "" && p.i+1 < len(p.toks) && senseStarts[w] {
		key, words = senseKey(w)+senseKey(strings.TrimRight(p.toks[p.i+1].text, ",;")), 2
		q = senses[key]
	}
	if q == "" || p.n.Species == "" && (key == "coll" || key == "ined") && p.n.Uninomial == "" && p.i == p.from {
		return false
	}
	if key == "coll" && p.i+1 < len(p.toks) || w == "gr" || key == "gr" && p.n.Species == "" {
		return false
	}
	p.endAuthors()
	p.toks[p.i].norm = q
	for range words {
		p.toks[p.i].kind = Upright
		p.i++
	}
	if words > 1 {
		p.toks[p.i-words].norm, p.toks[p.i-1].norm = noWords, q
	}
	p.qualify(q, p.whole(), false)
	p.from = p.i
	if q == "agg." && p.n.Rank == Species {
		p.n.Rank = Aggregate
	}
	return true
}

func senseKey(w string) string {
	if len(w) > 14 {
		return ""
	}
	w = strings.TrimPrefix(w, "-")
	b := make([]byte, 0, len(w))
	for i := range len(w) {
		switch c := w[i]; {
		case c >= 'a' && c <= 'z':
			b = append(b, c)
		case c == 'A' && i == 0 || c == 'G' && i == 0:
			b = append(b, c+'a'-'A')
		case c != '.' && c != '(' && c != ')' && c != '[' && c != ']':
			return ""
		}
	}
	return string(b)
}

func textOf(toks []token) string {
	var b strings.Builder
	for i, t := range toks {
		if i > 0 && !t.glued {
			b.WriteByte(' ')
		}
		b.WriteString(t.text)
	}
	return b.String()
}

// capitalNotes are the words of remarks that may begin with a capital.
var capitalNotes = wordSet("Auct. Auct Auctt. Nomen P.")

// note takes a remark to the end of the text: sensu ..., nom. nud., auct. non
// L., p.p.
func (p *parser) note(w string) bool {
	if w != "" && w[0] >= 'A' && w[0] <= 'Z' && !capitalNotes[w] {
		return false
	}
	bare := strings.ToLower(strings.Trim(w, "()[],;:"))
	seen := bare == "!"
	for _, t := range p.toks[p.i:] {
		seen = seen && strings.Trim(t.text, "!,;") == ""
	}
	if !seen && bare != "p." && !notes[bare] && !notes[strings.TrimSuffix(bare, ".")] && !p.newSpecies(bare) && !p.inHerbarium(bare) {
		return false
	}
	if (bare == "non" && !(p.i+1 < len(p.toks) && isEpithet(p.toks[p.i+1].text)) || bare == "not" || bare == "pro") && p.n.Species == "" || strings.HasPrefix(w, "(auct") {
		return false
	}
	if bare == "p." && (p.i+2 != len(p.toks) || !strings.EqualFold(p.toks[p.i+1].text, "p.")) {
		return false
	}
	p.endAuthors()
	rest := p.takeRest()
	if equals[bare] { // what it is called elsewhere, a formula perhaps
		for p.i < len(p.toks) {
			rest += " " + p.takeRest()
		}
	}
	p.n.Note = strings.TrimSpace(p.n.Note + " " + rest)
	return true
}

// equals are the words of remarks that give another name.
var equals = wordSet("= syn. syn synonym non nec not basionym vide")

// capitalEpithet takes an epithet from a person's name that an old label
// writes with a capital (Rec. 60F allowed it): Salix Starkeana, Carex
// Davalliana. It is told from an author by its Latin ending.
func (p *parser) capitalEpithet(w string) bool {
	if p.n.Species != "" || p.n.Genus == "" || p.i != p.from || p.capitals || len(p.n.Ranks) > 0 || !isGenus(w) || w != p.toks[p.i].text {
		return false
	}
	if !personalEnding(w) && !p.beforeAuthorOrRank(w) {
		return false
	}
	p.warn("name-epithet-capital", "an epithet is written with a small letter: "+strings.ToLower(w))
	p.setSpecies(w)
	return true
}

// beforeAuthorOrRank reports whether w at i, an epithet by its ending, stands
// before authors or before a rank below species: "Potamogeton Nodosus Poir.",
// "Euphorbia Characias subsp. wulfenii".
func (p *parser) beforeAuthorOrRank(w string) bool {
	if p.i+1 >= len(p.toks) {
		return false
	}
	next := p.toks[p.i+1].text
	if m, ok := markers[strings.TrimSuffix(next, ".")]; ok && m.rank > Species && m.rank != Form {
		return p.i+2 < len(p.toks) && isLatin(strings.TrimRight(p.toks[p.i+2].text, ",;"))
	}
	if !isAuthorly(next) && !upperAt(next, 0) {
		return false
	}
	for _, end := range [...]string{"us", "um", "ensis", "ense", "orum", "arum", "oides", "alis", "aris", "folia", "flora", "osa", "ata", "ica"} {
		if strings.HasSuffix(w, end) && len(w) > len(end)+3 {
			return true
		}
	}
	return false
}

// authorOrEpithet doubts an author who stands behind a genus without a sign to
// the next author, "Lilium Martagon L.": old labels write epithets from nouns
// and from genera with a capital as well (Rec. 60F allowed it).
func (n *Name) authorOrEpithet(toks []token) {
	if n.Genus == "" || n.Species != "" || n.Rank != Genus || len(toks) < 3 || toks[0].text != n.Genus {
		return
	}
	w, next := toks[1].text, toks[2].text
	if len(w) < 4 || !isGenus(w) || particles[strings.ToLower(w)] || particles[next] || !isAuthorly(next) && !upperAt(next, 0) {
		return
	}
	n.Warnings = append(n.Warnings, Warning{"name-author-epithet", quote(w) + " is taken for an author; if it is the epithet, it is written with a small letter: " + n.Genus + " " + strings.ToLower(w), false})
}

func personalEnding(w string) bool {
	for _, end := range [...]string{"ii", "yi", "iae", "iana", "ianum", "ianus", "eana", "eanum", "eanus"} {
		if strings.HasSuffix(w, end) && len(w) > len(end)+2 {
			return true
		}
	}
	return false
}
