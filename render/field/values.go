package field

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// values are the words of each field. Of answers that join,
// the one that is called as the field leads; the others follow in the order of
// the form, each behind its question's word.
func (p *parse) values(said section) map[string]string {
	out := map[string]string{}
	for _, leads := range []bool{true, false} {
		for i := range questions {
			q := &questions[i]
			if a := said[q.Key]; q.leads() == leads && a != nil && a.value != "" {
				p.value(out, q, a)
			}
		}
	}
	for slot, a := range said {
		if questionOf(slot) != nil || a.value == "" {
			continue
		}
		v := p.wordsIn(a)
		if v == "-" {
			v = p.None(slot)
		}
		out[slot] = v
	}
	return out
}

// value puts an answer into the field of its question.
func (p *parse) value(out map[string]string, q *Question, a *answer) {
	v := p.wordsIn(a)
	switch {
	case q.Join && !q.leads():
		if v == "-" {
			v = a.none
		}
		out[q.Path] = behind(out[q.Path], folded(a.asked)+": "+v)
	case v == "-":
		out[q.Path] = p.None(q.Path)
	default:
		out[q.Path] = q.ticked(v)
	}
}

// wordsIn are the words of an answer: of a field form to the letter, of
// another file without the quotes around them.
func (p *parse) wordsIn(a *answer) string {
	v := a.value
	if n := len(v); !p.form.Field && n >= 2 && (v[0] == '"' || v[0] == '\'') && v[n-1] == v[0] {
		return v[1 : n-1]
	}
	return v
}

// behind puts a further answer behind those that a field has.
func behind(had, more string) string {
	switch {
	case had == "":
		return capital(more)
	case strings.ContainsRune(".!?;", rune(had[len(had)-1])):
		return had + " " + capital(more)
	}
	return had + "; " + more
}

// capital begins a sentence.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// ticked puts the field's own word for one that the form offers in any of its
// languages; other words stay to the letter.
func (q *Question) ticked(v string) string {
	if len(q.Ticks) == 0 {
		return v
	}
	if !q.list() {
		return q.tick(v)
	}
	sep := ","
	if strings.Contains(v, ";") {
		sep = ";"
	}
	var all []string
	for _, w := range strings.Split(v, sep) {
		if w = strings.TrimSpace(w); w != "" {
			all = append(all, q.tick(w))
		}
	}
	if len(all) == 0 {
		return v
	}
	return strings.Join(all, sep+" ")
}

func (q *Question) tick(w string) string {
	for _, l := range languages {
		for _, t := range q.Ticks {
			if f := folded(w); f == folded(t.Is) || f == folded(l.Say(t.Says)) {
				return t.Is
			}
		}
	}
	return w
}
