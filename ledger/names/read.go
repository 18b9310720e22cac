package names

import (
	"fmt"
	"strings"
	"unicode"
)

// maxText is the longest text that is taken for a name, in bytes.
const maxText = 500

// Read reads a name. The error is a *NotAName with the reason; a missing
// author, an unusual rank, a spelling that the Code would mend are no reasons.
func Read(text string) (Name, error) {
	if len(text) > maxText {
		return Name{}, &NotAName{Text: text[:80], Reason: "too long for a name"}
	}
	text = strings.Trim(tidy(text), " ,;")
	refuse := func(reason string) (Name, error) { return Name{}, &NotAName{Text: text, Reason: reason} }
	if n := len(text); n > 2 && text[0] == '"' && text[n-1] == '"' && strings.Count(text, `"`) == 2 {
		text = strings.Trim(text[1:n-1], " ,;")
	}
	text = withoutFrame(text)
	if text == "" {
		return Name{}, &NotAName{Reason: "no name is given", None: true}
	}
	if r, ok := badRune(text); ok {
		return refuse(fmt.Sprintf("the character %q cannot stand in a name", r))
	}
	toks := split(text)
	if len(toks) == 0 {
		return refuse("no name is given")
	}
	if r := refusal(toks); r != nil {
		r.Text = text
		return Name{}, r
	}
	p := parser{toks: toks}
	n, reason := p.all()
	if reason != "" {
		return refuse(reason)
	}
	n.authorOrEpithet(toks)
	n.Text, n.pieces = makePieces(p.toks)
	return n, nil
}

// withoutFrame leaves out what is set around a whole name: the brackets of a
// name that somebody supplied, the asterisks of lists. Brackets about a
// formula stay, since they part its members.
func withoutFrame(text string) string {
	text = strings.Trim(text, "*")
	n := len(text)
	if n < 3 || !(text[0] == '[' && text[n-1] == ']' || text[0] == '(' && text[n-1] == ')') || strings.ContainsAny(text[1:n-1], "[]()×") {
		return strings.TrimSpace(text)
	}
	return strings.TrimSpace(text[1 : n-1])
}

// refusal says why tokens cannot be a botanical name at first sight.
func refusal(toks []token) *NotAName {
	first := strings.ToLower(strings.Trim(toks[0].text, ".,:[]()"))
	if firstNone[first] || firstNone[first+"."] {
		if len(toks) > 1 && leadingRanks[first] != 0 && isGenus(toks[1].text) || unnamedFamily(toks) {
			return nil
		}
		return &NotAName{Reason: "the words name no plant", None: true}
	}
	if first == provisional {
		return &NotAName{Reason: "a provisional name of a bacterium, not a botanical name"}
	}
	for i, t := range toks {
		if r := organism(toks, i, t.text); r != "" {
			return &NotAName{Reason: r}
		}
	}
	return nil
}

// organism says that the word at i shows the words to be no plant's name; ""
// when it does not.
func organism(toks []token, i int, text string) string {
	w := strings.Trim(text, ".,:;()[]")
	if len(w) < 3 {
		return ""
	}
	switch {
	case has(organisms, w) || strings.HasSuffix(text, "RNA") || strings.HasPrefix(text, "RNA") || strings.HasSuffix(text, "DNA"),
		i > 0 && (w == "bacterium" || w == "Bacterium") && strings.HasSuffix(toks[i-1].text, "ia") && (len(toks) == i+1 || !isAuthorly(toks[i+1].text)),
		strings.HasSuffix(w, "phytoplasma") || strings.HasSuffix(w, "incertaesedis"),
		strings.Contains(w, "satellites-") || strings.Contains(w, "satellite-"):
		return "not a botanical name: " + quote(text)
	case i == 0 && len(w) > 6 && (strings.HasSuffix(w, "virus") || strings.HasSuffix(w, "viridae") || strings.HasSuffix(w, "virales") || strings.HasSuffix(w, "viricetes")):
		return "a virus, not a botanical name"
	}
	return ""
}

// isAuthorly reports whether w begins as an author's name does.
func isAuthorly(w string) bool { return upperAt(w, 0) && lowerAt(w, 1) || w[0] == '(' }

// all reads the names that "or" and × join.
func (p *parser) all() (Name, string) {
	var alternatives, parents []Name
	sign := ""
	closeGroup := func() {
		alternatives = append(alternatives, formula(parents, sign))
		parents, sign = nil, ""
	}
	for {
		n, reason := p.name()
		if reason != "" {
			return Name{}, reason
		}
		parents = append(parents, n)
		p.inherit, p.species = n.Genus, n.Species
		if p.i >= len(p.toks) {
			closeGroup()
			break
		}
		t := &p.toks[p.i]
		p.i++
		if t.text == "×" || t.text == "+" {
			t.kind, sign = Cross, t.text
			if t.letter {
				p.n.Warnings = nil
				p.warn("name-letter-x", "the sign of a hybrid is ×, not the letter x (Art. H.3A)")
				p.n.Warnings[0].Spelling = true
				parents[len(parents)-1].Warnings = append(parents[len(parents)-1].Warnings, p.n.Warnings...)
			}
			if p.openParent() {
				parents = append(parents, Name{})
				closeGroup()
				break
			}
			continue
		}
		t.kind, t.norm = Upright, "or"
		closeGroup()
		if p.i >= len(p.toks) {
			return Name{}, "nothing follows " + quote(t.text)
		}
	}
	if len(alternatives) == 1 {
		return alternatives[0], ""
	}
	n := common(alternatives)
	n.Or = alternatives
	return n, ""
}

// openParent takes the end of a formula whose second parent is not named:
// "Salix aurita ×", "Salix aurita × ?".
func (p *parser) openParent() bool {
	rest := p.toks[p.i:]
	if len(rest) == 1 && rest[0].text == "?" {
		rest[0].kind = Upright
		p.i++
		return true
	}
	return len(rest) == 0
}

// formula is the name of a hybrid formula, or the one name itself.
func formula(parents []Name, sign string) Name {
	if len(parents) == 1 {
		return parents[0]
	}
	n := common(parents)
	n.Parents, n.sign = parents, sign
	return n
}

// common holds what names have in common: the genus, and whatever was said of
// each.
func common(list []Name) Name {
	n := Name{Genus: list[0].Genus, Rank: list[0].Rank}
	for _, m := range list {
		if m.Genus != n.Genus && m.Text+m.Genus+m.Uninomial != "" {
			n.Genus = ""
		}
		n.Rank = max(n.Rank, m.Rank)
		n.Qualifiers = append(n.Qualifiers, m.Qualifiers...)
		n.Warnings = append(n.Warnings, m.Warnings...)
	}
	return n
}

// title is an all-capitals word as a genus is written.
func title(w string) string {
	r := []rune(strings.ToLower(w))
	r[0] = unicode.ToUpper(r[0])
	return string(r)
}
