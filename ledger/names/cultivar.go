package names

import (
	"strings"
	"unicode/utf8"
)

// cultivar takes a cultivar name in quotes, after cv., or a Group.
func (p *parser) cultivar() bool {
	w := p.toks[p.i].text
	switch r, size := utf8.DecodeRuneInString(w); {
	case p.i > p.from && quotedYear(w):
		return false
	case strings.ContainsRune(openQuotes, r) && len(w) > size && (upperAt(w, size) || w[size] >= '0' && w[size] <= '9' || len(w) > size+3 && p.i == p.from && strings.ContainsRune("'‘’", r)):
		return p.quoted(size)
	case cultivarWords[w] && p.i+1 < len(p.toks):
		p.endAuthors()
		p.toks[p.i].kind = Upright
		p.i++
		p.from = p.i
		if r, size := utf8.DecodeRuneInString(p.toks[p.i].text); strings.ContainsRune(openQuotes, r) && p.quoted(size) {
			return true
		}
		start := p.i
		for p.i < len(p.toks) && p.toks[p.i].text != "×" && (p.i == start || !strings.ContainsAny(p.toks[p.i].text, ".&")) {
			p.toks[p.i].kind = Upright
			p.i++
		}
		p.setCultivar(strings.Trim(textOf(p.toks[start:p.i]), "'‘’\"“”"))
		return true
	}
	return p.group()
}

// cultivarWords stand before the epithet of a cultivar.
var cultivarWords = wordSet("cv. cv cvar. cvar cultivar c.v.")

const openQuotes = "'‘’\"“”„‚`"

// quoted takes the words up to the closing quote.
func (p *parser) quoted(open int) bool {
	for j := p.i; j < len(p.toks); j++ {
		w := strings.TrimRight(p.toks[j].text, ",;")
		r, _ := utf8.DecodeLastRuneInString(w)
		if !strings.ContainsRune("'’‘\"”“", r) || j == p.i && len(w) <= open+1 {
			continue
		}
		words := strings.TrimRight(textOf(p.toks[p.i:j+1]), ",;")
		for k := p.i; k <= j; k++ {
			p.toks[k].kind = Upright
		}
		p.endAuthors()
		p.i = j + 1
		_, last := utf8.DecodeLastRuneInString(words)
		p.setCultivar(words[open : len(words)-last])
		return true
	}
	return false
}

// group takes a cultivar group: "Capitata Group", "Capitata-Gruppe".
func (p *parser) group() bool {
	j := p.i
	open := strings.HasPrefix(p.toks[j].text, "(")
	for j < len(p.toks) && j < p.i+4 && upperAt(strings.TrimPrefix(p.toks[j].text, "("), 0) && groupWords[strings.TrimSuffix(p.toks[j].text, ")")] == "" {
		j++
	}
	if j == p.i || j >= len(p.toks) || groupWords[strings.TrimSuffix(p.toks[j].text, ")")] == "" || open != strings.HasSuffix(p.toks[j].text, ")") {
		return false
	}
	p.endAuthors()
	p.n.Grex = groupWords[strings.TrimSuffix(p.toks[j].text, ")")] == "grex"
	p.n.Group = strings.TrimPrefix(textOf(p.toks[p.i:j]), "(")
	p.canon = append(p.canon, p.n.group())
	for ; p.i <= j; p.i++ {
		p.toks[p.i].kind = Upright
	}
	p.from, p.n.Rank = p.i, CultivarRank
	return true
}

// groupWords follow the epithet of a cultivar group, or of a grex (ICNCP).
var groupWords = map[string]string{"Group": "Group", "Gruppe": "Group", "Gp": "Group", "Gp.": "Group", "grex": "grex", "gx": "grex", "gx.": "grex"}

// group is the cultivar group or grex with its word; empty when there is none.
func (n Name) group() string {
	switch {
	case n.Group == "":
		return ""
	case n.Grex:
		return n.Group + " grex"
	}
	return n.Group + " Group"
}

func (p *parser) setCultivar(c string) {
	if n := len(c) - 1; n > 1 && c[0] == '\'' && c[n] == '\'' { // ''Nana''
		c = c[1:n]
	}
	p.n.Cultivar, p.n.Rank = c, CultivarRank
	p.canon = append(p.canon, "‘"+c+"’")
	p.from = p.i
}
