package exchange

import (
	"bytes"
	"fmt"
	"strings"

	"blotter/ledger"
)

// Text is the proposal as a mapping file: the reason of each guess and a few
// cells stand as comments before what they led to.
func (x *Proposal) Text() []byte {
	var b bytes.Buffer
	comment(&b, "", fmt.Sprintf("Which column of %s feeds which field: a first guess from the headings and the cells of %d rows. Look through it, mend it, then: blotter import FILE --map THIS-FILE", x.table, x.profile.Rows))
	m := *x.Mapping
	m.Columns, m.Opinions = nil, nil
	comment(&b, "", "list: by this name and its key a row is found again in a later version of the table, whatever the file is called then")
	for _, field := range []string{"number", "key"} {
		for _, why := range x.why[field] {
			comment(&b, "", field+": "+why)
		}
	}
	b.Write(ledger.EncodeMapping(&m))
	for i, c := range x.Mapping.Columns {
		x.entry(&b, i, "columns:\n", ledger.EncodeMapping(&ledger.Mapping{Columns: []ledger.Column{c}}), append([]ledger.Leaf{c.Column}, c.And...))
	}
	for i, o := range x.Mapping.Opinions {
		heads := append([]ledger.Leaf{o.Names}, o.And...)
		x.entry(&b, i, "opinions:\n", ledger.EncodeMapping(&ledger.Mapping{Opinions: []ledger.OpinionMap{o}}), append(heads, o.ByCol, o.Dated, o.WhyCol))
	}
	x.homeless(&b)
	return b.Bytes()
}

// entry writes one entry of a list below what it was guessed from.
func (x *Proposal) entry(b *bytes.Buffer, i int, list string, text []byte, heads []ledger.Leaf) {
	if i == 0 {
		b.WriteString(list)
	}
	for _, h := range heads {
		c := x.profile.find(h.Text)
		if c == nil {
			continue
		}
		comment(b, "  ", c.shown(x.profile.Rows))
		for _, why := range x.why[c.Head] {
			comment(b, "  ", why)
		}
	}
	b.Write(bytes.TrimPrefix(text, []byte(list)))
}

// shown is a column with a few of its cells.
func (c *ColumnProfile) shown(rows int) string {
	var cells []string
	for _, s := range c.Samples {
		cells = append(cells, fmt.Sprintf("%q", clip(s)))
	}
	how := fmt.Sprintf("%d of %d rows", c.Filled, rows)
	if c.Filled == rows {
		how = "every row"
	}
	if len(cells) == 0 {
		return c.Head + ": " + how
	}
	return c.Head + ": " + strings.Join(cells, ", ") + "; in " + how
}

// homeless lists the columns that feed no field.
func (x *Proposal) homeless(b *bytes.Buffer) {
	p, err := NewPlan(x.heads(), x.Mapping, Options{})
	if err != nil || len(p.Kept) == 0 {
		return
	}
	comment(b, "", "These columns have no field. Their cells are kept to the letter under import:. To give one a field, write it above; to leave one out, write ignore: [HEADING].")
	for _, h := range p.Kept {
		c := x.profile.find(h)
		if c.Filled == 0 {
			comment(b, "", "  "+h+": no cell has words")
			continue
		}
		comment(b, "", "  "+c.shown(x.profile.Rows))
		for _, why := range x.why[h] {
			comment(b, "", "    "+why)
		}
	}
}

func (x *Proposal) heads() (heads []string) {
	for _, c := range x.profile.Columns {
		heads = append(heads, c.Head)
	}
	return heads
}

// comment writes words as comment lines of at most 100 letters.
func comment(b *bytes.Buffer, indent, words string) {
	deeper := words[:len(words)-len(strings.TrimLeft(words, " "))]
	line := indent + "#" + deeper
	for _, w := range strings.Fields(words) {
		if len(line)+1+len(w) > 100 {
			b.WriteString(line + "\n")
			line = indent + "#" + deeper + "  "
		}
		line += " " + w
	}
	b.WriteString(line + "\n")
}
