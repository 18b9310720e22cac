package names

import "strings"

// cutFormula sets the brackets that hold parents of a hybrid apart from the
// words: "(Salix aurita × S. cinerea) × S. repens", "Epilobium (montanum ×
// roseum)". Brackets of other use stay with their words.
func cutFormula(toks []token) []token {
	for i := 0; i < len(toks); i++ {
		w := toks[i].text
		if len(w) < 3 || w[0] != '(' || !(i == 0 || toks[i-1].text == "×" || toks[i-1].text == "(" || i == 1 && isGenus(toks[0].text)) {
			continue
		}
		end := closing(toks, i)
		if end < 0 {
			continue
		}
		out := make([]token, 0, len(toks)+2)
		out = append(append(out, toks[:i]...), token{text: "(", glued: toks[i].glued})
		out = append(splitWord(out, w[1:]), toks[i+1:end]...)
		out[i+1].glued = true
		last := strings.TrimRight(toks[end].text, ",;")
		out = append(splitWord(out, last[:len(last)-1]), token{text: ")" + toks[end].text[len(last):], glued: true})
		toks = append(out, toks[end+1:]...)
	}
	return toks
}

// closing is the token whose end closes the bracket that the token at i
// opens, when a × stands between them at its level; -1 when none does.
func closing(toks []token, i int) int {
	depth, crossed := 0, false
	for j := i; j < len(toks); j++ {
		t := toks[j].text
		depth += strings.Count(t, "(")
		crossed = crossed || t == "×"
		depth -= strings.Count(t, ")")
		if depth > 0 {
			continue
		}
		if crossed && depth == 0 && j > i+1 && len(t) > 1 && strings.HasSuffix(strings.TrimRight(t, ",;"), ")") {
			return j
		}
		return -1
	}
	return -1
}

// skipMarks passes over what stands before a name in a list and is no part of
// it: a number, a letter, a dash, a dagger; and the bracket of a formula.
func (p *parser) skipMarks() {
	for p.i+1 < len(p.toks) {
		t := &p.toks[p.i]
		switch {
		case t.text == "(":
		case p.i == 0 && isListMark(t.text) && (isGenus(p.toks[1].text) || isShort(p.toks[1].text) || p.toks[1].text == "×" || doubtWord(p.toks[1].text) != ""):
			t.norm = noWords
		default:
			return
		}
		t.kind = Upright
		p.i++
	}
}

// isListMark reports whether w numbers or marks the entry of a list: "3.",
// "12a)", "(4)", "b)", "–", "•", "†".
func isListMark(w string) bool {
	switch w {
	case "-", "–", "—", "*", "•", "·", "†":
		return true
	}
	in := strings.Trim(w, "().")
	if in == "" || len(in) == len(w) || len(in) > 5 {
		return false
	}
	digits := 0
	for digits < len(in) && in[digits] >= '0' && in[digits] <= '9' {
		digits++
	}
	if digits == 0 {
		return len(in) == 1 && in[0] >= 'a' && in[0] <= 'z' && w[len(w)-1] == ')'
	}
	return len(in)-digits <= 1
}
