package quality

import (
	"strings"
	"unicode"
)

// Row is one record as Darwin Core terms. Its zero value is an empty row; it
// may be cleared and filled again.
type Row struct {
	values [termCount]string
	has    [termCount]bool
}

// Set gives a term its value. A term that stands in two columns keeps the
// first that says something.
func (r *Row) Set(t Term, value string) {
	if !r.has[t] || empty(r.values[t]) {
		r.values[t], r.has[t] = value, true
	}
}

// Value is what the row says under a term; "" when it has no such column.
func (r *Row) Value(t Term) string { return r.values[t] }

// Clear takes all values out.
func (r *Row) Clear() { *r = Row{} }

// Columns says which term each column of a table holds.
type Columns []Term

// ColumnsOf reads the headings of a table; a heading that no test looks at
// has no term.
func ColumnsOf(headings []string) Columns {
	c := make(Columns, len(headings))
	for i, h := range headings {
		c[i], _ = TermOf(h)
	}
	return c
}

// Known is the number of columns that some test looks at.
func (c Columns) Known() int {
	n := 0
	for _, t := range c {
		if t != none {
			n++
		}
	}
	return n
}

// Fill puts the cells of one line into r, which is cleared first. Cells that
// are missing at the end of a short line are empty.
func (c Columns) Fill(r *Row, cells []string) {
	r.Clear()
	for i, t := range c {
		switch {
		case t == none:
		case i < len(cells):
			r.Set(t, cells[i])
		default:
			r.Set(t, "")
		}
	}
}

// empty is bdqval:Empty: no characters, or nothing but white space and
// characters that do not print. Words that stand for nothing ("null", "NaN")
// are words.
func empty(s string) bool {
	for _, c := range s {
		if !blank(c) {
			return false
		}
	}
	return true
}

// blank reports whether c leaves no mark: white space, controls, and format
// characters such as the zero-width space.
func blank(c rune) bool {
	if c < 0x80 {
		return c <= ' ' || c == 0x7f
	}
	return unicode.IsSpace(c) || unicode.In(c, unicode.Cc, unicode.Cf, unicode.Zs, unicode.Zl, unicode.Zp)
}

// trim takes blank characters from both ends.
func trim(s string) string { return strings.TrimFunc(s, blank) }
