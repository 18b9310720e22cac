package field

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// values are the words of each field. Answers that join are put behind each
// other in the order of the form, each behind its question's word.
func (p *parse) values(said section) map[string]string {
	out := map[string]string{}
	for i := range questions {
		q := &questions[i]
		a := said[q.Key]
		if a == nil || a.value == "" {
			continue
		}
		v := p.wordsIn(a)
		switch {
		case !q.Join && v == "-":
			out[q.Path] = p.None(q.Path)
		case !q.Join:
			out[q.Path] = q.ticked(v)
		case q.leads():
			if v == "-" {
				v = p.None(q.Path)
			}
			out[q.Path] = before(v, out[q.Path])
		default:
			if v == "-" {
				v = a.none
			}
			out[q.Path] = behind(out[q.Path], folded(a.asked)+": "+v)
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

// before puts the answer that leads before the others.
func before(lead, had string) string {
	if had == "" {
		return lead
	}
	return behind(lead, had)
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
