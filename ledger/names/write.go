package names

import "strings"

// String is the whole name in normal spelling: rank terms of the Code, × for
// the letter, the Code's letters in epithets, cf. and aff. with their stop, &
// between authors, no years, qualifiers and remarks where they stand. Read
// again it is the same name; a text that would not be is given as it stands.
func (n Name) String() string {
	if n.Text == "" {
		return strings.TrimSpace(n.Canonical() + " " + n.Authorship())
	}
	s := normalText(n.Text)
	m, err := Read(s)
	if err != nil || m.Canonical() != n.Canonical() || m.Authorship() != n.Authorship() || m.Rank != n.Rank ||
		m.IdentificationQualifier() != n.IdentificationQualifier() || normalText(m.Text) != s {
		return n.Text
	}
	return s
}

// normalText writes the text of a name token by token in normal spelling.
func normalText(text string) string {
	p := parser{toks: split(text)}
	if len(p.toks) == 0 {
		return text
	}
	if _, reason := p.all(); reason != "" {
		return text
	}
	var b strings.Builder
	for i := 0; i < len(p.toks); i++ {
		t := &p.toks[i]
		if t.norm == noWords || (t.text == "." || t.text == ":") && t.glued && i > 0 && p.toks[i-1].kind != Upright {
			continue
		}
		first, w := t, t.text
		switch {
		case t.kind == Author:
			j := i
			for j+1 < len(p.toks) && p.toks[j+1].kind == Author {
				j++
			}
			w = normalAuthors(textOf(p.toks[i : j+1]))
			i, t = j, &p.toks[j]
		case t.norm != "":
			w = t.norm
		case t.kind == Italic:
			w = strings.TrimRight(w, ",;:")
		}
		if w == "" {
			continue
		}
		if b.Len() > 0 && (!first.glued || i > 0 && !gluesNext(&p.toks[i-1]) || first.norm == "or") {
			b.WriteByte(' ')
		}
		b.WriteString(w)
		if t.kind != Upright && ends(t.text) && i+1 < len(p.toks) && p.toks[i+1].kind == Upright {
			b.WriteByte(',') // what follows is a remark
		}
	}
	return b.String()
}

// gluesNext reports whether the token after t may stand against it.
func gluesNext(t *token) bool { return !ends(t.text) && t.norm != "or" }

// ends reports whether w ends with a comma or semicolon.
func ends(w string) bool { return w[len(w)-1] == ',' || w[len(w)-1] == ';' }

// IdentificationQualifier is the doubt in the form of Darwin Core: each
// qualifier with the part of the name that it governs, "aff. agrifolia var.
// oxyadenia"; what says how wide the name is meant ("agg.", "sp. 3") stands by
// itself. Several are parted by " | ".
func (n Name) IdentificationQualifier() string {
	if len(n.Qualifiers) == 0 {
		return ""
	}
	out := make([]string, 0, len(n.Qualifiers))
	for _, q := range n.Qualifiers {
		if q.Doubt && q.Governs != "" && !strings.Contains(q.Word, " ") || strings.HasSuffix(q.Word, "gr.") && q.Doubt || strings.HasPrefix(q.Word, "vel ") {
			out = append(out, strings.TrimSpace(q.Word+" "+q.Governs))
		} else {
			out = append(out, q.Word)
		}
	}
	return strings.Join(out, " | ")
}
