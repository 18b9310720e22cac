package names

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// author takes one word of the authors of the name read so far.
func (p *parser) author(w string) bool {
	t := &p.toks[p.i]
	if !p.isAuthor(w) {
		return false
	}
	if strings.HasPrefix(t.text, "(") && !strings.Contains(t.text, ")") {
		p.bracket()
		return true
	}
	t.kind = Author
	p.i++
	return true
}

// bracket takes the words of a bracket up to where it closes, or one word
// when it never does.
func (p *parser) bracket() {
	depth := 0
	for j := p.i; j < len(p.toks); j++ {
		depth += strings.Count(p.toks[j].text, "(") - strings.Count(p.toks[j].text, ")")
		if depth <= 0 {
			for ; p.i <= j; p.i++ {
				p.toks[p.i].kind = Author
			}
			return
		}
	}
	p.toks[p.i].kind = Author
	p.i++
}

// isAuthor reports whether w can be a word of an author citation.
func (p *parser) isAuthor(w string) bool {
	if w == "" {
		return p.i > p.from
	}
	r, size := utf8.DecodeRuneInString(w)
	switch {
	case unicode.IsUpper(r):
		return true
	case (r == '(' || r == '[') && len(w) > 1 && w[1] >= '0' && w[1] <= '9' && !p.isYear(strings.Trim(w, "()[]")):
		return false
	case r == '(' || r == '[' || r == ')' || r == ']' || w == ":":
		return true
	case isApostrophe(r) && len(w) > size:
		return true
	case r >= '0' && r <= '9':
		return p.isYear(w)
	case r == '"' && p.i > p.from && quotedYear(w):
		return true
	case joiners[w] || trailers[w]:
		return true
	case particles[w] || particles[strings.TrimRight(w, ".")]:
		return true
	case strings.HasPrefix(w, "d'") || strings.HasPrefix(w, "d’") || strings.HasPrefix(w, "d‘") || strings.HasPrefix(w, "l'") || strings.HasPrefix(w, "in't"):
		return true
	case strings.HasPrefix(w, "v.") || strings.HasPrefix(w, "f."):
		return true
	}
	return innerCapital(w) || unicode.In(r, unicode.Han, unicode.Cyrillic)
}

// innerCapital reports whether w is a name such as duPont or deLaub.
func innerCapital(w string) bool {
	for i, r := range w {
		if i > 0 && unicode.IsUpper(r) {
			return true
		}
	}
	return false
}

// isYear reports whether w is the year of publication or a page after it.
func (p *parser) isYear(w string) bool {
	digits := 0
	for digits < len(w) && w[digits] >= '0' && w[digits] <= '9' {
		digits++
	}
	if p.i == p.from && digits != 4 {
		return false
	}
	return digits == 4 || p.i > p.from && isYearColon(p.toks[p.i-1].text) || digits == 3 && strings.HasSuffix(w, "?")
}

// quotedYear reports whether w is a year in quotes, the one that a work bears
// and that is not its true one: "1753".
func quotedYear(w string) bool {
	in := strings.Trim(w, "\"“”,;[]")
	return len(in) >= 4 && len(in) < len(w) && in[0] == '1' && strings.Trim(in, "0123456789-–") == ""
}

// isYearColon reports whether w is a year before its page: "1830:".
func isYearColon(w string) bool { return len(w) == 5 && w[4] == ':' && w[0] >= '1' && w[0] <= '2' }

// authorsSince reports whether authors stand behind the last part read.
func (p *parser) authorsSince() bool {
	for _, t := range p.toks[p.from:p.i] {
		if t.kind == Author {
			return true
		}
	}
	return false
}

// endAuthors keeps the authors read for the part at hand.
func (p *parser) endAuthors() {
	if p.i > p.from && p.authors[p.level] == "" {
		p.authors[p.level] = strings.Trim(textOf(p.toks[p.from:p.i]), " ,;")
	} else if p.i > p.from {
		p.authors[p.level] += " " + strings.Trim(textOf(p.toks[p.from:p.i]), " ,;")
	}
	p.from = p.i
}

// finish puts the name together.
func (p *parser) finish() (Name, string) {
	p.endAuthors()
	n := &p.n
	if len(n.Ranks) > 0 && n.Species == "" && n.Ranks[len(n.Ranks)-1].Marker == "" {
		n.Ranks = nil
	}
	below := 0
	for i := range n.Ranks {
		if !n.Ranks[i].Rank.infrageneric() {
			below++
		}
		n.Ranks[i].Authors = p.authors[min(i+2, len(p.authors)-1)]
	}
	switch {
	case len(n.Ranks) > 0 && (below > 0 || n.Species == ""):
		n.Authors, n.SpeciesAuthors = n.Ranks[len(n.Ranks)-1].Authors, p.authors[1]
	case n.Species != "":
		n.Authors = p.authors[1]
	default:
		n.Authors = p.authors[0]
	}
	if below > 0 && n.Authors != "" && n.Ranks[len(n.Ranks)-1].Epithet == n.Species {
		p.warn("name-autonym-author", "no author stands after an autonym (Art. 26.1)")
	}
	n.canon, n.firm = p.canon, len(p.canon)
	for _, q := range p.pending {
		if q.part >= len(p.canon) {
			p.qualify(q.word, p.whole(), true)
			continue
		}
		end := len(p.canon)
		if q.only {
			end = q.part + 1
		}
		p.qualify(q.word, strings.Join(p.canon[q.part:end], " "), true)
		n.firm = min(n.firm, q.part)
	}
	return p.n, ""
}

// normalAuthors is an author citation in regular spelling: & for et and and,
// f. for fil., no year.
func normalAuthors(s string) string {
	if s == "" {
		return ""
	}
	words := strings.Fields(partBrackets(s))
	out := words[:0]
	for _, w := range words {
		if core := strings.Trim(w, "(),;:[]\"“”"); core != "" && core[0] >= '0' && core[0] <= '9' {
			if n := len(out); n > 0 {
				out[n-1] = strings.TrimRight(out[n-1], ",:")
				if strings.Count(w, ")") > strings.Count(w, "(") {
					out[n-1] += ")"
				}
			}
			continue
		}
		switch w {
		case "et", "and", "und", "og", "och":
			w = "&"
			if n := len(out); n > 0 {
				out[n-1] = strings.TrimRight(out[n-1], ",")
				if out[n-1] == "&" {
					continue
				}
			}
		case "ex.":
			w = "ex"
		case "al", "alii":
			w = "al."
		case "fil.", "fil", "filius":
			w = "f."
		}
		out = append(out, w)
	}
	return strings.TrimRight(strings.Join(out, " "), " ,;")
}

// partBrackets sets a space between a closing bracket and the author after it.
func partBrackets(s string) string {
	for i := 0; i+1 < len(s); i++ {
		if s[i] == ')' && (upperAt(s, i+1)) {
			s = s[:i+1] + " " + s[i+1:]
		}
	}
	return s
}
